package coldward.model.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.quantity.InputError;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SampledPulsesTest {

    /** Looks at the pin one by one and counts, averaged over evenly spread phases; knows nothing of the closed form. */
    static double bruteForce(double rate, double every, double duty, int phases, int looks) {
        long counted = 0;
        for (int p = 0; p < phases; p++) {
            boolean last = true;
            for (int i = 0; i <= looks; i++) {
                double turned = (p + 0.5) / phases + rate * every * i;
                boolean now = turned - Math.floor(turned) < duty;
                if (now && !last) {
                    counted++;
                }
                last = now;
            }
        }
        return counted / (looks * every * phases);
    }

    @Test
    void agreesWithLookingAtThePinOneByOne() {
        Random random = new Random(20251);
        int phases = 64;
        int looks = 600;
        int dishonest = 0;
        for (int i = 0; i < 1000; i++) {
            double rate = 1 + 2000 * random.nextDouble();
            double every = 1e-4 + 5e-3 * random.nextDouble();
            double duty = 0.05 + 0.9 * random.nextDouble();
            double shown = SampledPulses.shownRate(rate, every, duty);
            double counted = bruteForce(rate, every, duty, phases, looks);
            // each phase is off by at most one look's pulse; phases themselves resolve 1/phases of a period
            double resolution = (1.0 / looks + 2.0 / phases / Math.sqrt(looks) + 1.0 / phases / 2) / every;
            assertThat(shown)
                    .as("rate %s Hz, every %s s, duty %s", rate, every, duty)
                    .isCloseTo(counted, within(resolution));
            dishonest += shown < rate ? 1 : 0;
        }
        // the set must reach well into folding or the comparison says little
        assertThat(dishonest).isBetween(600, 990);
    }

    @Test
    void agreesAtSmallRatiosOnceThePhaseIsAveraged() {
        for (int q = 1; q <= 8; q++) {
            for (int p = 1; p <= 3 * q; p++) {
                double every = 1e-3;
                double rate = p / (q * every);
                double duty = 0.37;
                int phases = 10_000;
                assertThat(SampledPulses.shownRate(rate, every, duty))
                        .as("f T = %d/%d", p, q)
                        .isCloseTo(bruteForce(rate, every, duty, phases, 4 * q), within(3.0 / (phases * every)));
            }
        }
    }

    @Test
    void isHonestExactlyUpToItsLimit() {
        double limit = SampledPulses.highestHonestRate(2e-3, 0.3);
        assertThat(limit).isCloseTo(150, within(1e-9));
        assertThat(SampledPulses.shownRate(limit * (1 - 1e-12), 2e-3, 0.3)).isEqualTo(limit * (1 - 1e-12));
        assertThat(SampledPulses.shownRate(limit * 1.5, 2e-3, 0.3)).isCloseTo(150, within(1e-9));
        assertThat(SampledPulses.shownRate(450, 2e-3, 0.3)).isCloseTo(50, within(1e-9));
        assertThat(SampledPulses.shownRate(500, 2e-3, 0.3)).isCloseTo(0, within(1e-9));
        assertThat(SampledPulses.longestHonestInterval(150, 0.3)).isCloseTo(2e-3, within(1e-15));
    }

    @Test
    void neverShowsMoreThanThereIs() {
        Random random = new Random(7);
        for (int i = 0; i < 10_000; i++) {
            double rate = 5000 * random.nextDouble();
            double every = 1e-5 + 1e-2 * random.nextDouble();
            double duty = 0.01 + 0.98 * random.nextDouble();
            double shown = SampledPulses.shownRate(rate, every, duty);
            assertThat(shown).isBetween(0.0, rate);
            assertThat(shown).isCloseTo(SampledPulses.shownRate(rate, every, 1 - duty), within(1e-6));
        }
    }

    @Test
    void jitterSpreadsTheTurnBetweenTwoLooks() {
        // rates off small ratios, where one run keeps its phase and shows no average; exact mean: a turn of f (T + u2 -
        // u1), u2 - u1 triangular on -2j..2j, integrated by the midpoint rule
        double duty = 0.4;
        double every = 1e-3;
        for (double[] one : new double[][] {{307, 2e-4}, {389, 2e-4}, {713, 4e-4}, {1013, 3e-4}, {1517, 5e-4}}) {
            double rate = one[0];
            double jitter = one[1];
            int cells = 4000;
            double mean = 0;
            for (int i = 0; i < cells; i++) {
                double u = -1 + 2 * (i + 0.5) / cells;
                double turned = rate * (every + 2 * jitter * u);
                double part = turned - Math.floor(turned);
                double share = Math.min(Math.min(part, 1 - part), Math.min(duty, 1 - duty));
                mean += share * (1 - Math.abs(u)) * 2 / cells;
            }
            double simulated = 0;
            for (int seed = 0; seed < 40; seed++) {
                simulated += SampledPulses.simulatedRate(rate, every, duty, jitter, 20_000, seed) / 40;
            }
            assertThat(simulated).as("rate %s Hz, jitter %s s", rate, jitter).isCloseTo(mean / every, within(2.5));
        }
        assertThat(SampledPulses.simulatedRate(300, 1e-3, 0.4, 1e-4, 5000, 3))
                .isEqualTo(SampledPulses.simulatedRate(300, 1e-3, 0.4, 1e-4, 5000, 3));
    }

    @Test
    void refusesWhatIsNoMeasurement() {
        assertThatThrownBy(() -> SampledPulses.shownRate(-1, 1e-3, 0.5))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("pulse rate is -1 Hz");
        assertThatThrownBy(() -> SampledPulses.shownRate(1, 0, 0.5)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> SampledPulses.shownRate(1, 1e-3, Double.NaN)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> SampledPulses.simulatedRate(1, 1e-3, 0.5, 6e-4, 100, 1))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("jitter");
    }
}
