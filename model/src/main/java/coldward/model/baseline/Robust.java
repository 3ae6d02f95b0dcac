package coldward.model.baseline;

import coldward.quantity.InputError;
import java.util.Arrays;

/** Estimates that up to half of the values may be wild without moving. */
final class Robust {

    /** 1 / Phi^-1(3/4): makes the median absolute deviation of a Gaussian its standard deviation. */
    static final double GAUSSIAN_MAD = 1.4826;

    private Robust() {}

    /** The middle value, or the mean of the two in the middle. */
    static double median(double[] values) {
        if (values.length == 0) {
            throw new InputError("values", "there are no values but a median needs at least one");
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }

    /** 1.4826 times the median distance from the median. */
    static double deviation(double[] values, double median) {
        double[] distances = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            distances[i] = Math.abs(values[i] - median);
        }
        return GAUSSIAN_MAD * median(distances);
    }
}
