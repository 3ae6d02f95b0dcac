package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.build.HotEnd;
import coldward.quantity.InputError;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SinkFitTest {

    private static final double[] MINUTES = {60, 120, 180, 240, 300, 360, 420, 480};

    /** Readings of a sink whose conductances are known, from the live model, with a thermometer's noise. */
    private static SinkFit.Readings readings(HotEnd truth, double noise, long seed) {
        Random random = new Random(seed);
        LiveHotEnd live = LiveHotEnd.settled(truth, Regime.HOT_IDLE);
        double hot = live.sinkKelvin() + noise * random.nextGaussian();
        double[] kelvin = new double[MINUTES.length];
        FanFailure stop = new FanFailure.Stop(truth.fan().coastDown());
        double t = 0;
        for (int i = 0; i < MINUTES.length; i++) {
            while (t < MINUTES[i] - 1e-9) {
                live.advance(0.25, new LiveHotEnd.Drive(stop.speed(t + 0.125), 0, 0, false));
                t += 0.25;
            }
            kelvin[i] = live.sinkKelvin() + noise * random.nextGaussian();
        }
        return new SinkFit.Readings(hot, MINUTES, kelvin);
    }

    private static HotEnd known(double on, double still) {
        HotEnd base = SheetExample.titanium();
        return base.withSink(base.sink().withMeasured(new coldward.model.build.Sink.Measured(on, still)));
    }

    @Test
    void findsTheConductancesThatMadeTheReadings() {
        SinkFit.Fit fit = SinkFit.fit(SheetExample.titanium(), readings(known(0.30, 0.045), 0, 1));
        assertThat(fit.on()).isCloseTo(0.30, org.assertj.core.data.Offset.offset(0.006));
        assertThat(fit.still()).isCloseTo(0.045, org.assertj.core.data.Offset.offset(0.001));
        assertThat(fit.residual()).isLessThan(0.1);
    }

    @Test
    void theIntervalHoldsTheTruthAboutAsOftenAsItSays() {
        int inside = 0;
        int trials = 40;
        for (int i = 0; i < trials; i++) {
            SinkFit.Fit fit =
                    SinkFit.fit(SheetExample.titanium(), readings(known(0.30, 0.045), SinkFit.THERMOMETER, 100 + i));
            if (fit.stillLow() <= 0.045 && 0.045 <= fit.stillHigh()) {
                inside++;
            }
        }
        // binomial(40, 0.95): fewer than 34 happens once in 500
        assertThat(inside).isGreaterThanOrEqualTo(34);
    }

    @Test
    void saysWhatIsWrongWithReadingsThatCannotBe() {
        assertThatThrownBy(() -> SinkFit.fit(
                        SheetExample.titanium(),
                        new SinkFit.Readings(308, new double[] {60, 120, 180}, new double[] {307, 306, 305})))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("was the fan unplugged?");
        assertThatThrownBy(() -> SinkFit.fit(
                        SheetExample.titanium(),
                        new SinkFit.Readings(309, new double[] {60, 120, 180, 240}, new double[] {325, 345, 360, 370})))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("even if it lost nothing")
                .hasMessageContaining("check the neck");
        assertThatThrownBy(() -> new SinkFit.Readings(308, new double[] {60}, new double[] {310}))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("at least 3");
    }
}
