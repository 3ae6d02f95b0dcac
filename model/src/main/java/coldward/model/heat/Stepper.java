package coldward.model.heat;

import java.util.Arrays;

/**
 * One step in time: ROS2 (Verwer, Spee, Blom and Hundsdorfer 1999, SIAM J. Sci. Comput. 20:1456), two linearly implicit
 * stages with one factorisation, second order for any approximate Jacobian, L-stable with {@code gamma = 1 - 1/sqrt 2}.
 * The embedded first-order result gives the error estimate. Heat over the border is integrated alongside by the same
 * formula, so that the energy balance closes to rounding.
 */
final class Stepper {

    private static final double GAMMA = 1 - 1 / Math.sqrt(2);

    private final HeatSystem system;
    private final double[] capacity;
    private final double[] first;
    private final double[] second;
    private final double[] stage;
    private final double[] flow;
    private double borderHeat;
    private double grossHeat;

    Stepper(HeatSystem system) {
        this.system = system;
        this.capacity = system.capacities();
        int size = capacity.length;
        this.first = new double[size];
        this.second = new double[size];
        this.stage = new double[size];
        this.flow = new double[size];
    }

    /**
     * Takes one step.
     *
     * @param y state at the beginning, K; unchanged
     * @param out receives the state at the end
     * @param dt s
     * @param speedNow relative fan speed at the beginning
     * @param speedThen at the end
     * @param power heater power, W, where the block floats
     * @param floating whether the block floats or is held
     * @param blown part-cooling air on the block
     * @return estimated error of the embedded first-order result, K, largest over all parts
     */
    double step(
            double[] y,
            double[] out,
            double dt,
            double speedNow,
            double speedThen,
            double power,
            boolean floating,
            boolean blown) {
        int size = capacity.length;
        int block = size - 1;
        system.prepare(y, speedNow, 1 / (GAMMA * dt), floating, blown);
        system.flows(y, speedNow, power, blown, flow);
        if (!floating) {
            flow[block] = 0;
        }
        system.solve(flow, first);
        for (int i = 0; i < size; i++) {
            stage[i] = y[i] + first[i] / GAMMA;
        }
        system.flows(stage, speedThen, power, blown, flow);
        double back = 2 / (GAMMA * dt);
        for (int i = 0; i < size; i++) {
            flow[i] -= back * capacity[i] * first[i];
        }
        if (!floating) {
            flow[block] = 0;
        }
        system.solve(flow, second);
        double error = 0;
        for (int i = 0; i < size; i++) {
            out[i] = y[i] + (1.5 * first[i] + 0.5 * second[i]) / GAMMA;
            error = Math.max(error, Math.abs(first[i] + second[i]) * (0.5 / GAMMA));
        }
        double borderNow = system.border(y, speedNow, power, floating, blown);
        double borderThen = system.border(stage, speedThen, power, floating, blown);
        double h1 = GAMMA * dt * (borderNow + system.borderChange(first));
        double h2 = GAMMA * dt * (borderThen + system.borderChange(second)) - 2 * h1;
        borderHeat = (1.5 * h1 + 0.5 * h2) / GAMMA;
        grossHeat = dt * Math.abs(system.intoWall(y));
        return error;
    }

    /** Heat over the border during the last step, J. */
    double borderHeat() {
        return borderHeat;
    }

    /** Heat into the neck during the last step, J; the scale for the balance. */
    double grossHeat() {
        return grossHeat;
    }

    /** Heat content of a state, J above 0 K, over the cells and, where it floats, the block. */
    double heatContent(double[] y, boolean floating) {
        double sum = 0;
        int n = system.net.n;
        for (int j = 0; j < n; j++) {
            sum += (j < system.net.grid.shankEnd ? capacity[j] * y[j] : 0)
                    + (j >= system.net.grid.neck ? capacity[n + j] * y[n + j] : 0)
                    + capacity[2 * n + j] * y[2 * n + j];
        }
        return floating ? sum + capacity[3 * n] * y[3 * n] : sum;
    }

    /** Steady state with the block held, by Newton's method on the same equations. */
    static double[] steady(HeatSystem system, double speed) {
        int n = system.net.n;
        double[] y = new double[3 * n + 1];
        Arrays.fill(y, system.net.air);
        y[3 * n] = system.net.hotEnd.nozzle();
        double[] flow = new double[3 * n + 1];
        double[] change = new double[3 * n + 1];
        for (int iteration = 0; iteration < 60; iteration++) {
            system.flows(y, speed, 0, false, flow);
            flow[3 * n] = 0;
            system.prepare(y, speed, 0, false, false);
            system.solve(flow, change);
            double largest = 0;
            for (int i = 0; i < 3 * n; i++) {
                y[i] += change[i];
                largest = Math.max(largest, Math.abs(change[i]));
            }
            if (largest < 1e-9) {
                return y;
            }
        }
        throw new coldward.quantity.NumericalFailure(
                "the steady state did not settle in 60 Newton steps at relative fan speed " + speed);
    }
}
