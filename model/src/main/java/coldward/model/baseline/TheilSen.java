package coldward.model.baseline;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.Arrays;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * A straight line through scattered points that a few wild ones do not move: the median of the slopes of all pairs with
 * different x. Source: Sen, Journal of the American Statistical Association 63 (1968), 1379.
 *
 * @param slope median of the slopes
 * @param intercept median(y) - slope x median(x)
 * @param low lower end of the slope's interval
 * @param high upper end of the slope's interval
 */
public record TheilSen(double slope, double intercept, double low, double high) {

    /**
     * Fits a line. Time and memory grow with the square of the number of points.
     *
     * @param x at least two different values
     * @param y as many
     * @param confidence of the slope's interval, between 0 and 1
     * @param inflation factor on the interval's half-width in ranks: 1 for independent points, sqrt((1 + r)/(1 - r)) for
     *     a lag-1 correlation r
     */
    public static TheilSen fit(double[] x, double[] y, double confidence, double inflation) {
        within("points", x.length, 2, 2000);
        within("values of y", y.length, x.length, x.length);
        within("confidence", confidence, 0, Math.nextDown(1.0), "");
        positive("inflation", inflation, "");
        double[] slopes = slopes(x, y);
        if (slopes.length == 0) {
            throw new InputError("x", "all x are equal but a slope needs two different ones");
        }
        double slope = Robust.median(slopes);
        double n = x.length;
        double variance = (n * (n - 1) * (2 * n + 5) - ties(x) - ties(y)) / 18;
        double z = new NormalDistribution().inverseCumulativeProbability((1 + confidence) / 2);
        double half = z * inflation * Math.sqrt(Math.max(0, variance));
        int upper = (int) Math.min(Math.rint((slopes.length + half) / 2), slopes.length - 1.0);
        int lower = (int) Math.max(Math.rint((slopes.length - half) / 2) - 1, 0);
        return new TheilSen(
                slope, Robust.median(y) - slope * Robust.median(x), slopes[Math.min(lower, upper)], slopes[upper]);
    }

    private static double[] slopes(double[] x, double[] y) {
        double[] slopes = new double[x.length * (x.length - 1) / 2];
        int count = 0;
        for (int i = 0; i < x.length; i++) {
            for (int j = 0; j < i; j++) {
                if (x[i] != x[j]) {
                    slopes[count++] = (y[i] - y[j]) / (x[i] - x[j]);
                }
            }
        }
        double[] sorted = Arrays.copyOf(slopes, count);
        Arrays.sort(sorted);
        return sorted;
    }

    /** Sum of t (t - 1) (2 t + 5) over groups of t equal values (Kendall's correction). */
    private static double ties(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        double sum = 0;
        int from = 0;
        for (int i = 1; i <= sorted.length; i++) {
            if (i == sorted.length || sorted[i] != sorted[from]) {
                double t = i - from;
                sum += t * (t - 1) * (2 * t + 5);
                from = i;
            }
        }
        return sum;
    }
}
