package coldward.model.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ReadingsTest {

    @Test
    void aSampledReadingBelowItsLimit() {
        ReadingResult result = Readings.of(new Tachometer(2, 0.5, new Sampled(1e-3), 1), 8000);
        assertThat(result.honest()).isTrue();
        assertThat(result.shownRpm()).isEqualTo(8000);
        assertThat(result.highestHonestRpm().orElseThrow()).isCloseTo(15_000, within(1e-9));
        assertThat(result.longestHonestInterval().orElseThrow()).isCloseTo(1.875e-3, within(1e-12));
        assertThat(result.resolutionRpm()).isEqualTo(30);
    }

    @Test
    void aSampledReadingAboveItsLimit() {
        ReadingResult result = Readings.of(new Tachometer(2, 0.3, new Sampled(2e-3), 0.5), 8000);
        assertThat(result.honest()).isFalse();
        assertThat(result.highestHonestRpm().orElseThrow()).isCloseTo(4500, within(1e-9));
        assertThat(result.shownRpm()).isCloseTo(4500, within(1e-9));
        assertThat(result.resolutionRpm()).isEqualTo(60);
    }

    @Test
    void aStandingFanIsShownAsStandingByEveryCounter() {
        for (var counter : new coldward.model.build.Reading.Counter[] {
            new Sampled(1e-3), new Edge(1e-3, 1e-3), new PeriodTimer(1e6)
        }) {
            ReadingResult result = Readings.of(new Tachometer(2, 0.5, counter, 1), 0);
            assertThat(result.shownRpm()).isZero();
            assertThat(result.honest()).isTrue();
            assertThat(result.longestHonestInterval()).isEmpty();
        }
    }

    @Test
    void edgesWithoutLimitAreAlwaysHonest() {
        ReadingResult result = Readings.of(new Tachometer(3, 0.1, new Edge(0, 0), 2), 30_000);
        assertThat(result.honest()).isTrue();
        assertThat(result.highestHonestRpm()).isEmpty();
        assertThat(result.longestHonestInterval()).isEmpty();
        assertThat(result.resolutionRpm()).isEqualTo(10);
    }

    @Test
    void aFilterHidesShortLevels() {
        // 2 pulses, duty 0.4, 1 ms filter: the low-speed side is honest up to 400 Hz = 12,000 rpm
        Tachometer reading = new Tachometer(2, 0.4, new Edge(1e-3, 0), 1);
        assertThat(Readings.of(reading, 12_000).shownRpm()).isEqualTo(12_000);
        assertThat(Readings.of(reading, 12_030).shownRpm()).isZero();
        assertThat(Readings.of(reading, 12_030).highestHonestRpm().orElseThrow())
                .isCloseTo(12_000, within(1e-9));
    }

    @Test
    void aLockOutDividesTheCount() {
        // against edges played one by one into an input that ignores those within the lock-out
        Random random = new Random(5);
        for (int i = 0; i < 500; i++) {
            double rate = 10 + 3000 * random.nextDouble();
            double lockOut = 5e-3 * random.nextDouble();
            double free = 0;
            int counted = 0;
            int edges = 20_000;
            for (int k = 0; k < edges; k++) {
                double at = k / rate;
                if (at >= free) {
                    counted++;
                    free = at + lockOut;
                }
            }
            assertThat(EdgePulses.shownRate(rate, 0.5, new Edge(0, lockOut)))
                    .as("rate %s Hz, lock-out %s s", rate, lockOut)
                    .isCloseTo(counted * rate / edges, within(rate / 1000));
        }
        ReadingResult result = Readings.of(new Tachometer(2, 0.5, new Edge(0, 4e-3), 1), 8000);
        assertThat(result.honest()).isFalse();
        assertThat(result.highestHonestRpm().orElseThrow()).isCloseTo(7500, within(1e-9));
        assertThat(result.shownRpm()).isCloseTo(4000, within(1e-9));
    }

    @Test
    void aPeriodTimerResolvesByItsClock() {
        // 6000 rpm, 2 pulses: 200 Hz, 5,000 ticks of 1 MHz; one tick more is 6000 - 6000/5001 rpm
        ReadingResult result = Readings.of(new Tachometer(2, 0.5, new PeriodTimer(1e6), 1), 6000);
        assertThat(result.resolutionRpm()).isCloseTo(6000 - 6000 * 5000 / 5001.0, within(1e-3));
        assertThat(result.honest()).isTrue();
        assertThat(result.longestHonestInterval()).isEmpty();
        assertThat(Readings.of(new Tachometer(2, 0.5, new PeriodTimer(100), 1), 6000)
                        .shownRpm())
                .isEqualTo(3000);
    }

    @Test
    void theCurveKeepsItsCorners() {
        Tachometer reading = new Tachometer(2, 0.3, new Sampled(2e-3), 1);
        ShownCurve curve = Readings.curve(reading, 20_000, 11);
        double[] speeds = curve.trueRpm();
        double[] shown = curve.shownRpm();
        assertThat(speeds).isSorted().contains(new double[] {4500, 10_500, 15_000}, within(1e-9));
        assertThat(speeds[speeds.length - 1]).isEqualTo(20_000);
        for (int i = 0; i < speeds.length; i++) {
            assertThat(shown[i]).isEqualTo(Readings.of(reading, speeds[i]).shownRpm());
        }
        assertThat(shown).hasSameSizeAs(speeds);
    }
}
