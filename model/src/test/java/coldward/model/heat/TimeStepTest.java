package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Order in time, behaviour in huge steps, and the steady state as the limit of a long run. */
class TimeStepTest {

    private static final FanFailure COAST = new FanFailure.Stop(0.8);

    /** From a smooth state, 20 s after the failure: fixed steps against steps so small that they count as exact. */
    @ParameterizedTest
    @CsvSource({"false, 0", "false, 5e-9", "true, 0", "true, 5e-9"})
    void isOfSecondOrder(boolean floating, double feed) {
        HeatSystem system = system(feed);
        double[] smooth = run(system, Stepper.steady(system, 1), 0, 20, 400, floating);
        double[] exact = run(system, smooth, 20, 20, 3200, floating);
        double[] error = new double[4];
        for (int i = 0; i < error.length; i++) {
            double[] y = run(system, smooth, 20, 20, 10 << i, floating);
            error[i] = largestDifference(y, exact);
        }
        double order = Math.log(error[2] / error[3]) / Math.log(2);
        assertThat(order).as("errors %s K", Arrays.toString(error)).isCloseTo(2, within(0.2));
        assertThat(error[3]).isLessThan(0.02);
    }

    @Test
    void aHugeStepDoesNotOvershoot() {
        HeatSystem system = system(5e-9);
        double[] steady = Stepper.steady(system, 1);
        double[] cold = new double[steady.length];
        Arrays.fill(cold, system.net.air);
        cold[cold.length - 1] = system.net.hotEnd.nozzle();
        for (double dt : new double[] {10, 1e3, 1e5, 1e7, 1e9}) {
            double[] y = new double[cold.length];
            new Stepper(system).step(cold, y, dt, 1, 1, 0, false, false);
            assertThat(Arrays.stream(y).min().orElseThrow()).as("step %s s", dt).isGreaterThan(system.net.air - 1);
            assertThat(Arrays.stream(y).max().orElseThrow())
                    .as("step %s s", dt)
                    .isLessThanOrEqualTo(system.net.hotEnd.nozzle());
            if (dt > 1e4) {
                // what is left is how the sink's conductance, taken at the cold start, changes with its temperature
                assertThat(largestDifference(y, steady)).as("step %s s", dt).isLessThan(1);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"0", "5e-9"})
    void theSteadyStateIsTheLimitOfALongRun(double feed) {
        Network net = new Network(SheetExample.titanium(), Factors.NONE, 1);
        Transient heat = new Transient(net, new FanFailure.Healthy(), HeatSettings.USUAL);
        double[] steady = heat.steady(1, feed);
        double[] cold = new double[steady.length];
        Arrays.fill(cold, net.air);
        cold[cold.length - 1] = net.hotEnd.nozzle();
        Transient.Doing heating = new Transient.Doing(feed, true, true, false);
        Transient.Moment end = heat.run(new Transient.Moment(0, cold), 3000, heating, (t, y) -> true);
        assertThat(largestDifference(end.state(), steady)).isLessThan(1e-3);
    }

    /** The adaptive run's own error, against one a hundred times as careful. */
    @Test
    void theUsualToleranceCostsLittle() {
        Race usual = new Race(SheetExample.titanium());
        Race careful = new Race(SheetExample.titanium(), Factors.NONE, COAST, HeatSettings.USUAL.withTolerance(1e-3));
        for (Regime regime : Regime.values()) {
            assertThat(usual.softens(regime).orElseThrow())
                    .isCloseTo(careful.softens(regime).orElseThrow(), within(0.3));
            for (var response : Race.RESPONSES.subList(1, 4)) {
                assertThat(usual.deadline(regime, response).order())
                        .isCloseTo(careful.deadline(regime, response).order(), within(0.3));
            }
        }
    }

    private static HeatSystem system(double feed) {
        HeatSystem system = new HeatSystem(new Network(SheetExample.titanium(), Factors.NONE, 1));
        system.feed(feed);
        return system;
    }

    private static double[] run(
            HeatSystem system, double[] from, double start, double seconds, int steps, boolean floating) {
        Stepper stepper = new Stepper(system);
        double[] y = from.clone();
        double[] next = y.clone();
        double dt = seconds / steps;
        for (int i = 0; i < steps; i++) {
            double t = start + i * dt;
            stepper.step(y, next, dt, COAST.speed(t), COAST.speed(t + dt), 0, floating, false);
            double[] swap = y;
            y = next;
            next = swap;
        }
        return y;
    }

    static double largestDifference(double[] a, double[] b) {
        double largest = 0;
        for (int i = 0; i < a.length; i++) {
            largest = Math.max(largest, Math.abs(a[i] - b[i]));
        }
        return largest;
    }
}
