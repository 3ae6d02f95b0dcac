package coldward.sheet;

import coldward.quantity.DataError;
import coldward.quantity.OwnBug;
import coldward.sheet.keys.Json;
import coldward.sheet.yaml.Place;
import coldward.sheet.yaml.Tree;
import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import com.networknt.schema.path.NodePath;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Holds a file against its published schema, as an editor does. A second opinion: what the reader has already told at a
 * place is not told again. Loading the validator takes a while; only checks do so, never plain reading.
 */
final class SchemaCheck {

    private SchemaCheck() {}

    static void sheet(Tree tree, List<DataError> found) {
        check(SheetSchema.SCHEMA, tree, found);
    }

    static void shop(Tree tree, List<DataError> found) {
        check(ShopSchema.SCHEMA, tree, found);
    }

    private static final class SheetSchema {
        static final Schema SCHEMA = load("sheet.schema.json");
    }

    private static final class ShopSchema {
        static final Schema SCHEMA = load("shop.schema.json");
    }

    private static Schema load(String name) {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(resource(name), InputFormat.JSON);
    }

    /** A published schema, as shipped. */
    static String resource(String name) {
        try (InputStream in = SchemaCheck.class.getResourceAsStream("/coldward/schema/" + name)) {
            if (in == null) {
                throw new OwnBug("the schema " + name + " is not shipped");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new OwnBug("the schema " + name + " cannot be read", e);
        }
    }

    private static void check(Schema schema, Tree tree, List<DataError> found) {
        for (Error error : schema.validate(Json.of(tree))) {
            StringBuilder key = new StringBuilder();
            Place place = place(error.getInstanceLocation(), tree, key);
            String path = key.toString();
            boolean told = found.stream().anyMatch(p -> isSame(p, place, path));
            if (!told) {
                found.add(place.error(path, "does not fit the published schema: " + error.getMessage()));
            }
        }
    }

    private static boolean isSame(DataError told, Place place, String path) {
        boolean sameFile = told.file().equals(place.file());
        boolean sameKey = told.key().startsWith(path) || (!told.key().isEmpty() && path.startsWith(told.key()));
        return sameFile && (sameKey || told.line() == place.line());
    }

    private static Place place(NodePath location, Tree tree, StringBuilder key) {
        Tree at = tree;
        Place place = tree.place();
        for (int i = 0; i < location.getNameCount(); i++) {
            Object element = location.getElement(i);
            Tree.Entry entry = at instanceof Tree.Dict dict ? dict.entries().get(String.valueOf(element)) : null;
            if (entry != null) {
                key.append(key.isEmpty() ? "" : ".").append(element);
                place = entry.key();
                at = entry.value();
            } else if (at instanceof Tree.Sequence list
                    && element instanceof Integer index
                    && index < list.items().size()) {
                key.append('[').append(index).append(']');
                at = list.items().get(index);
                place = at.place();
            } else {
                break;
            }
        }
        return place;
    }
}
