package coldward.sheet.keys;

import coldward.quantity.Dimension;
import java.util.List;
import java.util.Optional;

/** What may stand behind a key. */
public sealed interface Shape {

    /**
     * A number with a unit.
     *
     * @param dimension what is measured
     * @param low smallest plausible text, allowed
     * @param high largest plausible text, allowed
     */
    record Quantity(Dimension dimension, String low, String high) implements Shape {}

    /** A bare whole number between two bounds, both allowed. */
    record Count(int low, int high) implements Shape {}

    /** A bare number between two bounds, both allowed. */
    record Coefficient(double low, double high) implements Shape {}

    /**
     * A text.
     *
     * @param pattern what it must match, as a regular expression
     * @param wanted the pattern in words
     */
    record Text(String pattern, String wanted) implements Shape {}

    /**
     * A word or a whole number, such as the number printed beside a contact.
     *
     * @param pattern what it must match, as a regular expression
     * @param wanted the pattern in words
     */
    record Mark(String pattern, String wanted) implements Shape {}

    /** A list of marks, at least one. */
    record Marks(Mark each) implements Shape {}

    /** One of some words. */
    record Choice(List<String> words) implements Shape {
        public Choice {
            words = List.copyOf(words);
        }
    }

    /** A list of different words out of some, at least one. */
    record Choices(List<String> words) implements Shape {
        public Choices {
            words = List.copyOf(words);
        }
    }

    /** A list of texts, at least one. */
    record Texts(Text each) implements Shape {}

    /** Yes or no; true and false are the same. */
    record YesNo() implements Shape {}

    /** A yes/no, or a number with or without a unit; what is right depends on another key. */
    record Anything() implements Shape {}

    /** A text, or a map that is sent as JSON. */
    record Body() implements Shape {}

    /**
     * A map with known keys.
     *
     * @param keys in the order of documents
     * @param shorthand the key that a bare word stands for, if one may stand here
     * @param shorthandWords the only words that may do so; empty: any text
     * @param listKey the key that a list stands for, if one may stand here
     */
    record Group(List<Key> keys, Optional<String> shorthand, List<String> shorthandWords, Optional<String> listKey)
            implements Shape {
        public Group {
            keys = List.copyOf(keys);
            shorthandWords = List.copyOf(shorthandWords);
        }

        /** A map and nothing else. */
        public static Group of(List<Key> keys) {
            return new Group(keys, Optional.empty(), List.of(), Optional.empty());
        }

        /** A map, or a bare word that stands for one key. */
        public static Group orWord(String shorthand, List<Key> keys) {
            return new Group(keys, Optional.of(shorthand), List.of(), Optional.empty());
        }

        /** Whether it says where a secret is kept. */
        public boolean isReference() {
            return keys.stream().map(Key::name).toList().equals(List.of("env", "file"));
        }

        /** The key of this name, if there is one. */
        public Optional<Key> key(String name) {
            return keys.stream().filter(k -> k.name().equals(name)).findFirst();
        }
    }

    /**
     * A list of maps.
     *
     * @param row each
     * @param least how many at least
     */
    record Rows(Group row, int least) implements Shape {}

    /**
     * A map whose keys are names of the user's.
     *
     * @param value behind each
     */
    record Named(Group value) implements Shape {}
}
