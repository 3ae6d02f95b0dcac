package coldward.sheet;

import coldward.quantity.DataError;
import coldward.sheet.keys.GuardKeys;
import coldward.sheet.keys.SheetKeys;
import coldward.sheet.keys.Shorthand;
import coldward.sheet.yaml.Tree;
import coldward.sheet.yaml.YamlFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A sheet and those it is based on, merged key by key. Naming another class, plastic, metal or counter drops what the
 * other sheet says about the old one; giving one of two ways of saying a thing drops the other way.
 *
 * @param merged shorthand written out
 * @param raw every file's own tree as written, this sheet first
 */
record Chain(Tree.Dict merged, List<Tree> raw) {

    private static final int LONGEST = 10;
    private static final Set<String> SELECTORS = Set.of("class", "name");

    static Chain read(Path file) {
        List<Path> seen = new ArrayList<>();
        List<Tree> raw = new ArrayList<>();
        Tree.Dict merged = read(file, seen, raw);
        return new Chain(merged, raw);
    }

    /** A text that is not based on anything. */
    static Chain parse(String name, String text) {
        Tree tree = YamlFile.parse(name, text);
        return new Chain(standard(tree), List.of(tree));
    }

    private static Tree.Dict read(Path file, List<Path> seen, List<Tree> raw) {
        Tree tree = YamlFile.read(file);
        raw.add(tree);
        seen.add(real(file));
        Tree.Dict own = standard(tree);
        Tree.Entry based = own.entries().get("based_on");
        if (based == null || !(based.value() instanceof Tree.Scalar name) || name.kind() != Tree.Kind.TEXT) {
            return own;
        }
        Path other = otherFile(file, name);
        if (!Files.exists(other)) {
            throw name.place()
                    .error("based_on", "there is no file " + other + "; the name is taken relative to " + file);
        }
        if (seen.contains(real(other))) {
            throw name.place()
                    .error(
                            "based_on",
                            "%s is based on %s, which is based on it again; take one based_on out"
                                    .formatted(file, other));
        }
        if (seen.size() >= LONGEST) {
            throw name.place()
                    .error(
                            "based_on",
                            "%s is based on %s, the eleventh sheet in a row; at most 10 may follow one another"
                                    .formatted(file, other));
        }
        return merge("", read(other, seen, raw), own.without("based_on"));
    }

    private static Path otherFile(Path file, Tree.Scalar name) {
        try {
            Path parent = file.getParent();
            Path other = Path.of(name.text());
            return parent == null ? other : parent.resolve(other);
        } catch (InvalidPathException e) {
            throw name.place().error("based_on", name.words() + " is not a file name; write for example heron.yaml");
        }
    }

    private static Path real(Path file) {
        try {
            return file.toRealPath();
        } catch (IOException e) {
            throw new DataError(file.toString(), 0, "", "this file could not be found again; check the path");
        }
    }

    /** A sheet put together in memory, in the standard form. */
    static Tree.Dict standardOf(Tree.Dict sheet) {
        return standard(sheet);
    }

    /** Shorthand written out, and a bore at the top moved into the neck. */
    private static Tree.Dict standard(Tree tree) {
        if (!(tree instanceof Tree.Dict)) {
            throw tree.place()
                    .error("", tree.words() + " where a map is wanted; begin with for example printer: heron");
        }
        Tree.Dict dict = (Tree.Dict) Shorthand.expanded(SheetKeys.SHEET, tree);
        Tree.Entry bore = dict.entries().get("bore");
        if (bore == null) {
            return dict;
        }
        Tree.Entry neck = dict.entries().get("neck");
        if (neck == null) {
            Tree.Dict only = new Tree.Dict(Map.of("bore", bore), true, false, bore.key());
            return dict.without("bore").with("neck", new Tree.Entry(bore.key(), only));
        }
        if (!(neck.value() instanceof Tree.Dict inner)) {
            return dict.without("bore");
        }
        if (inner.get("bore").isPresent()) {
            throw bore.key().error("bore", "the bore is also given as neck.bore; keep one of the two");
        }
        return dict.without("bore").with("neck", new Tree.Entry(neck.key(), inner.with("bore", bore)));
    }

    private static Tree.Dict merge(String path, Tree.Dict base, Tree.Dict own) {
        Map<String, Tree.Entry> merged = new LinkedHashMap<>(base.entries());
        String prefix = path.isEmpty() ? "" : path + ".";
        if (!path.isEmpty() && namesAnother(base, own)) {
            merged.clear();
        }
        for (SheetKeys.Alternative pair : SheetKeys.ALTERNATIVES) {
            if (gives(own, prefix, pair.instead())) {
                pair.of().forEach(k -> drop(merged, prefix, k));
            }
            if (pair.of().stream().anyMatch(k -> gives(own, prefix, k))) {
                drop(merged, prefix, pair.instead());
            }
        }
        if (path.equals("reading") && differs(base, own, "counter")) {
            if (text(own, "counter").equals("none")) {
                merged.clear();
            }
            GuardKeys.COUNTER_KEYS.values().forEach(keys -> keys.forEach(k -> drop(merged, prefix, k)));
        }
        own.entries().forEach((key, entry) -> {
            Tree.Entry before = merged.get(key);
            Tree.Entry after = entry;
            if (before != null
                    && before.value() instanceof Tree.Dict theirs
                    && entry.value() instanceof Tree.Dict ours) {
                after = new Tree.Entry(entry.key(), merge(prefix + key, theirs, ours));
            }
            merged.put(key, after);
        });
        return new Tree.Dict(merged, own.flow(), own.aliased(), own.place());
    }

    private static boolean namesAnother(Tree.Dict base, Tree.Dict own) {
        return SELECTORS.stream().anyMatch(s -> own.get(s).isPresent() && differs(base, own, s));
    }

    private static boolean differs(Tree.Dict base, Tree.Dict own, String key) {
        return own.get(key).isPresent() && !text(base, key).equals(text(own, key));
    }

    private static String text(Tree.Dict dict, String key) {
        return dict.get(key).orElse(dict) instanceof Tree.Scalar s ? s.text() : "";
    }

    private static boolean gives(Tree.Dict dict, String prefix, String path) {
        return path.startsWith(prefix)
                && dict.get(path.substring(prefix.length())).isPresent();
    }

    private static void drop(Map<String, Tree.Entry> entries, String prefix, String path) {
        if (path.startsWith(prefix)) {
            entries.remove(path.substring(prefix.length()));
        }
    }
}
