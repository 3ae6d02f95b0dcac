package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.List;
import java.util.SplittableRandom;
import java.util.TreeSet;

/**
 * What a counter shows that looks at the pin every T and counts a low followed by a high as one pulse.
 *
 * <p>Between two looks the pulse train turns by a = frac(f T) of a period. A look that finds low and is followed by one
 * that finds high happens for the share min(a, 1-a, d, 1-d) of all phases, so that the shown rate, averaged over phase, is
 * {@code g = (1/T) min(a, 1-a, d, 1-d)}. It equals f exactly while f T is at most min(d, 1-d), then stays at
 * min(d, 1-d)/T, then folds back to zero at f T = 1, and so on. Where a is a ratio of small whole numbers a single run
 * keeps its phase and may show more or less than this average. Assumes sharp edges and a steady speed during a report.
 */
public final class SampledPulses {

    /** A jitter that turns the signal by less than this share of a period changes nothing that shows. */
    private static final double LEAST_SPREAD = 1e-7;

    private SampledPulses() {}

    /**
     * The pulse rate shown, averaged over phase.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param every s between two looks, above 0
     * @param duty share of the period that is high, 0.01 to 0.99
     * @return Hz, never above {@code rate}
     */
    public static double shownRate(double rate, double every, double duty) {
        check(rate, every, duty);
        double turned = rate * every;
        double least = Math.min(duty, 1 - duty);
        if (turned <= least) {
            return rate;
        }
        double part = turned - Math.floor(turned);
        return Math.min(Math.min(part, 1 - part), least) / every;
    }

    /**
     * The highest pulse rate shown as it is: min(d, 1-d)/T.
     *
     * @param every s between two looks, above 0
     * @param duty share of the period that is high, 0.01 to 0.99
     * @return Hz
     */
    public static double highestHonestRate(double every, double duty) {
        check(0, every, duty);
        return Math.min(duty, 1 - duty) / every;
    }

    /**
     * The share of phases in which a look finds low and the next one high: m = min(a, 1-a, d, 1-d), a = frac(turned).
     *
     * @param turned periods between two looks, f T
     * @param duty d
     */
    static double turnover(double turned, double duty) {
        double part = turned - Math.floor(turned);
        return Math.min(Math.min(part, 1 - part), Math.min(duty, 1 - duty));
    }

    /**
     * The pulse rate shown where each look comes early or late by a uniform draw from -j to +j, averaged over phase and
     * draws: the turn between two looks is f (T + u), u triangular on -2j..2j. The share m(a) is made of straight pieces
     * between corners and so is the triangle; their product is integrated piece by piece with Simpson's rule, exactly.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param every mean s between two looks, above 0
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param jitter j, s, at most half of {@code every}
     * @return Hz
     */
    public static double shownRate(double rate, double every, double duty, double jitter) {
        check(rate, every, duty);
        within("jitter", jitter, 0, every / 2, "s");
        double centre = rate * every;
        double half = 2 * jitter * rate;
        if (half < LEAST_SPREAD) {
            return shownRate(rate, every, duty);
        }
        double least = Math.min(duty, 1 - duty);
        TreeSet<Double> cuts = new TreeSet<>(List.of(centre - half, centre, centre + half));
        for (long k = (long) Math.floor(centre - half); k <= centre + half; k++) {
            for (double corner : new double[] {k, k + least, k + 1 - least}) {
                if (corner > centre - half && corner < centre + half) {
                    cuts.add(corner);
                }
            }
        }
        double mean = 0;
        double from = cuts.first();
        for (double to : cuts.tailSet(from, false)) {
            double middle = (from + to) / 2;
            // one-sided at the ends: each piece is straight, its middle and its ends lie on one line
            double low = weighted(from, centre, half, duty);
            double high = weighted(to, centre, half, duty);
            mean += (low + 4 * weighted(middle, centre, half, duty) + high) / 6 * (to - from);
            from = to;
        }
        return mean / every;
    }

    private static double weighted(double turned, double centre, double half, double duty) {
        return turnover(turned, duty) * Math.max(0, 1 - Math.abs(turned - centre) / half) / half;
    }

    /**
     * The highest pulse rate shown as it is with looks early or late by up to j: min(d, 1-d)/(T + 2j).
     *
     * @param every mean s between two looks, above 0
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param jitter j, s, at most half of {@code every}
     * @return Hz
     */
    public static double highestHonestRate(double every, double duty, double jitter) {
        within("jitter", jitter, 0, every / 2, "s");
        check(0, every, duty);
        return Math.min(duty, 1 - duty) / (every + 2 * jitter);
    }

    /**
     * The longest time between two looks at which a pulse rate is still shown as it is: min(d, 1-d)/f.
     *
     * @param rate true pulse rate, Hz, above 0
     * @param duty share of the period that is high, 0.01 to 0.99
     * @return s
     */
    public static double longestHonestInterval(double rate, double duty) {
        positive("pulse rate", rate, "Hz");
        check(rate, 1, duty);
        return Math.min(duty, 1 - duty) / rate;
    }

    /**
     * The pulse rate that one run shows whose looks come early or late, by simulation: look i happens at i T plus a
     * uniform draw from -jitter to +jitter, the pulse train starts at a uniform phase. The same seed gives the same number.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param every mean s between two looks, above 0
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param jitter s, at most half of {@code every}, so that looks keep their order
     * @param looks how many, 2 to 100 million
     * @param seed of the draws
     * @return counted pulses over the time from first to last look, Hz
     */
    public static double simulatedRate(double rate, double every, double duty, double jitter, int looks, long seed) {
        check(rate, every, duty);
        within("jitter", jitter, 0, every / 2, "s");
        within("looks", looks, 2, 100_000_000);
        SplittableRandom draws = new SplittableRandom(seed);
        double phase = draws.nextDouble();
        long pulses = 0;
        boolean wasHigh = true;
        for (int i = 0; i < looks; i++) {
            double late = jitter == 0 ? 0 : jitter * (2 * draws.nextDouble() - 1);
            double turned = phase + rate * (i * every + late);
            boolean high = turned - Math.floor(turned) < duty;
            if (high && !wasHigh) {
                pulses++;
            }
            wasHigh = high;
        }
        return pulses / ((looks - 1) * every);
    }

    private static void check(double rate, double every, double duty) {
        notNegative("pulse rate", rate, "Hz");
        positive("sampled_every", every * 1e3, "ms");
        within("duty", duty, 0.01, 0.99, "");
    }
}
