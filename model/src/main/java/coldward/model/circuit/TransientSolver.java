package coldward.model.circuit;

import coldward.model.circuit.CircuitSystem.Plate;
import coldward.model.circuit.Newton.Companion;
import coldward.model.circuit.Newton.End;
import coldward.model.circuit.TransientResult.Followed;
import coldward.model.circuit.TransientResult.Stopped;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Follows a circuit from rest through its jumps by TR-BDF2 (a trapezoidal step over {@code gamma h}, then the second
 * backward difference to {@code h}; Bank et al. 1985, error estimate of Hosea and Shampine 1996): order 2, L-stable, so that
 * stiff parasitics do not ring. Starts afresh at each jump with two short implicit Euler steps, since a capacitor's current
 * jumps there. Steps are bounded in number.
 */
public final class TransientSolver {

    private static final double GAMMA = 2 - Math.sqrt(2);
    private static final double ERROR_WEIGHT = (-3 * GAMMA * GAMMA + 4 * GAMMA - 2) / (12 * (2 - GAMMA));

    /** Share of a segment that the Euler steps after a jump take. */
    private static final double START = 1e-7;

    private static final int PER_STEP = 30;

    /** A step shorter than this share of the whole is not tried. */
    private static final double SHORTEST = 1e-13;

    private final CircuitSystem system;
    private final Newton newton;
    private final TransientSettings settings;
    private final List<Plate> plates;
    private final double[] volts;
    private final double[] amperes;
    private final double[] middleVolts;
    private double[] times = new double[256];
    private final double[][] states;
    private int recorded;
    private int steps;
    private int rejected;
    private double residual;

    private TransientSolver(Netlist netlist, TransientSettings settings) {
        this.settings = settings;
        system = new CircuitSystem(netlist);
        newton = new Newton(system);
        plates = system.plates();
        volts = new double[plates.size()];
        amperes = new double[plates.size()];
        middleVolts = new double[plates.size()];
        states = new double[system.names().size()][256];
    }

    /** Follows the circuit from its rest before the first jump to the settings' end. */
    public static TransientResult follow(Netlist netlist, TransientSettings settings) {
        return new TransientSolver(netlist, settings).run();
    }

    private TransientResult run() {
        End rest = DcSolver.settle(newton, -1, Newton.OPEN);
        if (rest != End.SETTLED) {
            return stopped(0, "the circuit at rest before the first jump was not solved");
        }
        across(volts);
        record(0);
        double[] jumps =
                Arrays.stream(system.jumps()).filter(t -> t < settings.end()).toArray();
        double from = 0;
        for (int i = 0; i <= jumps.length; i++) {
            double to = i < jumps.length ? jumps[i] : settings.end();
            Optional<Stopped> stopped = segment(from, to);
            if (stopped.isPresent()) {
                return stopped.get();
            }
            from = to;
        }
        double[][] kept = new double[states.length][];
        for (int i = 0; i < kept.length; i++) {
            kept[i] = Arrays.copyOf(states[i], recorded);
        }
        return new Followed(new Trace(system.names(), Arrays.copyOf(times, recorded), kept), residual, steps, rejected);
    }

    /** Between two jumps; {@code t} at its end is still before the next one. */
    private Optional<Stopped> segment(double from, double to) {
        double t = from;
        // everything that jumped at `from` is past its jump throughout the segment
        double stateTime = from;
        double short1 = (to - from) * START;
        for (int i = 0; i < 2; i++) {
            if (!euler(stateTime, short1)) {
                return Optional.of(stopped(t, "the step just after a jump was not solved"));
            }
            t += short1;
            record(t);
        }
        double h = settings.fixedStep() > 0 ? settings.fixedStep() : (to - from) * 1e-5;
        double[] x = newton.x.clone();
        double[] middle = new double[x.length];
        double[] currents = new double[amperes.length];
        while (t < to) {
            if (steps >= settings.most()) {
                return Optional.of(stopped(t, "the bound of " + settings.most() + " steps was reached"));
            }
            boolean last = t + h >= to - 1e-9 * h;
            double step = last ? to - t : h;
            System.arraycopy(newton.x, 0, x, 0, x.length);
            System.arraycopy(amperes, 0, currents, 0, currents.length);
            double error = trBdf2(stateTime, step, middle);
            steps++;
            boolean controlled = settings.fixedStep() == 0;
            if (error <= 1 || (!controlled && Double.isFinite(error))) {
                record(t + GAMMA * step, middle);
                t = last ? to : t + step;
                record(t);
                across(volts);
            } else {
                rejected++;
                System.arraycopy(x, 0, newton.x, 0, x.length);
                System.arraycopy(currents, 0, amperes, 0, currents.length);
                if (step < SHORTEST * settings.end() || !controlled) {
                    return Optional.of(stopped(t, "a step of " + step + " s was not solved"));
                }
            }
            if (controlled) {
                double factor = Double.isFinite(error) ? 0.9 / Math.cbrt(Math.max(error, 1e-6)) : 0.1;
                h = step * Math.clamp(factor, 0.1, last ? 1 : 3);
            }
        }
        return Optional.empty();
    }

    private boolean euler(double stateTime, double h) {
        Companion companion =
                companion(k -> plates.get(k).farad() / h, k -> -plates.get(k).farad() / h * volts[k]);
        if (newton.attempt(stateTime, 1, 0, companion, PER_STEP) != End.SETTLED
                && DcSolver.settle(newton, stateTime, companion) != End.SETTLED) {
            return false;
        }
        keep(companion);
        across(volts);
        return true;
    }

    /** One step from {@link #volts}; the estimated error over the allowed one, infinite if it was not solved. */
    private double trBdf2(double stateTime, double h, double[] middle) {
        double[] before = amperes.clone();
        Companion first = companion(
                k -> 2 * plates.get(k).farad() / (GAMMA * h),
                k -> -2 * plates.get(k).farad() / (GAMMA * h) * volts[k] - before[k]);
        if (newton.attempt(stateTime, 1, 0, first, PER_STEP) != End.SETTLED) {
            return Double.POSITIVE_INFINITY;
        }
        keep(first);
        double[] between = amperes.clone();
        System.arraycopy(newton.x, 0, middle, 0, middle.length);
        across(middleVolts);
        double a = (2 - GAMMA) / (1 - GAMMA);
        double b = 1 / (GAMMA * (1 - GAMMA));
        double c = (1 - GAMMA) / GAMMA;
        Companion second = companion(
                k -> a * plates.get(k).farad() / h,
                k -> plates.get(k).farad() / h * (c * volts[k] - b * middleVolts[k]));
        if (newton.attempt(stateTime, 1, 0, second, PER_STEP) != End.SETTLED) {
            return Double.POSITIVE_INFINITY;
        }
        keep(second);
        double worst = 0;
        for (int k = 0; k < amperes.length; k++) {
            Plate plate = plates.get(k);
            double change = before[k] / GAMMA - between[k] / (GAMMA * (1 - GAMMA)) + amperes[k] / (1 - GAMMA);
            double error = Math.abs(2 * ERROR_WEIGHT * h * change / plate.farad());
            double level = Math.abs(CircuitSystem.across(newton.x, plate.from(), plate.to()));
            worst = Math.max(worst, error / (settings.absolute() + settings.relative() * level));
        }
        return worst;
    }

    private void keep(Companion companion) {
        for (int k = 0; k < amperes.length; k++) {
            Plate plate = plates.get(k);
            amperes[k] = companion.siemens(k) * CircuitSystem.across(newton.x, plate.from(), plate.to())
                    + companion.amperes(k);
        }
        residual = Math.max(residual, newton.lastResidual());
    }

    private void across(double[] into) {
        for (int k = 0; k < into.length; k++) {
            into[k] = CircuitSystem.across(
                    newton.x, plates.get(k).from(), plates.get(k).to());
        }
    }

    private static Companion companion(
            java.util.function.IntToDoubleFunction siemens, java.util.function.IntToDoubleFunction amperes) {
        return new Companion() {
            @Override
            public double siemens(int plate) {
                return siemens.applyAsDouble(plate);
            }

            @Override
            public double amperes(int plate) {
                return amperes.applyAsDouble(plate);
            }
        };
    }

    private void record(double t) {
        record(t, newton.x);
    }

    private void record(double t, double[] x) {
        if (recorded == times.length) {
            times = Arrays.copyOf(times, 2 * recorded);
            for (int i = 0; i < states.length; i++) {
                states[i] = Arrays.copyOf(states[i], 2 * recorded);
            }
        }
        times[recorded] = t;
        for (int i = 0; i < states.length; i++) {
            states[i][recorded] = x[i];
        }
        recorded++;
    }

    private Stopped stopped(double t, String why) {
        return new Stopped(t, system.point(newton.x, t, amperes), steps, why);
    }
}
