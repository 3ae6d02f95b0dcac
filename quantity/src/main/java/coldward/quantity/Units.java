package coldward.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Texts such as {@code 2.1 mm} into values in a {@link Dimension}'s base unit, and back. Conversion is exact but for
 * one rounding to the nearest double (wire gauges: to the accuracy of {@code Math.pow}).
 */
public final class Units {

    private static final int LONGEST_TEXT = 60;
    private static final String NUMBER = "(?:\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][-+]?\\d{1,3})?";
    private static final Pattern QUANTITY = Pattern.compile("([-+]?" + NUMBER + ")\\s*(.*)");
    private static final Pattern COMMA = Pattern.compile("([-+]?\\d+),(\\d+)(.*)");
    private static final Pattern NOT_FINITE =
            Pattern.compile("[-+]?(\\.?nan|\\.?inf(inity)?)\\b.*", Pattern.CASE_INSENSITIVE);
    private static final double HIGHEST_GAUGE = 50;

    private Units() {}

    /**
     * The value of a text in the dimension's base unit.
     *
     * @param dimension what is wanted
     * @param text number and unit; a bare number only for a share
     * @throws InputError if it is not such a text or the value is not finite; the message begins with the text and
     *     says what would be right
     */
    public static double parse(Dimension dimension, String text) {
        return parse(dimension, "value", text);
    }

    /**
     * As {@link #parse(Dimension, String)}, naming the argument.
     *
     * @param name carried by the error
     */
    public static double parse(Dimension dimension, String name, String text) {
        return parse(dimension, name, text, dimension.example());
    }

    /**
     * As {@link #parse(Dimension, String, String)}, with an example of what would be right at this place.
     *
     * @param example shown in errors
     */
    public static double parse(Dimension dimension, String name, String text, String example) {
        String trimmed = text.strip();
        if (trimmed.length() > LONGEST_TEXT) {
            throw new InputError(
                    name, "a text of " + trimmed.length() + " characters is no quantity; write for example " + example);
        }
        Matcher comma = COMMA.matcher(trimmed);
        if (comma.matches()) {
            throw new InputError(
                    name,
                    "%s has a decimal comma; write a decimal point: %s.%s%s"
                            .formatted(trimmed, comma.group(1), comma.group(2), comma.group(3)));
        }
        if (NOT_FINITE.matcher(trimmed).matches()) {
            throw new InputError(name, trimmed + " is not a finite number; write for example " + example);
        }
        Matcher parts = QUANTITY.matcher(trimmed);
        if (!parts.matches()) {
            throw new InputError(
                    name, "%s is not a number with a unit; write for example %s".formatted(shown(trimmed), example));
        }
        BigDecimal number = new BigDecimal(parts.group(1));
        String unitText = parts.group(2).strip();
        if (unitText.isEmpty()) {
            if (dimension == Dimension.SHARE) {
                return finite(name, trimmed, number.doubleValue());
            }
            throw new InputError(
                    name,
                    "%s has no unit; write for example %s (accepted: %s)"
                            .formatted(trimmed, example, acceptedText(dimension)));
        }
        Unit unit = unit(dimension, unitText).orElseThrow(() -> wrongUnit(dimension, name, trimmed, unitText, example));
        if (unit.form() == Unit.Form.GAUGE && (number.signum() < 0 || number.doubleValue() > HIGHEST_GAUGE)) {
            throw new InputError(name, trimmed + " is no wire gauge; AWG runs from 0 to 50, for example 24 AWG");
        }
        return finite(name, trimmed, unit.toBase(number));
    }

    private static double finite(String name, String text, double value) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new InputError(name, text + " is out of the reach of numbers");
        }
        return value;
    }

    private static InputError wrongUnit(
            Dimension dimension, String name, String text, String unitText, String example) {
        String measured = ownersOf(unitText);
        return new InputError(
                name,
                "%s: %s is %s, but %s is wanted here (accepted: %s; for example %s)"
                        .formatted(
                                shown(text),
                                shown(unitText),
                                measured.isEmpty() ? "no unit known here" : "a unit of " + measured,
                                words(dimension),
                                acceptedText(dimension),
                                example));
    }

    private static String ownersOf(String unitText) {
        return UnitTable.ALL.entrySet().stream()
                .filter(e -> e.getValue().stream().anyMatch(u -> u.isWritten(unitText)))
                .map(e -> words(e.getKey()))
                .distinct()
                .collect(Collectors.joining(" or "));
    }

    private static String shown(String text) {
        return text.isEmpty() ? "an empty text" : text;
    }

    /** The dimension as it stands in a sentence, for example {@code heat capacity}. */
    public static String words(Dimension dimension) {
        return dimension.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** The unit of this spelling, if the dimension knows it. */
    public static Optional<Unit> unit(Dimension dimension, String text) {
        return UnitTable.ALL.getOrDefault(dimension, List.of()).stream()
                .filter(u -> u.isWritten(text))
                .findFirst();
    }

    /** The units accepted, in their usual spelling, the one most used first. */
    public static List<String> accepted(Dimension dimension) {
        return UnitTable.ALL.getOrDefault(dimension, List.of()).stream()
                .map(Unit::text)
                .toList();
    }

    private static String acceptedText(Dimension dimension) {
        return String.join(", ", accepted(dimension));
    }

    /**
     * A regular expression (ECMA 262, as JSON Schema wants) that every accepted text of the dimension matches.
     *
     * @param negative true if numbers below zero are to match
     */
    public static String pattern(Dimension dimension, boolean negative) {
        String spellings = UnitTable.ALL.getOrDefault(dimension, List.of()).stream()
                .flatMap(u ->
                        java.util.stream.Stream.concat(java.util.stream.Stream.of(u.text()), u.alsoWritten().stream()))
                .map(Units::escaped)
                .collect(Collectors.joining("|"));
        String unit = dimension == Dimension.SHARE ? "(?:" + spellings + ")?" : "(?:" + spellings + ")";
        return "^\\s*" + (negative ? "[-+]?" : "\\+?") + NUMBER + "\\s*" + unit + "\\s*$";
    }

    private static String escaped(String unit) {
        return unit.replaceAll("([\\^/()*.])", "\\\\$1");
    }

    /** A value as a person reads it, with at most six significant digits, for example {@code 2.1 mm}. */
    public static String format(Dimension dimension, double base) {
        return format(dimension, base, 6);
    }

    /**
     * A value as a person reads it. The text is accepted by {@link #parse(Dimension, String)}.
     *
     * @param base in the dimension's base unit; finite
     * @param digits significant digits at most; 17 always give back the same value to within one rounding
     */
    public static String format(Dimension dimension, double base, int digits) {
        if (Double.isNaN(base) || Double.isInfinite(base)) {
            throw new InputError("value", "a value that is not finite has no text");
        }
        Unit unit = UnitTable.toShow(dimension, base);
        BigDecimal number = unit.fromBase(base);
        // a temperature near 0 degC is a small difference of large numbers: round where the base has its digits
        int scale = digits - (new BigDecimal(base).precision() - new BigDecimal(base).scale());
        if (unit.shift().signum() != 0) {
            number = number.setScale(Math.max(scale, 0), RoundingMode.HALF_EVEN);
        }
        number = number.round(new java.math.MathContext(digits, RoundingMode.HALF_EVEN));
        return plain(number) + " " + unit.text();
    }

    private static String plain(BigDecimal number) {
        if (number.signum() == 0) {
            return "0";
        }
        BigDecimal stripped = number.stripTrailingZeros();
        int exponent = stripped.precision() - stripped.scale() - 1;
        return exponent < -6 || exponent > 9
                ? stripped.toString().replace("E", "e").replace("e+", "e")
                : stripped.toPlainString();
    }
}
