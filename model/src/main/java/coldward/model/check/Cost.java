package coldward.model.check;

import static coldward.quantity.Checks.notNegative;

import coldward.model.trip.Margin;
import java.util.Comparator;

/** What a finding costs of the margin: what mending it alone would give back. */
public sealed interface Cost {

    /** Nothing saves the printer as long as it is so. */
    record Everything() implements Cost {}

    /**
     * So much of the margin.
     *
     * @param seconds s, 0 or above
     */
    record Seconds(double seconds) implements Cost {
        public Seconds {
            notNegative("cost", seconds, "s");
        }
    }

    /** Any deadline at all: mended, the printer has no need to be stopped. */
    record Deadline() implements Cost {}

    /** Not a matter of seconds. */
    record None() implements Cost {}

    /** The dearest first. */
    Comparator<Cost> DEAREST_FIRST = Comparator.comparingDouble(Cost::order).reversed();

    /**
     * What is between two margins.
     *
     * @param present as it is
     * @param mended with this one thing mended
     */
    static Cost between(Margin present, Margin mended) {
        if (present.compareTo(mended) >= 0) {
            return new None();
        }
        return switch (present) {
            case Margin.Seconds(double now)
            when mended instanceof Margin.Seconds(double then) -> new Seconds(then - now);
            case Margin.Seconds now -> new Deadline();
            default -> new Everything();
        };
    }

    private static double order(Cost cost) {
        return switch (cost) {
            case Everything everything -> Double.POSITIVE_INFINITY;
            case Deadline deadline -> Double.MAX_VALUE;
            case Seconds(double seconds) -> seconds;
            case None none -> -1;
        };
    }
}
