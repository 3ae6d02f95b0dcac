package coldward.model.trip;

import coldward.quantity.Checks;
import coldward.quantity.NumericalFailure;
import java.util.Arrays;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * Reports until k in a row are low, for an AR(1) speed: a Markov chain over (speed z, run length j), z in deviations from
 * the mean.
 *
 * <p>With K the Gaussian kernel of one step and L(z) = e + (1 - e) [z &lt; a] the chance that a report is low, the expected
 * number of further reports obeys h_j = 1 + K (L h_(j+1) + (1 - L) h_0), h_k = 0. Gauss-Legendre panels that meet at a turn
 * it into matrices M = K L and N = K (1 - L). Eliminating the run lengths leaves the chain at its reports that are not low:
 * (I - Q) h_0 = G 1, Q = G N, G = I + M + ... + M^(k-1). Its row sums are known without subtraction: 1 - Q 1 = M^k 1, the
 * chance that the run that starts here is a trip. Elimination with pivots added up from them (Grassmann, Taksar, Heyman,
 * Operations Research 33 (1985), 1107) subtracts nowhere, so the result keeps its digits however rare a trip is; M^k 1 is
 * kept as mantissa and logarithm, so nothing underflows either.
 */
final class RunChain {

    /** Beyond this many deviations the Gaussian's share is below a double's last digit. */
    private static final double REACH = 8.6;

    /** Largest width of a panel in deviations of one step; with 16 nodes the rule is exact to about 1e-13. */
    private static final double PANEL = 3;

    /** Width of the panels next to the threshold in lengths over which a far tail falls by a factor of e, at most. */
    private static final double TAIL = 12;

    /** Below it a kernel's value changes no digit but slows the arithmetic down. */
    private static final double NOTHING = 1e-290;

    /**
     * What came out.
     *
     * @param lnReports natural logarithm of the expected number of reports
     * @param spread standard deviation of that number over its expectation
     * @param nodes nodes of the quadrature
     * @param residual of the linear system, relative to its largest unknown
     */
    record Solved(double lnReports, double spread, int nodes, double residual) {}

    private final int all;
    private final int firstHigh;
    private final int runLength;
    // one row more than nodes: the last is the start from the stationary law
    private final double[][] low;
    private final double[][] high;
    private final double[][] back;
    private final double[] trip;
    private final double scale;
    private final double[][] factors;
    private final double[] pivots;

    private RunChain(double threshold, double correlation, double outliers, int runLength, int order) {
        this.runLength = runLength;
        double step = Math.sqrt((1 - correlation) * (1 + correlation));
        // with r < 0 a far low comes by way of a far high
        double side = correlation < 0 ? Math.abs(threshold) : 0;
        double bottom = Math.min(Math.min(threshold, 0), -side) - REACH;
        double top = Math.max(Math.max(threshold, 0), side) + REACH;
        // the steepest fall of a path's density at the threshold is |a| / (1 - |r|), or |a| / (1 + r) for r > 0
        double fall = (1 + correlation) / Math.abs(threshold);
        double nearest = Math.min(PANEL * step, TAIL * fall);
        double[] below = edges(threshold - bottom, nearest, PANEL * step);
        double[] above = edges(top - threshold, nearest, PANEL * step);
        this.firstHigh = (below.length - 1) * order;
        this.all = firstHigh + (above.length - 1) * order;
        double[] z = new double[all];
        double[] w = new double[all];
        GaussIntegrator rule = new GaussIntegratorFactory().legendre(order);
        place(rule, threshold, -1, below, z, w, 0);
        place(rule, threshold, 1, above, z, w, firstHigh);

        this.low = new double[all + 1][all];
        this.high = new double[all + 1][all - firstHigh];
        for (int i = 0; i <= all; i++) {
            double middle = i < all ? correlation * z[i] : 0;
            double deviation = i < all ? step : 1;
            for (int j = 0; j < all; j++) {
                double x = (z[j] - middle) / deviation;
                double mass = Math.exp(-x * x / 2) / (deviation * Math.sqrt(2 * Math.PI)) * w[j];
                mass = mass < NOTHING ? 0 : mass;
                if (j < firstHigh) {
                    low[i][j] = mass;
                } else {
                    low[i][j] = mass * outliers;
                    high[i][j - firstHigh] = mass * (1 - outliers);
                }
            }
        }
        this.back = back();
        double[] chance = new double[all + 1];
        Arrays.fill(chance, 1);
        double ln = 0;
        for (int n = 0; n < runLength; n++) {
            chance = times(low, chance);
            ln += normalise(chance, 0);
        }
        ln += normalise(chance, firstHigh);
        this.scale = ln;
        this.trip = Arrays.copyOfRange(chance, firstHigh, all);
        this.factors = new double[all - firstHigh][];
        this.pivots = new double[all - firstHigh];
        eliminate();
    }

    /**
     * Solves the chain.
     *
     * @param threshold a = (S - mu) / sigma, within +-30 so that the Gaussian at a is a number
     * @param correlation r
     * @param outliers e, below 1
     * @param runLength k, 1 or more
     * @param order nodes of a panel
     */
    static Solved solve(double threshold, double correlation, double outliers, int runLength, int order) {
        return new RunChain(threshold, correlation, outliers, runLength, order).solve();
    }

    private Solved solve() {
        double es = Math.exp(scale);
        double[] ones = new double[all + 1];
        Arrays.fill(ones, 1);
        double[] attempt = ones.clone();
        for (int n = 1; n < runLength; n++) {
            attempt = plus(ones, times(low, attempt));
        }
        // all expectations below are scaled by exp(scale), their squares by its square
        double[] h = solve(Arrays.copyOfRange(attempt, firstHigh, all), es);
        double[] again = plus(filled(es), times(high, h));
        double[][] runs = new double[runLength][];
        runs[0] = again;
        for (int n = 1; n < runLength; n++) {
            runs[n] = plus(again, times(low, runs[n - 1]));
        }
        double mean = runs[runLength - 1][all];
        // divided by the mean, lest the square overflow
        double[] square = twice(runs[0], es, mean);
        for (int n = 1; n < runLength; n++) {
            square = plus(twice(runs[n], es, mean), times(low, square));
        }
        double[] h2 = solve(Arrays.copyOfRange(square, firstHigh, all), es);
        double second = square[all] * (es / mean) + dot(back[all], h2) / mean;
        double spread = Math.sqrt(Math.max(0, second - 1));
        double ln = Math.log(mean) - scale;
        if (!Double.isFinite(ln) || !Double.isFinite(spread)) {
            throw failure("the expected number of reports is " + Checks.number(mean));
        }
        return new Solved(ln, spread, all, residual(h, attempt, es));
    }

    private double[][] back() {
        double[][] x = high;
        for (int n = 1; n < runLength; n++) {
            double[][] next = new double[all + 1][];
            for (int i = 0; i <= all; i++) {
                next[i] = high[i].clone();
                for (int j = 0; j < all; j++) {
                    double share = low[i][j];
                    if (share > 0) {
                        add(next[i], 0, share, x[j]);
                    }
                }
            }
            x = next;
        }
        return x;
    }

    private void eliminate() {
        int size = pivots.length;
        double es = Math.exp(scale);
        for (int i = 0; i < size; i++) {
            factors[i] = back[firstHigh + i].clone();
        }
        double[] defect = trip.clone();
        for (int i = 0; i < size; i++) {
            double sum = 0;
            for (int j = i + 1; j < size; j++) {
                sum += factors[i][j];
            }
            // the last one is the trip alone and stays scaled
            pivots[i] = i == size - 1 ? defect[i] : sum + defect[i] * es;
            if (!(pivots[i] > 0) || Double.isInfinite(pivots[i])) {
                throw failure("pivot " + i + " is " + Checks.number(pivots[i]));
            }
            for (int l = i + 1; l < size; l++) {
                double t = factors[l][i] / pivots[i];
                factors[l][i] = t;
                if (t > 0) {
                    add(factors[l], i + 1, t, factors[i]);
                    defect[l] += t * defect[i];
                }
            }
        }
    }

    /** exp(scale) (I - Q)^-1 b. */
    private double[] solve(double[] rightHand, double es) {
        int size = pivots.length;
        double[] b = rightHand.clone();
        for (int i = 0; i < size; i++) {
            for (int l = i + 1; l < size; l++) {
                b[l] += factors[l][i] * b[i];
            }
        }
        double[] x = new double[size];
        x[size - 1] = b[size - 1] / pivots[size - 1];
        for (int i = size - 2; i >= 0; i--) {
            double sum = b[i] * es;
            for (int j = i + 1; j < size; j++) {
                sum += factors[i][j] * x[j];
            }
            x[i] = sum / pivots[i];
        }
        return x;
    }

    private double residual(double[] h, double[] attempt, double es) {
        double worst = 0;
        double largest = 0;
        for (int i = 0; i < h.length; i++) {
            double leave = trip[i] * es * h[i] - attempt[firstHigh + i] * es;
            for (int j = 0; j < h.length; j++) {
                leave += back[firstHigh + i][j] * (h[i] - h[j]);
            }
            worst = Math.max(worst, Math.abs(leave));
            largest = Math.max(largest, h[i]);
        }
        return worst / largest;
    }

    private NumericalFailure failure(String what) {
        return new NumericalFailure("spurious trips: " + what + " with " + all + " nodes, run length " + runLength);
    }

    /** Distances of the panels' ends from the threshold, widths doubling up to the largest. */
    private static double[] edges(double length, double nearest, double largest) {
        double[] ends = new double[(int) (length / nearest) + 2];
        int count = 0;
        double width = nearest;
        while (ends[count] + 1.5 * width < length) {
            ends[count + 1] = ends[count] + width;
            count++;
            width = Math.min(2 * width, largest);
        }
        // what is left is at most one and a half panels wide
        if (length - ends[count] > largest) {
            ends[count + 1] = (ends[count] + length) / 2;
            count++;
        }
        ends[++count] = length;
        return Arrays.copyOf(ends, count + 1);
    }

    private static void place(
            GaussIntegrator rule, double threshold, int side, double[] edges, double[] z, double[] w, int at) {
        int order = rule.getNumberOfPoints();
        for (int p = 0; p + 1 < edges.length; p++) {
            double middle = threshold + side * (edges[p] + edges[p + 1]) / 2;
            double half = (edges[p + 1] - edges[p]) / 2;
            for (int i = 0; i < order; i++) {
                z[at + p * order + i] = middle + half * rule.getPoint(i);
                w[at + p * order + i] = half * rule.getWeight(i);
            }
        }
    }

    /** Divides by the largest element from an index on, the start's row apart, and returns its logarithm. */
    private double normalise(double[] v, int from) {
        double largest = 0;
        for (int i = from; i < all; i++) {
            largest = Math.max(largest, v[i]);
        }
        if (!(largest > 0)) {
            throw failure("no report is ever low");
        }
        for (int i = 0; i < v.length; i++) {
            v[i] /= largest;
        }
        return Math.log(largest);
    }

    private double[] filled(double value) {
        double[] v = new double[all + 1];
        Arrays.fill(v, value);
        return v;
    }

    /** E (1 + T')^2 - E T'^2 = 2 E T - 1, scaled, over the mean. */
    private static double[] twice(double[] expected, double es, double mean) {
        double[] v = new double[expected.length];
        for (int i = 0; i < v.length; i++) {
            v[i] = (2 * expected[i] - es) / mean;
        }
        return v;
    }

    private static double[] plus(double[] a, double[] b) {
        double[] v = a.clone();
        for (int i = 0; i < v.length; i++) {
            v[i] += b[i];
        }
        return v;
    }

    private static double[] times(double[][] matrix, double[] vector) {
        double[] v = new double[matrix.length];
        for (int i = 0; i < v.length; i++) {
            v[i] = dot(matrix[i], vector);
        }
        return v;
    }

    /** Over the row's length; the vector may go on. */
    private static double dot(double[] row, double[] vector) {
        double sum = 0;
        for (int j = 0; j < row.length; j++) {
            sum += row[j] * vector[j];
        }
        return sum;
    }

    private static void add(double[] to, int from, double share, double[] row) {
        for (int j = from; j < to.length; j++) {
            to[j] += share * row[j];
        }
    }
}
