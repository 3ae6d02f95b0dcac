package coldward.sheet.keys;

import coldward.quantity.Dimension;
import coldward.quantity.Units;
import java.util.Locale;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The JSON Schemas (2020-12) of sheet and shop file, written from the catalogue for editors and for checks. */
public final class Schemas {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private Schemas() {}

    /** The schema of build sheets, as text. */
    public static String sheet() {
        ObjectNode schema =
                root("Build sheet", "One filament printer: hot end, fan, reading, trip, response and wiring.", "sheet");
        fill(schema, SheetKeys.SHEET);
        ObjectNode inherits = NODES.objectNode();
        inherits.set("required", NODES.arrayNode().add("based_on"));
        schema.set("if", inherits);
        schema.set("else", required(SheetKeys.SHEET));
        return written(schema);
    }

    /** The schema of shop files, as text. */
    public static String shop() {
        ObjectNode schema = root("Shop file", "The printers watched together and how each is reached.", "shop");
        fill(schema, ShopKeys.SHOP);
        schema.set("allOf", NODES.arrayNode().add(required(ShopKeys.SHOP)));
        return written(schema);
    }

    private static String written(ObjectNode schema) {
        return MAPPER.writerWithDefaultPrettyPrinter()
                        .writeValueAsString(schema)
                        .replace("\r\n", "\n") + "\n";
    }

    private static ObjectNode root(String title, String description, String name) {
        ObjectNode schema = NODES.objectNode();
        schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
        schema.put("$id", "urn:coldward:schema:" + name);
        schema.put("title", title);
        schema.put("description", description);
        ObjectNode defs = NODES.objectNode();
        for (Dimension dimension : Dimension.values()) {
            defs.set(name(dimension, false), quantity(dimension, false));
            defs.set(name(dimension, true), quantity(dimension, true));
        }
        schema.set("$defs", defs);
        return schema;
    }

    private static String name(Dimension dimension, boolean signed) {
        String word = dimension.name().toLowerCase(Locale.ROOT);
        return signed ? "signed_" + word : word;
    }

    private static ObjectNode quantity(Dimension dimension, boolean signed) {
        ObjectNode text = NODES.objectNode();
        text.put("type", "string");
        text.put("pattern", Units.pattern(dimension, signed));
        if (dimension != Dimension.SHARE) {
            return text;
        }
        ObjectNode number = NODES.objectNode();
        number.put("type", "number");
        ObjectNode either = NODES.objectNode();
        either.set("anyOf", NODES.arrayNode().add(number).add(text));
        return either;
    }

    private static void fill(ObjectNode schema, Shape.Group group) {
        schema.put("type", "object");
        ObjectNode properties = NODES.objectNode();
        for (Key key : group.keys()) {
            ObjectNode property = of(key.shape());
            if (!key.meaning().isEmpty()) {
                property.put("description", key.meaning());
            }
            key.fallback()
                    .filter(f -> !f.text().isEmpty() && !(key.shape() instanceof Shape.Choices))
                    .ifPresent(f -> {
                        property.put("$comment", "where absent: " + f.text() + " (" + f.source() + ")");
                    });
            if (key.shape() instanceof Shape.Quantity || key.shape() instanceof Shape.Text) {
                property.set("examples", NODES.arrayNode().add(key.example()));
            }
            properties.set(key.name(), property);
        }
        schema.set("properties", properties);
        schema.put("additionalProperties", false);
    }

    private static ObjectNode of(Shape shape) {
        ObjectNode schema = NODES.objectNode();
        switch (shape) {
            case Shape.Quantity q -> {
                boolean signed = q.low().startsWith("-") || q.dimension() == Dimension.TEMPERATURE;
                schema.put("$ref", "#/$defs/" + name(q.dimension(), signed));
            }
            case Shape.Count c ->
                schema.put("type", "integer").put("minimum", c.low()).put("maximum", c.high());
            case Shape.Coefficient c ->
                schema.put("type", "number").put("minimum", c.low()).put("maximum", c.high());
            case Shape.Text t -> schema.put("type", "string").put("pattern", "^(?:" + t.pattern() + ")$");
            case Shape.Choice c -> schema.set("enum", words(c.words()));
            case Shape.Choices c -> {
                schema.put("type", "array").put("minItems", 1).put("uniqueItems", true);
                schema.set("items", NODES.objectNode().set("enum", words(c.words())));
            }
            case Shape.Texts t -> {
                schema.put("type", "array").put("minItems", 1);
                schema.set("items", of(t.each()));
            }
            case Shape.YesNo yn -> {
                ArrayNode either = NODES.arrayNode();
                either.add(NODES.objectNode().put("type", "boolean"));
                either.add(NODES.objectNode()
                        .set("enum", NODES.arrayNode().add("yes").add("no")));
                schema.set("anyOf", either);
            }
            case Shape.Anything a ->
                schema.set(
                        "type", NODES.arrayNode().add("boolean").add("number").add("string"));
            case Shape.Mark m -> {
                schema.set("type", NODES.arrayNode().add("string").add("integer"));
                schema.put("pattern", "^(?:" + m.pattern() + ")$");
            }
            case Shape.Marks m -> {
                schema.put("type", "array").put("minItems", 1);
                schema.set("items", of(m.each()));
            }
            case Shape.Body b ->
                schema.set("type", NODES.arrayNode().add("string").add("object").add("array"));
            case Shape.Group group -> group(schema, group);
            case Shape.Rows rows -> {
                schema.put("type", "array").put("minItems", rows.least());
                // a list replaces another whole, so its items are complete even on a sheet that is based on another
                ObjectNode item = of(rows.row());
                ObjectNode needed = required(rows.row());
                if (!needed.isEmpty()) {
                    item.set("allOf", NODES.arrayNode().add(needed));
                }
                schema.set("items", item);
            }
            case Shape.Named named -> {
                schema.put("type", "object");
                schema.set("additionalProperties", of(named.value()));
            }
        }
        return schema;
    }

    private static void group(ObjectNode schema, Shape.Group group) {
        if (group.shorthand().isEmpty() && group.listKey().isEmpty()) {
            fill(schema, group);
            return;
        }
        ArrayNode either = NODES.arrayNode();
        ObjectNode map = NODES.objectNode();
        fill(map, group);
        either.add(map);
        group.shorthand().ifPresent(name -> {
            ObjectNode word = group.shorthandWords().isEmpty()
                    ? of(group.key(name).orElseThrow().shape())
                    : NODES.objectNode().set("enum", words(group.shorthandWords()));
            either.add(word);
        });
        group.listKey()
                .ifPresent(name -> either.add(of(group.key(name).orElseThrow().shape())));
        schema.set("anyOf", either);
    }

    private static ArrayNode words(Iterable<String> words) {
        ArrayNode array = NODES.arrayNode();
        words.forEach(array::add);
        return array;
    }

    /** Only what must be there: apart, because a sheet that is based on another may leave it out. */
    private static ObjectNode required(Shape.Group group) {
        ObjectNode schema = NODES.objectNode();
        ArrayNode names = NODES.arrayNode();
        ObjectNode inner = NODES.objectNode();
        for (Key key : group.keys()) {
            if (key.need() == Key.Need.REQUIRED) {
                names.add(key.name());
            }
            if (key.shape() instanceof Shape.Group g) {
                setUnlessEmpty(inner, key.name(), required(g));
            }
        }
        if (!names.isEmpty()) {
            schema.set("required", names);
        }
        if (!inner.isEmpty()) {
            schema.set("properties", inner);
        }
        return schema;
    }

    private static void setUnlessEmpty(ObjectNode to, String name, ObjectNode value) {
        if (!value.isEmpty()) {
            to.set(name, value);
        }
    }
}
