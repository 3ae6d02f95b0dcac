package coldward.sheet.yaml;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** One value of a YAML file with its place. Trees are immutable; an alias shares the tree of its anchor. */
public sealed interface Tree {

    /** Where the value stands. */
    Place place();

    /** True if it was written as an alias. */
    boolean aliased();

    /** What kind of value it is, as it stands in a sentence. */
    String words();

    /** What a plain scalar is under the core schema. */
    enum Kind {
        TEXT,
        WHOLE_NUMBER,
        NUMBER,
        YES_NO,
        NOTHING
    }

    /**
     * A single value.
     *
     * @param text as written, without quotes
     * @param kind what the core schema makes of it; quoted texts are always text
     */
    record Scalar(String text, Kind kind, boolean aliased, Place place) implements Tree {
        @Override
        public String words() {
            return switch (kind) {
                case TEXT -> "the text \"" + shortened() + "\"";
                case WHOLE_NUMBER, NUMBER -> "the bare number " + shortened();
                case YES_NO -> text;
                case NOTHING -> "empty";
            };
        }

        private String shortened() {
            return text.length() > 60 ? text.substring(0, 57) + "..." : text;
        }
    }

    /**
     * A list.
     *
     * @param flow true if written in brackets
     */
    record Sequence(List<Tree> items, boolean flow, boolean aliased, Place place) implements Tree {
        public Sequence {
            items = List.copyOf(items);
        }

        @Override
        public String words() {
            return "a list";
        }
    }

    /**
     * A key and its value.
     *
     * @param key where the key stands
     * @param value the value
     */
    record Entry(Place key, Tree value) {}

    /**
     * A map.
     *
     * @param entries in the file's order
     * @param flow true if written in braces
     */
    record Dict(Map<String, Entry> entries, boolean flow, boolean aliased, Place place) implements Tree {
        public Dict {
            entries = Collections.unmodifiableMap(new LinkedHashMap<>(entries));
        }

        @Override
        public String words() {
            return "a map";
        }

        /** The value of a key, if there. */
        public Optional<Tree> get(String key) {
            return Optional.ofNullable(entries.get(key)).map(Entry::value);
        }

        /** The same map with one entry set. */
        public Dict with(String key, Entry entry) {
            Map<String, Entry> changed = new LinkedHashMap<>(entries);
            changed.put(key, entry);
            return new Dict(changed, flow, aliased, place);
        }

        /** The same map without a key. */
        public Dict without(String key) {
            Map<String, Entry> changed = new LinkedHashMap<>(entries);
            changed.remove(key);
            return new Dict(changed, flow, aliased, place);
        }
    }

    /** The same content, standing where the alias stands; what is inside keeps the anchor's places. */
    static Tree alias(Tree tree, Place place) {
        return switch (tree) {
            case Scalar s -> new Scalar(s.text(), s.kind(), true, place);
            case Sequence s -> new Sequence(s.items(), s.flow(), true, place);
            case Dict d -> new Dict(d.entries(), d.flow(), true, place);
        };
    }

    /** The same content whatever the places: for comparing two texts. */
    static Object content(Tree tree) {
        return switch (tree) {
            case Scalar s -> List.of(s.kind(), s.text());
            case Sequence s -> {
                List<Object> items = new ArrayList<>();
                s.items().forEach(i -> items.add(content(i)));
                yield items;
            }
            case Dict d -> {
                Map<String, Object> map = new LinkedHashMap<>();
                d.entries().forEach((k, e) -> map.put(k, content(e.value())));
                yield map;
            }
        };
    }
}
