package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.within;

import coldward.model.build.Reading.Edge;
import java.util.OptionalDouble;

/**
 * What a counter shows that counts every rising edge. Two things limit it: a level shorter than the input's filter is not
 * seen at all, and after an edge that counts, further edges are ignored for the lock-out (edges in that time do not
 * lengthen it). Assumptions: above the first limit the input sees one unbroken level and shows 0; above the second every
 * n-th edge counts, n the least whole number for which n periods last the lock-out or longer, and f/n is shown.
 */
public final class EdgePulses {

    private EdgePulses() {}

    /**
     * The pulse rate shown, averaged over reports.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param counter filter and lock-out
     * @return Hz, never above {@code rate}
     */
    public static double shownRate(double rate, double duty, Edge counter) {
        notNegative("pulse rate", rate, "Hz");
        within("duty", duty, 0.01, 0.99, "");
        if (rate * counter.shortestLevel() > Math.min(duty, 1 - duty)) {
            return 0;
        }
        return rate / Math.max(1, Math.ceil(rate * counter.lockOut()));
    }

    /**
     * The highest pulse rate shown as it is: the lower of min(d, 1-d)/(shortest level) and 1/(lock-out).
     *
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param counter filter and lock-out
     * @return Hz; empty if neither limits it
     */
    public static OptionalDouble highestHonestRate(double duty, Edge counter) {
        within("duty", duty, 0.01, 0.99, "");
        double filter = Math.min(duty, 1 - duty) / counter.shortestLevel();
        double highest = Math.min(filter, 1 / counter.lockOut());
        return Double.isInfinite(highest) ? OptionalDouble.empty() : OptionalDouble.of(highest);
    }
}
