package coldward.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading;
import coldward.model.build.Reading.Tachometer;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CountingTest {

    private static Tachometer sampled(double every, double duty) {
        return new Tachometer(2, duty, new Reading.Sampled(every), 1);
    }

    private static double shown(Tachometer tachometer, double speed) {
        Counting counting = new Counting(tachometer);
        for (int i = 0; i < 20; i++) {
            counting.turn(tachometer.reportInterval() / 20, speed);
        }
        return counting.report();
    }

    @Test
    void theClosedFormIsWhatSamplingAPinGives() {
        // against a pin that is really looked at, over many phases
        Random random = new Random(11);
        for (int round = 0; round < 60; round++) {
            double every = 0.0004 + 0.003 * random.nextDouble();
            double duty = 0.2 + 0.6 * random.nextDouble();
            double frequency = 20 + 900 * random.nextDouble();
            double seen = 0;
            int phases = 40;
            int looks = 4000;
            for (int i = 0; i < phases; i++) {
                seen += looked(frequency, every, duty, random.nextDouble(), looks) / (looks * every) / phases;
            }
            double closed = Counting.seenRate(sampled(every, duty), frequency);
            assertThat(closed)
                    .as("f %.1f Hz, T %.3f ms, d %.2f", frequency, every * 1e3, duty)
                    .isCloseTo(seen, within(0.01 / every / 10));
        }
    }

    private static int looked(double frequency, double every, double duty, double phase, int looks) {
        int pulses = 0;
        boolean wasHigh = true;
        for (int k = 0; k < looks; k++) {
            double turns = phase + k * every * frequency;
            boolean high = turns - Math.floor(turns) < duty;
            if (high && !wasHigh) {
                pulses++;
            }
            wasHigh = high;
        }
        return pulses;
    }

    @Test
    void afastFanSampledTooSlowlyShowsAThird() {
        // common practice, no source: 15,000 rpm at two pulses a turn shown as 5,000, right once sampled faster
        assertThat(shown(sampled(0.0015, 0.5), 15_000)).isCloseTo(5_000, within(30.0));
        assertThat(shown(sampled(0.0008, 0.5), 15_000)).isCloseTo(15_000, within(30.0));
    }

    @Test
    void anedgeCounterResolvesWholePulses() {
        Tachometer edge = new Tachometer(2, 0.5, new Reading.Edge(0, 0), 0.5);
        // 60/(p W) = 60 rpm a pulse
        assertThat(shown(edge, 8_000)).isCloseTo(7_980, within(1e-6));
        assertThat(shown(edge, 7_980)).isCloseTo(7_980, within(1e-6));
        Counting counting = new Counting(edge);
        double sum = 0;
        for (int i = 0; i < 300; i++) {
            counting.turn(0.5, 8_000);
            sum += counting.report();
        }
        // what is left of a pulse is not lost: over many reports the mean is the true speed
        assertThat(sum / 300).isCloseTo(8_000, within(0.3));
    }

    @Test
    void anedgeCounterIsBlindAboveItsShortestLevel() {
        Tachometer edge = new Tachometer(2, 0.3, new Reading.Edge(0.001, 0), 1);
        // shorter level 0.3/f is 1 ms at 300 Hz, 9,000 rpm
        assertThat(shown(edge, 8_970)).isCloseTo(8_970, within(30.0));
        assertThat(shown(edge, 9_030)).isZero();
    }

    @Test
    void alockOutSkipsEdges() {
        Tachometer edge = new Tachometer(2, 0.5, new Reading.Edge(0, 0.004), 1);
        assertThat(shown(edge, 7_500)).as("period 4 ms, just seen").isCloseTo(7_500, within(30.0));
        assertThat(shown(edge, 7_800)).as("every second edge").isCloseTo(3_900, within(30.0));
    }

    @Test
    void aperiodTimerResolvesItsClock() {
        Tachometer timer = new Tachometer(2, 0.5, new Reading.PeriodTimer(10_000), 1);
        // 8,000 rpm is 266.7 Hz, 37.5 ticks, the sum of the shares a hair above: 37 of them
        assertThat(shown(timer, 8_000)).isCloseTo(60 * 10_000 / 37.0 / 2, within(1e-6));
        assertThat(shown(timer, 0)).isZero();
    }

    @Test
    void astandingFanShowsNothingWhateverTheCounter() {
        assertThat(shown(sampled(0.001, 0.5), 0)).isZero();
        assertThat(shown(new Tachometer(2, 0.5, new Reading.Edge(0.001, 0.001), 1), 0))
                .isZero();
    }
}
