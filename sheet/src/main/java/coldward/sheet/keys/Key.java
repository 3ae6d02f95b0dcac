package coldward.sheet.keys;

import coldward.quantity.Dimension;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * One key of the catalogue.
 *
 * @param name as written
 * @param shape what may stand behind it
 * @param need whether it must be there
 * @param fallback what holds where it is absent and no class says otherwise
 * @param example a value as one would write it
 * @param meaning one line
 */
public record Key(String name, Shape shape, Need need, Optional<Fallback> fallback, String example, String meaning) {

    /** Whether a key must be there. */
    public enum Need {
        /** The user must give it. */
        REQUIRED,
        /** There must be a value: given, from a class, or the default. */
        WANTED,
        /** It may be absent altogether. */
        OPTIONAL
    }

    /**
     * A default.
     *
     * @param text as one would write it
     * @param source where it comes from
     */
    public record Fallback(String text, String source) {}

    /** No source could be named. */
    public static final String COMMON_PRACTICE = "common practice, no source";

    private static final String ANY = "\\S(?:.*\\S)?";

    static Key quantity(String name, Dimension dimension, String low, String high, String example, String meaning) {
        return new Key(name, new Shape.Quantity(dimension, low, high), Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key count(String name, int low, int high, String example, String meaning) {
        return new Key(name, new Shape.Count(low, high), Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key coefficient(String name, double low, double high, String example, String meaning) {
        return new Key(name, new Shape.Coefficient(low, high), Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key text(String name, String example, String meaning) {
        return text(name, ANY, "a text", example, meaning);
    }

    static Key text(String name, String pattern, String wanted, String example, String meaning) {
        return new Key(name, new Shape.Text(pattern, wanted), Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key choice(String name, List<String> words, String example, String meaning) {
        return new Key(name, new Shape.Choice(words), Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key yesNo(String name, String example, String meaning) {
        return new Key(name, new Shape.YesNo(), Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key group(String name, Shape.Group group, String example, String meaning) {
        return new Key(name, group, Need.WANTED, Optional.empty(), example, meaning);
    }

    static Key of(String name, Shape shape, String example, String meaning) {
        return new Key(name, shape, Need.WANTED, Optional.empty(), example, meaning);
    }

    Key required() {
        return new Key(name, shape, Need.REQUIRED, fallback, example, meaning);
    }

    Key optional() {
        return new Key(name, shape, Need.OPTIONAL, fallback, example, meaning);
    }

    Key or(String text, String source) {
        return new Key(name, shape, need, Optional.of(new Fallback(text, source)), example, meaning);
    }

    static List<Key> keys(Key... keys) {
        return Arrays.asList(keys);
    }
}
