package coldward.sheet.keys;

import coldward.quantity.Checks;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import coldward.quantity.OwnBug;
import coldward.quantity.Units;
import coldward.sheet.yaml.Place;
import coldward.sheet.yaml.Tree;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Goes through a tree beside the catalogue, keeps every value by its dotted path and every finding. Shorthand must be
 * written out before. What is wrong is found in one go; a value kept here has the right kind and lies in its range.
 */
public final class Walk {

    /**
     * One value found.
     *
     * @param key where its key stands
     * @param tree the value
     */
    public record Cell(Place key, Tree tree) {

        /** The value as written. */
        public String text() {
            return tree instanceof Tree.Scalar s ? s.text().strip() : "";
        }
    }

    private final Map<String, Cell> cells = new LinkedHashMap<>();
    private final Map<String, Place> groups = new LinkedHashMap<>();
    private final List<DataError> problems = new ArrayList<>();
    private final Shape.Group root;

    private Walk(Shape.Group root) {
        this.root = root;
    }

    /** Goes through a whole file. */
    public static Walk through(Shape.Group root, Tree tree) {
        Walk walk = new Walk(root);
        walk.groups.put("", tree.place());
        walk.group("", root, tree, tree.place());
        return walk;
    }

    /** The values, by dotted path. */
    public Map<String, Cell> cells() {
        return Collections.unmodifiableMap(cells);
    }

    /** Where maps and lists stand, by dotted path. */
    public Map<String, Place> groups() {
        return Collections.unmodifiableMap(groups);
    }

    /** What is wrong. */
    public List<DataError> problems() {
        return Collections.unmodifiableList(problems);
    }

    /** Where a path stands, or the nearest map around it; empty where only the file is left. */
    public Optional<Place> place(String path) {
        String at = path;
        while (!at.isEmpty()) {
            Cell cell = cells.get(at);
            Place found = cell != null ? cell.key() : groups.get(at);
            if (found != null) {
                return Optional.of(found);
            }
            int dot = Math.max(at.lastIndexOf('.'), at.lastIndexOf('['));
            at = dot < 0 ? "" : at.substring(0, dot);
        }
        return Optional.empty();
    }

    private void problem(Place place, String path, String text) {
        problems.add(place.error(path, text));
    }

    private void group(String path, Shape.Group group, Tree tree, Place at) {
        if (!(tree instanceof Tree.Dict dict)) {
            problem(at, path, wrongKind(tree, "a map", example(path)));
            return;
        }
        String prefix = path.isEmpty() ? "" : path + ".";
        String previous = "";
        for (Map.Entry<String, Tree.Entry> e : dict.entries().entrySet()) {
            String name = e.getKey();
            Place keyPlace = e.getValue().key();
            Tree value = e.getValue().value();
            Optional<Key> key = group.key(name);
            if (key.isPresent()) {
                value(prefix + name, key.get(), value, keyPlace);
            } else if (isRestOfComma(name, value, dict, previous)) {
                String whole = dict.get(previous).orElse(value) instanceof Tree.Scalar s ? s.text() : "";
                String path2 = prefix + previous;
                problems.removeIf(p -> p.key().equals(path2));
                cells.remove(path2);
                problem(
                        keyPlace,
                        path2,
                        "%s,%s has a decimal comma; write a decimal point: %s.%s".formatted(whole, name, whole, name));
            } else {
                unknown(prefix, name, group, keyPlace);
            }
            previous = name;
        }
        if (dict.get("based_on").isEmpty() && dict.get("like").isEmpty()) {
            for (Key key : group.keys()) {
                if (key.need() == Key.Need.REQUIRED && dict.get(key.name()).isEmpty()) {
                    problem(
                            at,
                            prefix + key.name(),
                            "is missing; write for example %s: %s".formatted(key.name(), key.example()));
                }
            }
        }
    }

    /** In a map in braces, {@code length: 2,1 mm} is two entries for YAML. */
    private static boolean isRestOfComma(String name, Tree value, Tree.Dict dict, String previous) {
        return dict.flow()
                && value instanceof Tree.Scalar rest
                && rest.kind() == Tree.Kind.NOTHING
                && !name.isEmpty()
                && Character.isDigit(name.charAt(0))
                && dict.get(previous).orElse(dict) instanceof Tree.Scalar before
                && before.kind() == Tree.Kind.WHOLE_NUMBER;
    }

    private void unknown(String prefix, String name, Shape.Group group, Place place) {
        List<String> known = group.keys().stream().map(Key::name).toList();
        String shown = name.length() > 60 ? name.substring(0, 57) + "..." : name;
        Optional<String> near = Nearest.to(name, known);
        String hint;
        if (near.isPresent()) {
            hint = "did you mean " + near.get() + "?";
        } else {
            hint = elsewhere(name).orElse("known here: " + String.join(", ", known));
        }
        problem(place, prefix + shown, "there is no such key; " + hint);
    }

    private Optional<String> elsewhere(String name) {
        List<String> homes = new Index(root)
                .all().keySet().stream()
                        .filter(p -> p.endsWith("." + name) && !p.contains("[") && !p.contains("*"))
                        .toList();
        return homes.isEmpty() ? Optional.empty() : Optional.of("it belongs elsewhere: " + String.join(" or ", homes));
    }

    private String example(String path) {
        return new Index(root).at(path).map(Key::example).orElse("key: value");
    }

    private static String wrongKind(Tree tree, String wanted, String example) {
        return "%s where %s is wanted; write for example %s".formatted(tree.words(), wanted, example);
    }

    private void value(String path, Key key, Tree tree, Place at) {
        if (tree instanceof Tree.Scalar s && s.kind() == Tree.Kind.NOTHING) {
            problem(
                    at,
                    path,
                    "has no value; write for example %s: %s, or leave the key out"
                            .formatted(key.name(), key.example()));
            return;
        }
        switch (key.shape()) {
            case Shape.Group group -> {
                groups.put(path, at);
                if (tree instanceof Tree.Dict) {
                    group(path, group, tree, at);
                } else if (group.isReference()) {
                    // the value may be a secret: it is not shown
                    problem(at, path, "must not stand here itself; write for example " + key.example());
                } else {
                    problem(
                            at,
                            path,
                            wrongKind(
                                    tree, group.shorthand().isPresent() ? "a word or a map" : "a map", key.example()));
                }
            }
            case Shape.Rows rows -> rows(path, key, rows, tree, at);
            case Shape.Named named -> named(path, key, named, tree, at);
            case Shape.Choices choices -> words(path, key, choices, tree, at);
            case Shape.Texts texts -> texts(path, key, texts, tree, at);
            case Shape.Marks marks -> marks(path, key, marks, tree, at);
            case Shape.Body body
            when tree instanceof Tree.Dict || tree instanceof Tree.Sequence -> cells.put(path, new Cell(at, tree));
            default -> {
                if (tree instanceof Tree.Scalar scalar) {
                    Optional<String> wrong = wrongScalar(key, scalar);
                    wrong.ifPresentOrElse(w -> problem(at, path, w), () -> cells.put(path, new Cell(at, tree)));
                } else {
                    problem(at, path, wrongKind(tree, "a single value", key.example()));
                }
            }
        }
    }

    private void rows(String path, Key key, Shape.Rows rows, Tree tree, Place at) {
        groups.put(path, at);
        if (!(tree instanceof Tree.Sequence list)) {
            problem(at, path, wrongKind(tree, "a list of maps", key.example()));
            return;
        }
        if (list.items().size() < rows.least()) {
            problem(
                    at,
                    path,
                    "has %d items but needs at least %d; write for example %s"
                            .formatted(list.items().size(), rows.least(), key.example()));
        }
        for (int i = 0; i < list.items().size(); i++) {
            Tree item = list.items().get(i);
            String itemPath = path + "[" + i + "]";
            groups.put(itemPath, item.place());
            group(itemPath, rows.row(), item, item.place());
        }
    }

    private void named(String path, Key key, Shape.Named named, Tree tree, Place at) {
        groups.put(path, at);
        if (!(tree instanceof Tree.Dict dict)) {
            problem(at, path, "is not a map of maps; write for example " + key.example());
            return;
        }
        dict.entries().forEach((name, entry) -> {
            String inner = path + "." + name;
            groups.put(inner, entry.key());
            if (entry.value() instanceof Tree.Dict) {
                group(inner, named.value(), entry.value(), entry.key());
            } else {
                // the value may be a secret: it is not shown
                problem(entry.key(), inner, "must not stand here itself; write for example " + key.example());
            }
        });
    }

    private void words(String path, Key key, Shape.Choices choices, Tree tree, Place at) {
        if (!(tree instanceof Tree.Sequence list) || list.items().isEmpty()) {
            problem(at, path, wrongKind(tree, "a list of at least one word", key.example()));
            return;
        }
        Set<String> seen = new HashSet<>();
        for (Tree item : list.items()) {
            if (!(item instanceof Tree.Scalar word) || !choices.words().contains(word.text())) {
                String text = item instanceof Tree.Scalar word2 ? word2.text() : "";
                problem(
                        item.place(),
                        path,
                        item.words() + " is not known here; " + Nearest.hint(text, choices.words()));
            } else if (!seen.add(word.text())) {
                problem(item.place(), path, word.text() + " stands here twice; write it once");
            }
        }
        cells.put(path, new Cell(at, tree));
    }

    private void texts(String path, Key key, Shape.Texts texts, Tree tree, Place at) {
        if (!(tree instanceof Tree.Sequence list) || list.items().isEmpty()) {
            problem(at, path, wrongKind(tree, "a list of at least one text", key.example()));
            return;
        }
        for (Tree item : list.items()) {
            if (item instanceof Tree.Scalar word) {
                wrongText(texts.each(), word, key.example()).ifPresent(w -> problem(item.place(), path, w));
            } else {
                problem(item.place(), path, wrongKind(item, "a text", key.example()));
            }
        }
        cells.put(path, new Cell(at, tree));
    }

    private void marks(String path, Key key, Shape.Marks marks, Tree tree, Place at) {
        if (!(tree instanceof Tree.Sequence list) || list.items().isEmpty()) {
            problem(at, path, wrongKind(tree, "a list of at least one", key.example()));
            return;
        }
        for (Tree item : list.items()) {
            if (item instanceof Tree.Scalar mark) {
                wrongMark(marks.each(), mark, key.example()).ifPresent(w -> problem(item.place(), path, w));
            } else {
                problem(item.place(), path, wrongKind(item, marks.each().wanted(), key.example()));
            }
        }
        cells.put(path, new Cell(at, tree));
    }

    private static Optional<String> wrongMark(Shape.Mark shape, Tree.Scalar scalar, String example) {
        boolean kind = scalar.kind() == Tree.Kind.TEXT || scalar.kind() == Tree.Kind.WHOLE_NUMBER;
        return kind && scalar.text().matches(shape.pattern())
                ? Optional.empty()
                : Optional.of("%s is not %s; write for example %s".formatted(scalar.words(), shape.wanted(), example));
    }

    private static Optional<String> wrongText(Shape.Text shape, Tree.Scalar scalar, String example) {
        if (scalar.kind() != Tree.Kind.TEXT) {
            return Optional.of("%s where %s is wanted; put it in quotes if it is a name, for example \"%s\""
                    .formatted(scalar.words(), shape.wanted(), scalar.text()));
        }
        return scalar.text().matches(shape.pattern())
                ? Optional.empty()
                : Optional.of("%s is not %s; write for example %s".formatted(scalar.words(), shape.wanted(), example));
    }

    /** What is wrong with a single value, if anything. */
    private static Optional<String> wrongScalar(Key key, Tree.Scalar scalar) {
        try {
            return switch (key.shape()) {
                case Shape.Quantity q -> wrongQuantity(key, q, scalar);
                case Shape.Count c -> {
                    if (scalar.kind() != Tree.Kind.WHOLE_NUMBER
                            || !scalar.text().matches("[-+]?\\d{1,9}")) {
                        yield Optional.of(wrongKind(scalar, "a whole number without unit", key.example()));
                    }
                    int value = Integer.parseInt(scalar.text());
                    yield value < c.low() || value > c.high()
                            ? Optional.of("is %d but must be between %d and %d".formatted(value, c.low(), c.high()))
                            : Optional.empty();
                }
                case Shape.Coefficient c -> wrongCoefficient(key, c, scalar);
                case Shape.Text t -> wrongText(t, scalar, key.example());
                case Shape.Mark m -> wrongMark(m, scalar, key.example());
                case Shape.Choice c ->
                    scalar.kind() == Tree.Kind.TEXT && c.words().contains(scalar.text())
                            ? Optional.empty()
                            : Optional.of(
                                    scalar.words() + " is not known here; " + Nearest.hint(scalar.text(), c.words()));
                case Shape.YesNo yn ->
                    yesNo(scalar).isPresent() ? Optional.empty() : Optional.of(wrongKind(scalar, "yes or no", "yes"));
                case Shape.Anything a -> Optional.empty();
                case Shape.Body b ->
                    scalar.kind() == Tree.Kind.TEXT
                            ? Optional.empty()
                            : Optional.of(wrongKind(scalar, "a text or a map", key.example()));
                default -> throw new OwnBug("no single value is wanted for " + key.name());
            };
        } catch (InputError e) {
            return Optional.of(String.valueOf(e.getMessage()));
        }
    }

    private static Optional<String> wrongQuantity(Key key, Shape.Quantity q, Tree.Scalar scalar) {
        if (scalar.kind() == Tree.Kind.YES_NO) {
            return Optional.of(wrongKind(scalar, "a number with a unit", key.example()));
        }
        double value = Units.parse(q.dimension(), key.name(), scalar.text(), key.example());
        double low = Units.parse(q.dimension(), q.low());
        double high = Units.parse(q.dimension(), q.high());
        return value >= low && value <= high
                ? Optional.empty()
                : Optional.of("is %s but must be between %s and %s; write for example %s"
                        .formatted(scalar.text(), q.low(), q.high(), key.example()));
    }

    private static Optional<String> wrongCoefficient(Key key, Shape.Coefficient c, Tree.Scalar scalar) {
        boolean number = scalar.kind() == Tree.Kind.NUMBER || scalar.kind() == Tree.Kind.WHOLE_NUMBER;
        if (!number || !scalar.text().matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d{1,3})?")) {
            return Optional.of(
                    scalar.text().matches("\\d+,\\d+")
                            ? scalar.text() + " has a decimal comma; write a decimal point: "
                                    + scalar.text().replace(',', '.')
                            : wrongKind(scalar, "a bare number", key.example()));
        }
        double value = Double.parseDouble(scalar.text());
        return value >= c.low() && value <= c.high()
                ? Optional.empty()
                : Optional.of("is %s but must be between %s and %s"
                        .formatted(scalar.text(), Checks.number(c.low()), Checks.number(c.high())));
    }

    /** Yes or no, if the value says so. */
    public static Optional<Boolean> yesNo(Tree.Scalar scalar) {
        return switch (scalar.text()) {
            case "yes", "true", "True", "TRUE" -> Optional.of(true);
            case "no", "false", "False", "FALSE" -> Optional.of(false);
            default -> Optional.empty();
        };
    }
}
