package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.RandomBuilds;
import coldward.model.build.HotEnd;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What has come over the border is what there is more inside, to 1e-6 of the heat that went through the neck: over the
 * cells with the block held, over cells and block with it floating.
 */
class EnergyBalanceTest {

    private static final int BUILDS = 60;
    private static final int STEPS = 150;

    @ParameterizedTest
    @CsvSource({
        "false, false, false",
        "false, true, false",
        "true, false, false",
        "true, false, true",
        "true, true, false",
        "true, true, true"
    })
    void closes(boolean floating, boolean feeding, boolean blown) {
        for (int number = 0; number < BUILDS; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            RandomGenerator random = new SplittableRandom(number);
            HeatSystem system = new HeatSystem(new Network(hotEnd, Factors.NONE, 1));
            system.feed(feeding ? hotEnd.feed() : 0);
            Stepper stepper = new Stepper(system);
            double[] y = Stepper.steady(system, random.nextDouble());
            double[] next = y.clone();
            double before = stepper.heatContent(y, floating);
            double border = 0;
            double gross = 0;
            for (int i = 0; i < STEPS; i++) {
                double dt = Math.pow(10, -2 + 3 * random.nextDouble());
                double power = random.nextInt(3) == 0 ? 20 * random.nextDouble() : 0;
                stepper.step(y, next, dt, random.nextDouble(), random.nextDouble(), power, floating, blown);
                border += stepper.borderHeat();
                gross += stepper.grossHeat();
                double[] swap = y;
                y = next;
                next = swap;
            }
            double inside = stepper.heatContent(y, floating) - before;
            assertThat(gross).isGreaterThan(1);
            assertThat(inside).as("build %s", number).isCloseTo(border, within(1e-6 * gross));
            if (floating) {
                assertThat(Math.abs(inside))
                        .as("build %s: nothing happened", number)
                        .isGreaterThan(1);
            }
        }
    }

    /** A steady state is one: no part gains or loses, and what the block gives is what the air takes. */
    @ParameterizedTest
    @CsvSource({"false", "true"})
    void restsInTheSteadyState(boolean feeding) {
        for (int number = 0; number < 200; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            HeatSystem system = new HeatSystem(new Network(hotEnd, Factors.NONE, 1));
            system.feed(feeding ? hotEnd.feed() : 0);
            double[] y = Stepper.steady(system, 1);
            double power = system.blockDemand(y, false);
            double[] out = new double[y.length];
            system.flows(y, 1, power, false, out);
            assertThat(TimeStepTest.largestDifference(out, new double[out.length]))
                    .as("build %s, W", number)
                    .isLessThan(1e-7);
            assertThat(system.border(y, 1, power, true, false))
                    .as("build %s, W", number)
                    .isCloseTo(0, within(1e-7));
        }
    }
}
