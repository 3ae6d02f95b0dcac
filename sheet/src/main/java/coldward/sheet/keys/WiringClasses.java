package coldward.sheet.keys;

import coldward.quantity.OwnBug;
import coldward.sheet.yaml.Place;
import coldward.sheet.yaml.Tree;
import coldward.sheet.yaml.YamlFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The named classes of a wiring's parts, kept as a YAML file in the words of a sheet, and laid under what a sheet gives.
 * What comes from a class stands at a place whose file says so.
 */
public final class WiringClasses {

    /** The file of a place that is in a class begins with this; the class and its source follow. */
    public static final String FROM_CLASS = "class ";

    /**
     * One class.
     *
     * @param kind the key of the wiring that takes it: boards, fan, diodes, wires or connectors
     * @param name as on the sheet
     * @param meaning one line
     * @param source of the values, or that there is none
     * @param values as on the sheet
     */
    public record Entry(String kind, String name, String meaning, String source, Tree.Dict values) {}

    private static final Map<String, Map<String, Entry>> ALL = load();

    private WiringClasses() {}

    private static Map<String, Map<String, Entry>> load() {
        try (InputStream in = WiringClasses.class.getResourceAsStream("/coldward/sheet/wiring-classes.yaml")) {
            if (in == null) {
                throw new OwnBug("the wiring classes are missing");
            }
            Tree tree = YamlFile.parse("wiring-classes.yaml", new String(in.readAllBytes(), StandardCharsets.UTF_8));
            Map<String, Map<String, Entry>> all = new LinkedHashMap<>();
            dict(tree).entries().forEach((kind, classes) -> {
                Map<String, Entry> entries = new LinkedHashMap<>();
                dict(classes.value()).entries().forEach((name, e) -> entries.put(name, entry(kind, name, e.value())));
                all.put(kind, Collections.unmodifiableMap(entries));
            });
            return Collections.unmodifiableMap(all);
        } catch (IOException e) {
            throw new OwnBug("the wiring classes cannot be read", e);
        }
    }

    private static Entry entry(String kind, String name, Tree tree) {
        Tree.Dict dict = dict(tree);
        String source = text(dict, "source");
        Tree values = dict.get("values").orElseThrow(() -> new OwnBug("no values in " + name));
        Place place = Place.of(FROM_CLASS + name + ": " + source);
        return new Entry(kind, name, text(dict, "meaning"), source, dict(placed(values, place)));
    }

    private static Tree.Dict dict(Tree tree) {
        if (tree instanceof Tree.Dict dict) {
            return dict;
        }
        throw new OwnBug(
                "a map is wanted in the wiring classes at line " + tree.place().line());
    }

    private static String text(Tree.Dict dict, String key) {
        if (dict.get(key).orElse(dict) instanceof Tree.Scalar s) {
            return s.text().strip();
        }
        throw new OwnBug(
                "no " + key + " in the wiring classes at line " + dict.place().line());
    }

    private static Tree placed(Tree tree, Place place) {
        return switch (tree) {
            case Tree.Scalar s -> new Tree.Scalar(s.text(), s.kind(), false, place);
            case Tree.Sequence s ->
                new Tree.Sequence(s.items().stream().map(i -> placed(i, place)).toList(), s.flow(), false, place);
            case Tree.Dict d -> {
                Map<String, Tree.Entry> entries = new LinkedHashMap<>();
                d.entries().forEach((k, e) -> entries.put(k, new Tree.Entry(place, placed(e.value(), place))));
                yield new Tree.Dict(entries, d.flow(), false, place);
            }
        };
    }

    /** All classes of a kind, by name. */
    public static Map<String, Entry> of(String kind) {
        return ALL.getOrDefault(kind, Map.of());
    }

    /** The kinds there are. */
    public static List<String> kinds() {
        return List.copyOf(ALL.keySet());
    }

    static List<String> names(String kind) {
        return List.copyOf(of(kind).keySet());
    }

    /** The kind whose classes a group takes, such as {@code wiring.boards[0]}. */
    public static Optional<String> kindOf(String group) {
        String plain = Index.general(group);
        return ALL.keySet().stream()
                .filter(k -> plain.equals("wiring." + k) || plain.equals("wiring." + k + "[]"))
                .findFirst();
    }

    /** A merged sheet with the classes that its wiring names laid under what it gives. */
    public static Tree.Dict filled(Tree.Dict sheet) {
        Tree.Entry entry = sheet.entries().get("wiring");
        if (entry == null || !(entry.value() instanceof Tree.Dict)) {
            return sheet;
        }
        Tree.Dict wiring = (Tree.Dict) entry.value();
        for (String kind : ALL.keySet()) {
            Tree.Entry part = wiring.entries().get(kind);
            if (part != null) {
                wiring = wiring.with(kind, new Tree.Entry(part.key(), filled(kind, part.value())));
            }
        }
        return sheet.with("wiring", new Tree.Entry(entry.key(), wiring));
    }

    private static Tree filled(String kind, Tree tree) {
        return switch (tree) {
            case Tree.Sequence list ->
                new Tree.Sequence(
                        list.items().stream().map(i -> filled(kind, i)).toList(),
                        list.flow(),
                        list.aliased(),
                        list.place());
            case Tree.Dict own -> {
                Entry entry =
                        own.get("class").orElse(own) instanceof Tree.Scalar name ? of(kind).get(name.text()) : null;
                yield entry == null ? own : over(entry.values(), own);
            }
            default -> tree;
        };
    }

    /** What is given over what the class has: maps key by key, lists of named maps by name, the rest whole. */
    private static Tree.Dict over(Tree.Dict base, Tree.Dict own) {
        Map<String, Tree.Entry> joined = new LinkedHashMap<>();
        // a row begins with its own name, so that its place is the user's
        own.entries().forEach((k, e) -> {
            Tree.Entry below = base.entries().get(k);
            joined.put(k, below == null ? e : new Tree.Entry(e.key(), over(below.value(), e.value())));
        });
        base.entries().forEach(joined::putIfAbsent);
        return new Tree.Dict(joined, own.flow(), own.aliased(), own.place());
    }

    private static Tree over(Tree base, Tree own) {
        if (base instanceof Tree.Dict b && own instanceof Tree.Dict o) {
            return over(b, o);
        }
        if (base instanceof Tree.Sequence b && own instanceof Tree.Sequence o && named(b) && named(o)) {
            Map<String, Tree> rows = new LinkedHashMap<>();
            b.items().forEach(i -> rows.put(name(i), i));
            List<Tree> more = new ArrayList<>();
            for (Tree i : o.items()) {
                Tree below = rows.get(name(i));
                if (below == null) {
                    more.add(i);
                } else {
                    rows.put(name(i), over(below, i));
                }
            }
            more.addAll(0, rows.values());
            return new Tree.Sequence(more, o.flow(), o.aliased(), o.place());
        }
        return own;
    }

    private static boolean named(Tree.Sequence list) {
        return list.items().stream().allMatch(i -> !name(i).isEmpty());
    }

    private static String name(Tree row) {
        return row instanceof Tree.Dict d && d.get("name").orElse(d) instanceof Tree.Scalar s ? s.text() : "";
    }
}
