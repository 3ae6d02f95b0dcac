package coldward.sheet.keys;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** The catalogue by dotted path, in the order of documents; items of lists are written {@code []}. */
public final class Index {

    /** All keys of a sheet. */
    public static final Index SHEET = new Index(SheetKeys.SHEET);

    private final Map<String, Key> byPath = new LinkedHashMap<>();

    /** @param root whose keys are listed */
    public Index(Shape.Group root) {
        add("", root);
    }

    private void add(String prefix, Shape.Group group) {
        for (Key key : group.keys()) {
            String path = prefix + key.name();
            byPath.put(path, key);
            switch (key.shape()) {
                case Shape.Group inner -> add(path + ".", inner);
                case Shape.Rows rows -> add(path + "[].", rows.row());
                case Shape.Named named -> add(path + ".*.", named.value());
                default -> {
                    // a leaf
                }
            }
        }
    }

    /** All of them. */
    public Map<String, Key> all() {
        return Collections.unmodifiableMap(byPath);
    }

    /** The key at a path, whose list positions may be written out. */
    public Optional<Key> at(String path) {
        return Optional.ofNullable(byPath.get(general(path)));
    }

    /** A path with the positions in lists left out. */
    public static String general(String path) {
        return path.replaceAll("\\[\\d+]", "[]");
    }
}
