package coldward.model.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading.Counter;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ChoppedPulsesTest {

    private static final Edge PLAIN = new Edge(0, 0);

    private static PinSimulation.Count mean(
            double rate, double duty, Chopping chopping, Counter counter, int seeds, double seconds) {
        long real = 0;
        long wrong = 0;
        double shown = 0;
        for (int seed = 0; seed < seeds; seed++) {
            PinSimulation.Count one =
                    PinSimulation.of(rate, duty, seed).chopped(chopping).count(counter, 0, seconds);
            real += one.real();
            wrong += one.falseEdges();
            shown += one.rate() / seeds;
        }
        return new PinSimulation.Count(real, wrong, seeds * seconds, shown);
    }

    @Test
    void realAndFalseEdgesAreCountedApart() {
        Random random = new Random(31);
        for (int i = 0; i < 100; i++) {
            double rate = 50 + 700 * random.nextDouble();
            double duty = 0.2 + 0.6 * random.nextDouble();
            Chopping chopping = new Chopping(8 + 4000 * random.nextDouble(), 0.1 + 0.85 * random.nextDouble());
            PinSimulation.Count counted = mean(rate, duty, chopping, PLAIN, 8, 4);
            ChoppedPulses.Edges edges = ChoppedPulses.edges(rate, duty, chopping);
            // a run resolves one edge at each end; beats between the two rates leave a few more
            assertThat(counted.real() / counted.seconds())
                    .as("%s Hz, duty %s, %s", rate, duty, chopping)
                    .isCloseTo(edges.real(), within(1 + 0.01 * rate));
            assertThat(counted.falseEdges() / counted.seconds())
                    .as("%s Hz, duty %s, %s", rate, duty, chopping)
                    .isCloseTo(edges.falseEdges(), within(1 + 0.01 * chopping.frequency()));
            assertThat(edges.real() + edges.hidden()).isCloseTo(rate, within(1e-9));
        }
    }

    @Test
    void aSampledPinAgreesWithTheSimulation() {
        Random random = new Random(32);
        for (int i = 0; i < 200; i++) {
            double rate = 20 + 900 * random.nextDouble();
            double duty = 0.2 + 0.6 * random.nextDouble();
            double every = 3e-4 + 3e-3 * random.nextDouble();
            Chopping chopping = new Chopping(8 + 3000 * random.nextDouble(), 0.1 + 0.85 * random.nextDouble());
            double counted =
                    mean(rate, duty, chopping, new Sampled(every), 24, 6).rate();
            assertThat(ChoppedPulses.shownRate(rate, duty, new Sampled(every), chopping))
                    .as("%s Hz, duty %s, every %s s, %s", rate, duty, every, chopping)
                    .isCloseTo(counted, within(0.02 / every));
        }
    }

    @Test
    void withFullPowerItIsThePlainReading() {
        Chopping full = new Chopping(1000, 1);
        for (Counter counter : new Counter[] {new Sampled(1.3e-3), PLAIN, new Edge(0, 1e-3), new PeriodTimer(1e6)}) {
            Tachometer reading = new Tachometer(2, 0.4, counter, 1);
            ReadingResult held = Readings.of(reading, 7000, Conditions.PLAIN.withChopping(full));
            assertThat(held).isEqualTo(Readings.of(reading, 7000));
        }
        assertThat(ChoppedPulses.shownRate(300, 0.4, PLAIN, full)).isEqualTo(300);
        assertThat(ChoppedPulses.shownRate(300, 0.4, new Sampled(1e-3), full)).isCloseTo(300, within(1e-9));
    }

    @Test
    void aFilterHidesFastChoppingButNotSlow() {
        // 20 kHz: on-times of 25 us are below a filter of 0.1 ms, nothing is left; 20 Hz: real edges, and one false at
        // most
        // for every time the supply comes on
        Edge filtered = new Edge(1e-4, 0);
        assertThat(ChoppedPulses.shownRate(267, 0.5, filtered, new Chopping(20_000, 0.5)))
                .isZero();
        assertThat(ChoppedPulses.shownRate(267, 0.5, filtered, new Chopping(20, 0.5)))
                .isBetween(267 * 0.5 - 10, 267 * 0.5 + 20);
    }

    @Test
    void aStretchedReadSeesItsPeriodsWhateverThePhase() {
        ChoppedPulses.HeldOn held = ChoppedPulses.stretched(150, 2, new Chopping(30, 0.4), 1);
        assertThat(held.seconds()).isCloseTo(0.02, within(1e-12));
        assertThat(held.meanOnShare()).isCloseTo(0.4 + 0.6 * 0.02, within(1e-12));
        Random random = new Random(33);
        for (int seed = 0; seed < 200; seed++) {
            double rate = 150 + 600 * random.nextDouble();
            PinSimulation.Count seen = PinSimulation.of(rate, 0.3, seed).count(PLAIN, 0, held.seconds());
            assertThat(seen.real()).as("edges at %s Hz", rate).isGreaterThanOrEqualTo(3);
            // two whole periods are timed, and timed right
            PinSimulation.Count timed =
                    PinSimulation.of(rate, 0.3, seed).count(new PeriodTimer(1e6), 0, held.seconds());
            assertThat(timed.rate()).isCloseTo(rate, within(rate * 1e-3));
        }
    }

    @Test
    void jitterIsAveragedExactly() {
        Random random = new Random(34);
        for (int i = 0; i < 60; i++) {
            double rate = 20 + 1500 * random.nextDouble();
            double every = 5e-4 + 2e-3 * random.nextDouble();
            double duty = 0.1 + 0.8 * random.nextDouble();
            double jitter = every / 2 * random.nextDouble();
            double mean = 0;
            for (int seed = 0; seed < 12; seed++) {
                mean += PinSimulation.of(rate, duty, seed)
                                .count(new Sampled(every), jitter, 20)
                                .rate()
                        / 12;
            }
            assertThat(SampledPulses.shownRate(rate, every, duty, jitter))
                    .as("%s Hz every %s s, duty %s, jitter %s s", rate, every, duty, jitter)
                    .isCloseTo(mean, within(0.012 / every));
        }
    }

    @Test
    void withJitterHonestyEndsEarlier() {
        Tachometer reading = new Tachometer(2, 0.5, new Sampled(1e-3), 1);
        Conditions late = Conditions.PLAIN.withJitter(1.25e-4);
        assertThat(Readings.of(reading, 12_000, late).honest()).isTrue();
        ReadingResult above = Readings.of(reading, 12_300, late);
        assertThat(above.honest()).isFalse();
        assertThat(above.highestHonestRpm().orElseThrow()).isCloseTo(12_000, within(1e-9));
        assertThat(above.shownRpm()).isLessThan(12_300);
        assertThat(Readings.scatter(new Tachometer(2, 0.5, new PeriodTimer(1e6), 1), 6000, 1e-5))
                .isCloseTo(6000 * 200 * 2e-5, within(1e-9));
    }

    @Test
    void aPeriodTimerIsRightOnAverageWhateverTheDuty() {
        for (double duty : new double[] {0.1, 0.5, 0.8}) {
            assertThat(PinSimulation.of(267, duty, 3)
                            .count(new PeriodTimer(1e5), 1e-4, 10)
                            .rate())
                    .isCloseTo(267, within(0.05));
        }
    }

    @Test
    void edgesAgreeWithTheClosedFormOfLimits() {
        Random random = new Random(35);
        for (int i = 0; i < 200; i++) {
            double rate = 10 + 1500 * random.nextDouble();
            double duty = 0.1 + 0.8 * random.nextDouble();
            Edge counter = new Edge(1e-3 * random.nextDouble(), 3e-3 * random.nextDouble());
            assertThat(PinSimulation.of(rate, duty, i).count(counter, 0, 20).rate())
                    .as("%s Hz, duty %s, %s", rate, duty, counter)
                    .isCloseTo(EdgePulses.shownRate(rate, duty, counter), within(0.15));
        }
    }
}
