package coldward.model.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.reading.ShowingInterval.AnyUpTo;
import coldward.model.reading.ShowingInterval.Exactly;
import coldward.model.reading.ShowingInterval.Why;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SamplingTest {

    @Test
    void everyListedIntervalShowsIt() {
        Random random = new Random(99);
        int listed = 0;
        for (int i = 0; i < 3000; i++) {
            int pulses = 1 + random.nextInt(6);
            double duty = 0.05 + 0.9 * random.nextDouble();
            double trueRpm = 500 + 20_000 * random.nextDouble();
            double shownRpm = i % 10 == 0 ? trueRpm : trueRpm * random.nextDouble();
            double tolerance = i % 3 == 0 ? 0.02 : 0;
            for (ShowingInterval one : Sampling.intervalsThatShow(trueRpm, shownRpm, pulses, duty, tolerance)) {
                double shown =
                        SampledPulses.shownRate(trueRpm * pulses / 60, one.seconds() * (1 - 1e-13), duty) * 60 / pulses;
                assertThat(shown)
                        .as("%s of %s rpm, pulses %d, duty %s", one, trueRpm, pulses, duty)
                        .isCloseTo(shownRpm, within(shownRpm * (tolerance + 1e-6)));
                listed++;
            }
        }
        assertThat(listed).isGreaterThan(5000);
    }

    @Test
    void noIntervalIsLeftOut() {
        // a fine scan: wherever the shown speed passes through the asked one, an interval must be listed nearby
        Random random = new Random(4);
        int crossings = 0;
        for (int i = 0; i < 60; i++) {
            double duty = 0.1 + 0.8 * random.nextDouble();
            double f = 100 + 600 * random.nextDouble();
            double g = f * (0.02 + 0.9 * random.nextDouble());
            List<ShowingInterval> found = Sampling.intervalsThatShow(f * 30, g * 30, 2, duty, 0);
            assertThat(found).isSortedAccordingTo((a, b) -> Double.compare(a.seconds(), b.seconds()));
            double step = 1e-6;
            for (double every = 1e-4; every < 0.1; every += step) {
                double here = SampledPulses.shownRate(f, every, duty) - g;
                double next = SampledPulses.shownRate(f, every + step, duty) - g;
                if (here * next < 0) {
                    double at = every;
                    assertThat(found)
                            .as("f %s g %s duty %s T %s", f, g, duty, every)
                            .anyMatch(one -> Math.abs(one.seconds() - at) <= 2 * step);
                    crossings++;
                }
            }
        }
        assertThat(crossings).isGreaterThan(100);
    }

    @Test
    void anHonestReadingHasEveryShortInterval() {
        assertThat(Sampling.intervalsThatShow(6000, 6000, 2, 0.4, 0))
                .singleElement()
                .satisfies(one -> {
                    assertThat(one).isInstanceOf(AnyUpTo.class);
                    assertThat(one.seconds()).isCloseTo(2e-3, within(1e-12));
                    assertThat(one.why().words()).startsWith("honest");
                });
    }

    @Test
    void theFlatTopIsListedOnlyWhereItIs() {
        // f = 200 Hz, duty 0.3: flat from 1.5 ms to 3.5 ms; 120 Hz is min(d, 1-d)/2.5 ms
        List<ShowingInterval> found = Sampling.intervalsThatShow(6000, 3600, 2, 0.3, 0);
        assertThat(found).hasSize(1);
        assertThat(found.getFirst().why()).isEqualTo(new Why.FlatTop());
        assertThat(found.getFirst().seconds()).isCloseTo(2.5e-3, within(1e-12));
        // 50 Hz: m/g = 6 ms lies beyond the first flat top and before the second (6.5 ms); folding only
        assertThat(Sampling.intervalsThatShow(6000, 1500, 2, 0.3, 0))
                .extracting(ShowingInterval::why)
                .containsExactly(new Why.FoldedDown(1));
    }

    @Test
    void nothingShowsMoreThanThereIs() {
        assertThat(Sampling.intervalsThatShow(3000, 6000, 2, 0.5, 0.01)).isEmpty();
    }

    @Test
    void aTurningFanShownAsStandingHasWholePeriods() {
        List<ShowingInterval> found = Sampling.intervalsThatShow(1500, 0, 2, 0.5, 0);
        assertThat(found).hasSize(50);
        assertThat(found.getFirst().seconds()).isCloseTo(0.02, within(1e-12));
        assertThat(found.getLast().seconds()).isCloseTo(1, within(1e-9));
    }

    @Test
    void aTopMissedWithinTheToleranceIsListed() {
        assertThat(Sampling.intervalsThatShow(15_000, 5010, 2, 0.5, 0)).hasSize(1);
        List<ShowingInterval> found = Sampling.intervalsThatShow(15_000, 5010, 2, 0.5, 0.01);
        assertThat(found).hasSize(2);
        assertThat(found.getLast().seconds()).isCloseTo(3e-3, within(1e-12));
    }

    /** Common practice, no source: a slow look at a fast fan's pin shows about a third of its speed. */
    @Test
    void aFastFanLookedAtTooSlowlyShowsAThird() {
        List<ShowingInterval> found = Sampling.intervalsThatShow(15_000, 5000, 2, 0.5, 0.01);
        assertThat(found).extracting(ShowingInterval::seconds).satisfies(all -> {
            assertThat(all).hasSize(2);
            assertThat(all.get(0)).isCloseTo(1.5e-3, within(1e-12));
            assertThat(all.get(1)).isCloseTo(3e-3, within(1e-12));
        });
        assertThat(found).allMatch(Exactly.class::isInstance);
        assertThat(SampledPulses.shownRate(500, 0.9e-3, 0.5) * 30).isEqualTo(15_000);
    }
}
