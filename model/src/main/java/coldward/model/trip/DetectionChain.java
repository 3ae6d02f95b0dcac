package coldward.model.trip;

import java.util.Arrays;

/**
 * The density over (noise z, run length j) of an AR(1) speed whose mean falls, carried from report to report.
 *
 * <p>z lies on nodes h apart; the step's Gaussian kernel is smooth, so the sum over all nodes is exact to a double's
 * digits for h up to half its deviation. The density ends at the threshold a = (S - mean)/sigma inside a cell: there the
 * weights come from the integral of the polynomial through the {@value #STENCIL} nodes around, smooth on both sides.
 */
final class DetectionChain {

    private static final int STENCIL = 6;
    private static final double DONE = 1e-7;
    private static final int MOST_REPORTS = 5000;
    private static final double LONGEST = 1800;

    private final HealthyReports reports;
    private final WindowMean mean;
    private final double tripSpeed;
    private final int k;
    private final double bottom;
    private final double h;
    private final int nodes;
    private final double[][] kernel;
    private final double[] stationary;
    private final double[][] primitive = new double[STENCIL][STENCIL + 1];
    private final double[] below;

    DetectionChain(HealthyReports reports, WindowMean mean, double tripSpeed, int k, Detection.Accuracy accuracy) {
        this.reports = reports;
        this.mean = mean;
        this.tripSpeed = tripSpeed;
        this.k = k;
        double r = reports.correlation();
        double step = Math.sqrt((1 - r) * (1 + r));
        double reach = accuracy.reach + 1;
        this.nodes = 2 * (int) Math.ceil(reach / (accuracy.stepShare * step)) + 1;
        this.h = 2 * reach / (nodes - 1);
        this.bottom = -reach;
        this.kernel = new double[nodes][nodes];
        this.stationary = new double[nodes];
        this.below = new double[nodes];
        for (int i = 0; i < nodes; i++) {
            stationary[i] = density(z(i));
            for (int j = 0; j < nodes; j++) {
                // row: where to, column: where from
                kernel[j][i] = density((z(j) - r * z(i)) / step) / step;
            }
        }
        for (int i = 0; i < STENCIL; i++) {
            primitive[i] = primitive(i);
        }
    }

    /** How many reports are looked at, at most. */
    int most() {
        return (int) Math.clamp(Math.ceil(LONGEST / mean.window()), 10 * k, Math.max(MOST_REPORTS, 10 * k));
    }

    /**
     * The chance that the run is complete by the n-th report, n from 1; ends where it is all but certain.
     *
     * @param phase s from the failure to the end of the first report
     */
    double[] chances(double phase) {
        double[] done = new double[most()];
        double e = reports.outlierRate();
        double[] runs = new double[k];
        runs[0] = 1;
        int n = 0;
        double sum = 0;
        // far above the trip speed only outliers are low, whatever the noise: run lengths alone
        for (; n < done.length && threshold(phase, n) <= bottom; n++) {
            sum += runs[k - 1] * e;
            done[n] = sum;
            double all = 0;
            for (double share : runs) {
                all += share;
            }
            System.arraycopy(runs, 0, runs, 1, k - 1);
            for (int j = 1; j < k; j++) {
                runs[j] *= e;
            }
            runs[0] = all * (1 - e);
        }
        double[][] f = new double[k][nodes];
        for (int j = 0; j < k; j++) {
            for (int i = 0; i < nodes; i++) {
                f[j][i] = runs[j] * stationary[i];
            }
        }
        double[] high = new double[nodes];
        for (; n < done.length; n++) {
            weigh(threshold(phase, n));
            for (int i = 0; i < nodes; i++) {
                sum += f[k - 1][i] * low(i, e);
            }
            done[n] = sum;
            if (sum > 1 - DONE) {
                return Arrays.copyOf(done, n + 1);
            }
            step(f, high, e);
        }
        return done;
    }

    private void step(double[][] f, double[] high, double e) {
        Arrays.fill(high, 0);
        for (int j = 0; j < k; j++) {
            for (int i = 0; i < nodes; i++) {
                high[i] += f[j][i] * (h - low(i, e));
            }
        }
        double[] spare = f[k - 1];
        for (int j = k - 1; j > 0; j--) {
            double[] from = f[j - 1];
            for (int i = 0; i < nodes; i++) {
                from[i] *= low(i, e);
            }
            carry(from, spare);
            f[j] = spare;
            spare = from;
        }
        carry(high, spare);
        f[0] = spare;
    }

    private void carry(double[] from, double[] to) {
        for (int j = 0; j < nodes; j++) {
            double[] row = kernel[j];
            double value = 0;
            for (int i = 0; i < nodes; i++) {
                value += row[i] * from[i];
            }
            to[j] = value;
        }
    }

    private double threshold(double phase, int n) {
        return (tripSpeed - reports.mean() * mean.share(phase + n * mean.window())) / reports.deviation();
    }

    /** Weight of a node among the low reports. */
    private double low(int i, double e) {
        return e * h + (1 - e) * below[i];
    }

    /** Weights of the integral from the lowest node to a threshold. */
    private void weigh(double threshold) {
        double place = (threshold - bottom) / h;
        if (place <= 0) {
            Arrays.fill(below, 0);
            return;
        }
        if (place >= nodes - 1) {
            Arrays.fill(below, h);
            return;
        }
        Arrays.fill(below, 0);
        int cell = (int) place;
        for (int c = 0; c <= cell; c++) {
            int start = Math.clamp(c - STENCIL / 2 + 1, 0, nodes - STENCIL);
            double from = c - start;
            double to = c < cell ? from + 1 : place - start;
            for (int i = 0; i < STENCIL; i++) {
                below[start + i] += h * (value(primitive[i], to) - value(primitive[i], from));
            }
        }
    }

    private double z(int i) {
        return bottom + i * h;
    }

    private static double density(double x) {
        return Math.exp(-x * x / 2) / Math.sqrt(2 * Math.PI);
    }

    private static double value(double[] polynomial, double x) {
        double sum = 0;
        for (int i = polynomial.length - 1; i >= 0; i--) {
            sum = sum * x + polynomial[i];
        }
        return sum;
    }

    /** The integral from 0 of Lagrange's polynomial that is 1 at one node of the stencil and 0 at the others. */
    private static double[] primitive(int node) {
        double[] p = {1};
        for (int other = 0; other < STENCIL; other++) {
            if (other != node) {
                double[] next = new double[p.length + 1];
                for (int i = 0; i < p.length; i++) {
                    next[i] -= p[i] * other / (node - other);
                    next[i + 1] += p[i] / (node - other);
                }
                p = next;
            }
        }
        double[] integral = new double[p.length + 1];
        for (int i = 0; i < p.length; i++) {
            integral[i + 1] = p[i] / (i + 1);
        }
        return integral;
    }
}
