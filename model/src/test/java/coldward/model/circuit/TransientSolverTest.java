package coldward.model.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.circuit.Element.Capacitor;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.VoltageSource;
import coldward.model.circuit.TransientResult.Followed;
import coldward.model.circuit.TransientResult.Stopped;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A resistor charging a capacitor, whose course is known: {@code v = V (1 - exp(-t/(RC)))}. */
class TransientSolverTest {

    private static final double VOLTS = 5;
    private static final double TAU = 1e-3;

    private static Netlist charging() {
        return new Netlist(
                25,
                List.of(
                        new VoltageSource("source", "in", Netlist.GROUND, new Drive(0, VOLTS, 0)),
                        new Resistor("R", "in", "out", 10e3),
                        new Capacitor("C", "out", Netlist.GROUND, TAU / 10e3)));
    }

    private static Followed follow(TransientSettings settings) {
        TransientResult result = TransientSolver.follow(charging(), settings);
        assertThat(result).isInstanceOf(Followed.class);
        return (Followed) result;
    }

    @Test
    void errorFallsWithTheSquareOfTheStep() {
        double exact = VOLTS * -Math.expm1(-2);
        double last = 0;
        for (int n : new int[] {20, 40, 80, 160}) {
            Followed followed = follow(TransientSettings.until(2 * TAU).withFixedStep(2 * TAU / n));
            double error = Math.abs(followed.trace().voltage("out", 2 * TAU) - exact);
            if (last > 0) {
                double order = Math.log(last / error) / Math.log(2);
                assertThat(order).as("%d steps", n).isBetween(1.9, 2.1);
            }
            last = error;
        }
    }

    @Test
    void controlledStepsMeetTheExactCourse() {
        Followed followed = follow(TransientSettings.until(10 * TAU));
        for (double t = 0; t < 10 * TAU; t += TAU / 7) {
            assertThat(followed.trace().voltage("out", t)).isCloseTo(VOLTS * -Math.expm1(-t / TAU), within(5e-3));
        }
        double half = followed.trace().crossing("out", VOLTS / 2, 0).orElseThrow();
        assertThat(half).isCloseTo(TAU * Math.log(2), within(1e-3 * TAU));
        assertThat(followed.trace().crossing("out", VOLTS * 1.01, 0)).isEmpty();
        assertThat(followed.residual()).isLessThan(1e-9);
        assertThat(followed.steps()).isLessThan(300);
    }

    @Test
    void aBoundOnStepsIsAnAnswer() {
        TransientResult result = TransientSolver.follow(charging(), new TransientSettings(10 * TAU, 1e-4, 1e-5, 0, 5));
        assertThat(result).isInstanceOf(Stopped.class);
        assertThat(((Stopped) result).why()).contains("bound of 5 steps");
        assertThat(((Stopped) result).at()).isBetween(0.0, 10 * TAU);
    }
}
