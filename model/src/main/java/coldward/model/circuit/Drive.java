package coldward.model.circuit;

import coldward.quantity.Checks;
import coldward.quantity.InputError;

/**
 * A value that holds, or that jumps once.
 *
 * @param before until {@code at}
 * @param after from {@code at} on
 * @param at s
 */
public record Drive(double before, double after, double at) {
    public Drive {
        if (!Double.isFinite(before) || !Double.isFinite(after)) {
            throw new InputError(
                    "drive",
                    "drive is " + Checks.number(before) + ", then " + Checks.number(after) + " but must be finite");
        }
        Checks.notNegative("drive at", at, "s");
    }

    /** The same at all times. */
    public static Drive steady(double value) {
        return new Drive(value, value, 0);
    }

    /** True if it never changes. */
    public boolean steady() {
        return before == after;
    }

    /** The value just after time {@code t}, s; before the jump for {@code t} below {@code at}. */
    public double value(double t) {
        return t < at ? before : after;
    }
}
