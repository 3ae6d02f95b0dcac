package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * Runs of k successes in independent trials, each with the chance p: the case without correlation, and the yardstick for
 * the one with. Source: Feller, An Introduction to Probability Theory and Its Applications, Vol. I, XIII.7.
 */
public final class Runs {

    private Runs() {}

    /**
     * Expected number of trials up to and with the one that completes the first run: (1 - p^k) / ((1 - p) p^k), Eq. (7.7),
     * summed as p^-1 + ... + p^-k, which loses no digits near p = 1.
     *
     * @param chance p, above 0, at most 1
     * @param length k, 1 or more
     * @return infinite where it is above what a double holds
     */
    public static double expected(double chance, int length) {
        check(chance, length);
        double sum = 0;
        for (int i = 0; i < length; i++) {
            sum = (sum + 1) / chance;
        }
        return sum;
    }

    /**
     * Variance of the same number: 1 / (q p^k)^2 - (2k + 1) / (q p^k) - p / q^2 with q = 1 - p, Eq. (7.7).
     *
     * @param chance p, above 0, below 1; near 1 the terms cancel
     * @param length k, 1 or more
     */
    public static double variance(double chance, int length) {
        check(chance, length);
        within("chance of a success", chance, 0, Math.nextDown(1.0), "");
        double q = 1 - chance;
        double power = q * Math.pow(chance, length);
        return 1 / (power * power) - (2 * length + 1) / power - chance / (q * q);
    }

    /**
     * Chance of at least one run within a number of trials, by the chain over the run length.
     *
     * @param chance p, above 0, at most 1
     * @param length k, 1 or more
     * @param trials 0 or more
     */
    public static double chanceWithin(double chance, int length, int trials) {
        check(chance, length);
        notNegative("trials", trials, "");
        double[] running = new double[length];
        running[0] = 1;
        double done = 0;
        for (int n = 0; n < trials; n++) {
            double all = 0;
            for (double share : running) {
                all += share;
            }
            done += running[length - 1] * chance;
            for (int j = length - 1; j > 0; j--) {
                running[j] = running[j - 1] * chance;
            }
            running[0] = all * (1 - chance);
        }
        return done;
    }

    private static void check(double chance, int length) {
        positive("chance of a success", chance, "");
        within("chance of a success", chance, 0, 1, "");
        within("run length", length, 1, Integer.MAX_VALUE);
    }
}
