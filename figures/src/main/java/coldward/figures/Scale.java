package coldward.figures;

import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A straight mapping from values to places: {@code at(from) = start}, {@code at(to) = end}.
 *
 * @param from least value
 * @param to greatest value, above {@code from}
 * @param start place of {@code from}
 * @param end place of {@code to}
 */
record Scale(double from, double to, double start, double end) {

    Scale {
        if (!(to > from)) {
            throw new InputError("scale", "scale ends at " + to + " but must end above its beginning (" + from + ")");
        }
    }

    double at(double value) {
        return start + (value - from) / (to - from) * (end - start);
    }

    /** The step of 1, 2 or 5 times a power of ten that gives at most {@code most} steps. */
    static double step(double span, int most) {
        double raw = span / most;
        double decade = Math.pow(10, Math.floor(Math.log10(raw)));
        for (double factor : new double[] {1, 2, 5}) {
            if (factor * decade >= raw * (1 - 1e-9)) {
                return factor * decade;
            }
        }
        return 10 * decade;
    }

    /** Multiples of the step within the scale. */
    List<Double> ticks(int most) {
        double step = step(to - from, most);
        List<Double> ticks = new ArrayList<>();
        for (long i = (long) Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i++) {
            ticks.add(i * step);
        }
        return ticks;
    }

    /** A tick's number, with just the decimals its step needs. */
    String label(double tick, int most) {
        if (Math.abs(tick) < 1e-9 * (to - from)) {
            return "0";
        }
        int decimals = (int) Math.max(0, -Math.floor(Math.log10(step(to - from, most)) + 1e-9));
        return String.format(Locale.ROOT, "%." + decimals + "f", tick);
    }
}
