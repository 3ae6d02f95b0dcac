package coldward.model.circuit;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * How a transient is followed.
 *
 * @param end s, from 0
 * @param relative share of a capacitor's voltage its error in one step may be
 * @param absolute V its error in one step may be besides
 * @param fixedStep s of every step, without control; 0 for controlled steps
 * @param most steps before giving up
 */
public record TransientSettings(double end, double relative, double absolute, double fixedStep, int most) {
    public TransientSettings {
        positive("transient end", end, "s");
        positive("transient relative error", relative, "");
        positive("transient absolute error", absolute, "V");
        notNegative("transient fixed step", fixedStep, "s");
        within("transient steps", most, 1, 1_000_000);
    }

    /** To {@code end}, at 1e-4 and 20 uV a step, at most 20,000 steps. */
    public static TransientSettings until(double end) {
        return new TransientSettings(end, 1e-4, 2e-5, 0, 20_000);
    }

    /** The same with steps of {@code step} s, which is how the order of the method is observed. */
    public TransientSettings withFixedStep(double step) {
        return new TransientSettings(end, relative, absolute, step, most);
    }
}
