package coldward.model.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The chance of having noticed by a moment, over a phase that is uniform within a window: F(m W + tau) = 1/W (integral of
 * P_(m+1) up to tau + integral of P_m from tau to W), P_n(phi) the chance by the n-th report. P rises with the phase;
 * phases are put where it changes, and between two it is taken to be straight.
 */
final class PhaseAverage {

    private static final int FIRST = 4;
    private static final int MOST_HALVINGS = 60;

    /** Chances by report for one phase. */
    private static final class At {
        private final double phase;
        private final double[] chances;

        At(double phase, double[] chances) {
            this.phase = phase;
            this.chances = chances;
        }

        double phase() {
            return phase;
        }

        int reports() {
            return chances.length;
        }

        double by(int n) {
            return n <= 0 ? 0 : chances[Math.min(n, chances.length) - 1];
        }
    }

    private final double window;
    private final List<At> phases = new ArrayList<>();
    private final int most;

    PhaseAverage(DetectionChain chain, double window, Detection.Accuracy accuracy) {
        this.window = window;
        At left = at(chain, 0);
        int longest = left.reports();
        phases.add(left);
        for (int i = 1; i <= FIRST; i++) {
            At right = at(chain, window * i / FIRST);
            refine(chain, left, right, accuracy, accuracy.halvings);
            phases.add(right);
            longest = Math.max(longest, right.reports());
            left = right;
        }
        this.most = longest;
    }

    private static At at(DetectionChain chain, double phase) {
        return new At(phase, chain.chances(phase));
    }

    private void refine(DetectionChain chain, At left, At right, Detection.Accuracy accuracy, int halvings) {
        if (halvings == 0 || change(left, right) <= accuracy.change) {
            return;
        }
        At middle = at(chain, (left.phase() + right.phase()) / 2);
        refine(chain, left, middle, accuracy, halvings - 1);
        phases.add(middle);
        refine(chain, middle, right, accuracy, halvings - 1);
    }

    private static double change(At left, At right) {
        int n = Math.max(left.reports(), right.reports());
        double largest = 0;
        for (int i = 1; i <= n; i++) {
            largest = Math.max(largest, Math.abs(left.by(i) - right.by(i)));
        }
        return largest;
    }

    Detection detection(OptionalDouble worst) {
        double within = most * window;
        double chance = chance(within);
        if (chance < 0.99) {
            return new Detection.NotNoticed(within, chance);
        }
        return new Detection.Noticed(quantile(0.5), quantile(0.99), worst, phases.size());
    }

    /** The chance of having noticed within t s of the failure. */
    double chance(double t) {
        int m = (int) Math.floor(t / window);
        double tau = t - m * window;
        double sum = 0;
        for (int i = 0; i + 1 < phases.size(); i++) {
            At left = phases.get(i);
            At right = phases.get(i + 1);
            double width = right.phase() - left.phase();
            double cut = Math.clamp((tau - left.phase()) / width, 0, 1);
            sum += width * (part(left.by(m + 1), right.by(m + 1), 0, cut) + part(left.by(m), right.by(m), cut, 1));
        }
        return sum / window;
    }

    /** Integral of the straight line from a at 0 to b at 1 between two places. */
    private static double part(double a, double b, double from, double to) {
        return (to - from) * (a + (b - a) * (from + to) / 2);
    }

    private double quantile(double q) {
        double low = 0;
        double high = most * window;
        for (int i = 0; i < MOST_HALVINGS && high - low > 1e-9 * window; i++) {
            double middle = (low + high) / 2;
            if (chance(middle) >= q) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }
}
