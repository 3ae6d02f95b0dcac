package coldward.model.baseline;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.quantity.NumericalFailure;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.exception.MathIllegalArgumentException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;

/**
 * A running sum that notices a small, lasting shift of independent Gaussian values: S = max(0, S + x - k), noticed once
 * S > h; x is a value's distance from the mean towards the side that is watched. All in the values' deviations. Source:
 * Page, Biometrika 41 (1954), 100.
 *
 * @param reference k, the part of every distance that is forgiven; above 0
 * @param limit h, 0.1 to {@value #LARGEST_LIMIT}
 */
public record RunningSum(double reference, double limit) {

    /** Largest limit whose run lengths are computed. */
    public static final double LARGEST_LIMIT = 60;

    private static final double SMALLEST_LIMIT = 0.1;

    /** Quadrature points for each deviation of the limit, and at least: the kernel is one deviation wide. */
    private static final double POINTS_PER_DEVIATION = 6;

    private static final int LEAST_POINTS = 24;
    private static final double LARGEST_SHIFT = 100;
    private static final int MOST_HALVINGS = 40;
    private static final double CLOSE = 1e-6;
    private static final double FIRST_STEP = 0.5;

    /** A wait of so many values is lost in rounding; pivots are about one over the wait. */
    private static final double SINGULAR = 1e-14;

    private static final NormalDistribution GAUSS = new NormalDistribution();

    public RunningSum {
        positive("running sum's reference", reference, "deviations");
        within("running sum's limit", limit, SMALLEST_LIMIT, LARGEST_LIMIT, "deviations");
    }

    /**
     * Expected number of values until it is noticed, from S = 0.
     *
     * <p>L(s) = 1 + L(0) Phi(k - s - shift) + integral over 0..h of L(y) phi(y - s + k - shift) dy, by Gauss-Legendre points
     * and one linear system.
     *
     * @param shift of the values' mean towards the side that is watched, deviations; 0 for the wait until it errs
     * @throws NumericalFailure if the wait is beyond about 1e13 values
     */
    public double expected(double shift) {
        within("shift", shift, -LARGEST_SHIFT, LARGEST_SHIFT, "deviations");
        int n = Math.max(LEAST_POINTS, (int) Math.ceil(POINTS_PER_DEVIATION * limit));
        GaussIntegrator rule = new GaussIntegratorFactory().legendre(n, 0, limit);
        double[][] system = new double[n + 1][n + 1];
        double[] ones = new double[n + 1];
        for (int i = 0; i <= n; i++) {
            double from = i == 0 ? 0 : rule.getPoint(i - 1);
            ones[i] = 1;
            system[i][i] += 1;
            system[i][0] -= GAUSS.cumulativeProbability(reference - from - shift);
            for (int j = 1; j <= n; j++) {
                system[i][j] -= rule.getWeight(j - 1) * GAUSS.density(rule.getPoint(j - 1) - from + reference - shift);
            }
        }
        try {
            return new LUDecomposition(new Array2DRowRealMatrix(system, false), SINGULAR)
                    .getSolver()
                    .solve(new ArrayRealVector(ones, false))
                    .getEntry(0);
        } catch (MathIllegalArgumentException e) {
            // singular: one over the wait is lost in rounding
            throw new NumericalFailure(
                    "the wait of " + this + " at a shift of " + shift + " deviations is beyond 1e13 values");
        }
    }

    /**
     * The sum that errs once in so many values where nothing shifts.
     *
     * @param reference k
     * @param values from 10 to 1e9
     */
    public static RunningSum erringOnceIn(double reference, double values) {
        within("values", values, 10, 1e9, "");
        // from below: the wait grows as exp(2 k h), and far beyond the one that is looked for the system is singular
        double low = SMALLEST_LIMIT;
        double high = SMALLEST_LIMIT;
        while (new RunningSum(reference, high).expected(0) < values) {
            low = high;
            high += FIRST_STEP;
            if (high > LARGEST_LIMIT) {
                throw new NumericalFailure("no limit up to " + LARGEST_LIMIT + " errs once in " + values
                        + " values with reference " + reference);
            }
        }
        for (int i = 0; i < MOST_HALVINGS && high - low > CLOSE; i++) {
            double middle = (low + high) / 2;
            if (new RunningSum(reference, middle).expected(0) < values) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return new RunningSum(reference, high);
    }
}
