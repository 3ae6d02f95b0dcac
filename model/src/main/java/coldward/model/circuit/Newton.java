package coldward.model.circuit;

import java.util.Arrays;
import java.util.List;

/** Newton's method on one circuit, with the tangent of each junction taken where its law allows. */
final class Newton {

    /** What the capacitors do at this instant: each is {@code siemens} with {@code amperes} beside it. */
    interface Companion {
        double siemens(int plate);

        double amperes(int plate);
    }

    /** At rest: capacitors are open. */
    static final Companion OPEN = new Companion() {
        @Override
        public double siemens(int plate) {
            return 0;
        }

        @Override
        public double amperes(int plate) {
            return 0;
        }
    };

    /** How one attempt ended. */
    enum End {
        SETTLED,
        SINGULAR,
        UNBOUNDED,
        BOUND
    }

    /** A and V left over, at most, when a state counts as solved. */
    private static final double TOLERANCE = 1e-11;

    /** A state whose steps no longer shrink the remainder counts as solved below this, A and V. */
    private static final double ROUNDED = 3e-10;

    /** V a voltage may still move when solved, absolute and relative. */
    private static final double STILL = 1e-9;

    /** Steps in a row with nothing left over that count as solved although a voltage moves: it hangs on leakage alone. */
    private static final int BALANCED = 3;

    /** Relative step at which absurd voltages count as where it ends. */
    private static final double ABSURDLY_STILL = 1e-3;

    /** V at which only leakage can hold a current source. */
    private static final double ABSURD = 1e6;

    private final CircuitSystem system;
    private final double[][] matrix;
    private final double[] sum;
    private final double[] change;
    private final double[] anchors;

    /** The state, which an attempt starts from and leaves. */
    final double[] x;

    private int iterations;
    private double lastResidual;

    Newton(CircuitSystem system) {
        this.system = system;
        matrix = new double[system.unknowns][system.unknowns];
        sum = new double[system.unknowns];
        change = new double[system.unknowns];
        anchors = new double[system.branches().size()];
        x = new double[system.unknowns];
    }

    /** Newton steps of all attempts so far. */
    int iterations() {
        return iterations;
    }

    /** Largest A by which the currents at a node failed to cancel when the last attempt ended. */
    double lastResidual() {
        return lastResidual;
    }

    /** Largest A by which the currents at a node, or V by which a source, fail to balance at {@link #x}. */
    double residual(double t, Companion companion) {
        system.linear(x, t, 1, 0, matrix, sum);
        return complete(t, companion);
    }

    /** One attempt from {@link #x}, at most {@code bound} steps. */
    End attempt(double t, double share, double extra, Companion companion, int bound) {
        List<CircuitSystem.Branch> branches = system.branches();
        for (int k = 0; k < anchors.length; k++) {
            CircuitSystem.Branch branch = branches.get(k);
            anchors[k] = CircuitSystem.across(x, branch.from(), branch.to());
        }
        double moved = Double.POSITIVE_INFINITY;
        double before = Double.POSITIVE_INFINITY;
        boolean anchored = true;
        int balanced = 0;
        for (int i = 0; i <= bound; i++) {
            system.linear(x, t, share, extra, matrix, sum);
            double residual = complete(t, companion);
            lastResidual = residual;
            balanced = anchored && residual < TOLERANCE ? balanced + 1 : 0;
            boolean rounded = residual >= before / 2 && residual < ROUNDED;
            boolean still = anchored && moved < STILL;
            if (balanced >= BALANCED || (still && (residual < TOLERANCE || rounded))) {
                return End.SETTLED;
            }
            if (anchored && moved < ABSURDLY_STILL && highest() > ABSURD) {
                return End.UNBOUNDED;
            }
            before = residual;
            if (i == bound) {
                break;
            }
            iterations++;
            system.linear(x, t, share, extra, matrix, sum);
            tangents(t, companion);
            for (int j = 0; j < change.length; j++) {
                change[j] = -sum[j];
            }
            if (!DenseLu.solve(matrix, change, change.length)) {
                return End.SINGULAR;
            }
            moved = 0;
            for (int j = 0; j < change.length; j++) {
                if (!Double.isFinite(change[j])) {
                    return End.SINGULAR;
                }
                if (j < system.nodes) {
                    moved = Math.max(moved, Math.abs(change[j]) / (1 + Math.abs(x[j])));
                }
                x[j] += change[j];
            }
            anchored = true;
            for (int k = 0; k < anchors.length; k++) {
                CircuitSystem.Branch branch = branches.get(k);
                double next = CircuitSystem.across(x, branch.from(), branch.to());
                double limited = branch.law().limited(next, anchors[k]);
                anchored &= limited == next;
                anchors[k] = limited;
            }
        }
        return End.BOUND;
    }

    private double highest() {
        double highest = 0;
        for (int i = 0; i < system.nodes; i++) {
            highest = Math.max(highest, Math.abs(x[i]));
        }
        return highest;
    }

    /** Adds the true currents of branches and capacitors at {@code x} to {@link #sum}; the largest entry. */
    private double complete(double t, Companion companion) {
        List<CircuitSystem.Branch> branches = system.branches();
        for (CircuitSystem.Branch branch : branches) {
            double v = CircuitSystem.across(x, branch.from(), branch.to());
            double amperes = branch.law().current(v) * branch.on().value(t);
            CircuitSystem.current(sum, branch.from(), branch.to(), amperes);
        }
        List<CircuitSystem.Plate> plates = system.plates();
        for (int k = 0; k < plates.size(); k++) {
            CircuitSystem.Plate plate = plates.get(k);
            double v = CircuitSystem.across(x, plate.from(), plate.to());
            CircuitSystem.current(sum, plate.from(), plate.to(), companion.siemens(k) * v + companion.amperes(k));
        }
        double largest = 0;
        for (double s : sum) {
            largest = Math.max(largest, Double.isNaN(s) ? Double.POSITIVE_INFINITY : Math.abs(s));
        }
        return largest;
    }

    /** Adds the branches as tangents at their anchors, and the capacitors, to {@link #matrix} and {@link #sum}. */
    private void tangents(double t, Companion companion) {
        List<CircuitSystem.Branch> branches = system.branches();
        for (int k = 0; k < anchors.length; k++) {
            CircuitSystem.Branch branch = branches.get(k);
            double on = branch.on().value(t);
            double slope = branch.law().slope(anchors[k]) * on;
            double v = CircuitSystem.across(x, branch.from(), branch.to());
            CircuitSystem.conductance(matrix, branch.from(), branch.to(), slope);
            CircuitSystem.current(
                    sum, branch.from(), branch.to(), branch.law().current(anchors[k]) * on + slope * (v - anchors[k]));
        }
        List<CircuitSystem.Plate> plates = system.plates();
        for (int k = 0; k < plates.size(); k++) {
            CircuitSystem.Plate plate = plates.get(k);
            double v = CircuitSystem.across(x, plate.from(), plate.to());
            CircuitSystem.conductance(matrix, plate.from(), plate.to(), companion.siemens(k));
            CircuitSystem.current(sum, plate.from(), plate.to(), companion.siemens(k) * v + companion.amperes(k));
        }
    }

    /** Forgets the state. */
    void zero() {
        Arrays.fill(x, 0);
    }
}
