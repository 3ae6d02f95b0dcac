package coldward.quantity;

import java.util.Locale;

/** Argument checks for records and functions. Each throws {@link InputError} with name, value, bound and unit. */
public final class Checks {

    private Checks() {}

    /** A finite number above zero. */
    public static double positive(String name, double value, String unit) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw fail(name, value, unit, "must be above 0");
        }
        return value;
    }

    /** A finite number, zero or above. */
    public static double notNegative(String name, double value, String unit) {
        if (!(value >= 0) || Double.isInfinite(value)) {
            throw fail(name, value, unit, "must be 0 or above");
        }
        return value;
    }

    /** A finite number between two bounds, both allowed. */
    public static double within(String name, double value, double low, double high, String unit) {
        if (!(value >= low && value <= high)) {
            throw fail(name, value, unit, "must be between " + number(low) + " and " + number(high) + suffix(unit));
        }
        return value;
    }

    /** A finite number strictly below a bound. */
    public static double below(String name, double value, double bound, String boundName, String unit) {
        if (!(value < bound)) {
            throw fail(name, value, unit, "must be below " + boundName + " (" + number(bound) + suffix(unit) + ")");
        }
        return value;
    }

    /** A whole number between two bounds, both allowed. */
    public static int within(String name, int value, int low, int high) {
        if (value < low || value > high) {
            throw new InputError(name, name + " is " + value + " but must be between " + low + " and " + high);
        }
        return value;
    }

    /** A text with at least one visible character. */
    public static String notBlank(String name, String value) {
        if (value.isBlank()) {
            throw new InputError(name, name + " is empty but must name something");
        }
        return value;
    }

    private static InputError fail(String name, double value, String unit, String bound) {
        return new InputError(name, name + " is " + number(value) + suffix(unit) + " but " + bound);
    }

    private static String suffix(String unit) {
        return unit.isEmpty() ? "" : " " + unit;
    }

    /** A number as a person writes it: at most six significant digits, no trailing zeros. */
    public static String number(double value) {
        if (Double.isNaN(value)) {
            return "not a number";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "infinite" : "minus infinite";
        }
        if (value == Math.rint(value) && Math.abs(value) < 1e7) {
            return Long.toString((long) value);
        }
        String text = String.format(Locale.ROOT, "%.6g", value);
        if (text.contains("e")) {
            return text.replaceFirst("\\.?0+e", "e");
        }
        return text.contains(".") ? text.replaceFirst("\\.?0+$", "") : text;
    }
}
