package coldward.sheet.keys;

import coldward.sheet.yaml.Tree;
import java.util.LinkedHashMap;
import java.util.Map;

/** Writes shorthand out: a bare word becomes the map it stands for, a list behind neck its segments. */
public final class Shorthand {

    private Shorthand() {}

    /** The same tree with every shorthand written out; what is of the wrong kind stays as it is. */
    public static Tree expanded(Shape shape, Tree tree) {
        return switch (shape) {
            case Shape.Group group -> group(group, tree);
            case Shape.Rows rows
            when tree instanceof Tree.Sequence list ->
                new Tree.Sequence(
                        list.items().stream().map(i -> expanded(rows.row(), i)).toList(),
                        list.flow(),
                        list.aliased(),
                        list.place());
            default -> tree;
        };
    }

    private static Tree group(Shape.Group group, Tree tree) {
        return switch (tree) {
            case Tree.Scalar word
            when group.shorthand().isPresent()
                    && word.kind() == Tree.Kind.TEXT
                    && (group.shorthandWords().isEmpty()
                            || group.shorthandWords().contains(word.text())) ->
                wrapped(group.shorthand().get(), word);
            case Tree.Sequence list
            when group.listKey().isPresent() -> {
                String key = group.listKey().get();
                Shape inner = group.key(key).map(Key::shape).orElse(group);
                yield wrapped(key, expanded(inner, list));
            }
            case Tree.Dict dict -> {
                Map<String, Tree.Entry> entries = new LinkedHashMap<>();
                dict.entries()
                        .forEach((name, entry) -> entries.put(
                                name,
                                group.key(name)
                                        .map(k -> new Tree.Entry(entry.key(), expanded(k.shape(), entry.value())))
                                        .orElse(entry)));
                yield new Tree.Dict(entries, dict.flow(), dict.aliased(), dict.place());
            }
            default -> tree;
        };
    }

    private static Tree.Dict wrapped(String key, Tree value) {
        return new Tree.Dict(Map.of(key, new Tree.Entry(value.place(), value)), true, false, value.place());
    }
}
