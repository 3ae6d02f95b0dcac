package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.reading.ShowingInterval.AnyUpTo;
import coldward.model.reading.ShowingInterval.Exactly;
import coldward.model.reading.ShowingInterval.Why;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The inverse question: how often must the pin have been sampled for a true speed to be shown as another? */
public final class Sampling {

    /** The shortest interval listed, s. */
    public static final double SHORTEST_LISTED = 1e-4;

    /** The longest interval listed, s. A speed of 0 is shown by whole multiples of the pulse period without end. */
    public static final double LONGEST_LISTED = 1;

    /** Two intervals that differ by less than this share are one. */
    private static final double SAME = 1e-9;

    private Sampling() {}

    /**
     * Every time between two looks that shows one speed as another, after {@link SampledPulses#shownRate}.
     *
     * <p>While n to n + 1 pulses go by between two looks, the reading rises from zero along T = n/(f - g), reaches at most
     * m f/(n + m), m = min(d, 1-d), and falls again, on the flat top along T = m/g and then along T = (n + 1)/(f + g). So
     * for every n with g at most m f/(n + m) there are two answers; for n = 0 the rising one is the honest reading, which
     * every T up to m/f gives if g = f. Where the top is missed by no more than the tolerance, the top itself is listed.
     *
     * @param trueRpm rpm, above 0
     * @param shownRpm rpm, 0 or above
     * @param pulses per turn, 1 to 12
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param tolerance share of the shown speed within which two speeds count as the same, 0 to 0.2
     * @return by rising interval, from {@link #SHORTEST_LISTED} to {@link #LONGEST_LISTED} ({@link AnyUpTo} always); empty
     *     if no interval does this, as for a shown speed above the true one
     */
    public static List<ShowingInterval> intervalsThatShow(
            double trueRpm, double shownRpm, int pulses, double duty, double tolerance) {
        positive("true speed", trueRpm, "rpm");
        notNegative("shown speed", shownRpm, "rpm");
        within("duty", duty, 0.01, 0.99, "");
        within("tolerance", tolerance, 0, 0.2, "");
        double f = Readings.pulseRate(trueRpm, pulses);
        double g = Readings.pulseRate(shownRpm, pulses);
        double near = Math.max(tolerance, SAME) * g;
        double m = Math.min(duty, 1 - duty);
        List<ShowingInterval> found = new ArrayList<>();
        if (Math.abs(g - f) <= near) {
            found.add(new AnyUpTo(m / f));
        }
        for (int n = 0; n / f <= LONGEST_LISTED; n++) {
            double top = m * f / (n + m);
            if (g > top + near) {
                break;
            }
            if (g > top) {
                if (n > 0) {
                    add(found, (n + m) / f, new Why.FlatTop());
                }
                continue;
            }
            if (n > 0) {
                add(found, n / (f - g), new Why.FoldedUp(n));
            }
            // the flat top ends where n + 1 - m pulses go by between two looks
            if (g > 0 && m / g * f <= n + 1 - m) {
                add(found, m / g, new Why.FlatTop());
            } else {
                add(found, (n + 1) / (f + g), new Why.FoldedDown(n + 1));
            }
        }
        found.sort(Comparator.comparingDouble(ShowingInterval::seconds));
        return List.copyOf(found);
    }

    private static void add(List<ShowingInterval> found, double seconds, Why why) {
        // only neighbours can meet: both ends of a flat top, or zero between two folds
        boolean known = found.subList(Math.max(0, found.size() - 2), found.size()).stream()
                .anyMatch(one -> Math.abs(one.seconds() - seconds) <= SAME * seconds);
        if (!known && seconds >= SHORTEST_LISTED && seconds <= LONGEST_LISTED) {
            found.add(new Exactly(seconds, why));
        }
    }
}
