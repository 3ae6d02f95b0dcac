package coldward.model.circuit;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.DcResult.Failed;
import coldward.model.circuit.DcResult.Reason;
import coldward.model.circuit.Newton.Companion;
import coldward.model.circuit.Newton.End;

/**
 * Solves a circuit at rest, before anything jumps. First Newton from zero; if that does not settle, a leakage from every
 * node to ground that shrinks step by step; then the sources raised step by step. Each is bounded, so it always ends.
 */
public final class DcSolver {

    /** A by which the currents at a node may fail to cancel in a solution. */
    public static final double RESIDUAL = 1e-9;

    private static final int PLAIN = 60;
    private static final int PER_STEP = 25;
    private static final int STEPS = 40;

    /** S to begin the leakage with: next to a short for these circuits. */
    private static final double FIRST_LEAK = 0.1;

    private DcSolver() {}

    /** The circuit before its first jump, capacitors open. */
    public static DcResult solve(Netlist netlist) {
        CircuitSystem system = new CircuitSystem(netlist);
        Newton newton = new Newton(system);
        End end = settle(newton, -1, Newton.OPEN);
        double residual = newton.residual(-1, Newton.OPEN);
        OperatingPoint point =
                system.point(newton.x, -1, new double[system.plates().size()]);
        if (end == End.SETTLED && residual < RESIDUAL) {
            return new Converged(point, residual, newton.iterations());
        }
        Reason reason = switch (end) {
            case SINGULAR -> Reason.SINGULAR;
            case UNBOUNDED -> Reason.UNBOUNDED;
            case SETTLED, BOUND -> Reason.NOT_SETTLED;
        };
        return new Failed(reason, point, residual, newton.iterations());
    }

    /** From zero by the three ways; the state is left in {@code newton}. */
    static End settle(Newton newton, double t, Companion companion) {
        newton.zero();
        End plain = newton.attempt(t, 1, 0, companion, PLAIN);
        if (plain != End.BOUND) {
            return plain;
        }
        End leaked = withShrinkingLeak(newton, t, companion);
        return leaked == End.BOUND ? withRisingSources(newton, t, companion) : leaked;
    }

    private static End withShrinkingLeak(Newton newton, double t, Companion companion) {
        newton.zero();
        double leak = FIRST_LEAK;
        double ratio = 10;
        double[] good = newton.x.clone();
        double goodLeak = Double.POSITIVE_INFINITY;
        for (int step = 0; step < STEPS; step++) {
            End end = newton.attempt(t, 1, leak, companion, PER_STEP);
            if (end == End.SINGULAR || end == End.UNBOUNDED) {
                return end;
            }
            if (end == End.SETTLED) {
                if (leak == 0) {
                    return End.SETTLED;
                }
                System.arraycopy(newton.x, 0, good, 0, good.length);
                goodLeak = leak;
                leak = leak < Netlist.LEAK ? 0 : leak / ratio;
            } else {
                System.arraycopy(good, 0, newton.x, 0, good.length);
                if (Double.isInfinite(goodLeak) || ratio < 1.05) {
                    return End.BOUND;
                }
                ratio = Math.sqrt(ratio);
                leak = goodLeak / ratio;
            }
        }
        return End.BOUND;
    }

    private static End withRisingSources(Newton newton, double t, Companion companion) {
        newton.zero();
        double[] good = newton.x.clone();
        double reached = 0;
        double stride = 0.1;
        for (int step = 0; step < STEPS; step++) {
            double share = Math.min(1, reached + stride);
            End end = newton.attempt(t, share, 0, companion, PER_STEP);
            if (end == End.SINGULAR || end == End.UNBOUNDED) {
                return end;
            }
            if (end == End.SETTLED) {
                if (share == 1) {
                    return End.SETTLED;
                }
                System.arraycopy(newton.x, 0, good, 0, good.length);
                reached = share;
                stride *= 1.5;
            } else {
                System.arraycopy(good, 0, newton.x, 0, good.length);
                stride /= 4;
                if (stride < 1e-6) {
                    return End.BOUND;
                }
            }
        }
        return End.BOUND;
    }
}
