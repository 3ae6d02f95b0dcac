package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.SplittableRandom;

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
