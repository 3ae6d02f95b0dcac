package coldward.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Fan;
import coldward.model.heat.FanFailure;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SimulatedFanTest {

    private static final Fan FAN = Examples.hotEnd().fan();

    private static SimulatedFan calm() {
        return new SimulatedFan(FAN, Traits.USUAL.calm(), 1, true);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.01, 0.05, 0.25, 1.7})
    void coastsAsTheModelSaysInAnyStep(double step) {
        SimulatedFan fan = calm();
        fan.fail(new Failure.Stop());
        FanFailure.Stop model = new FanFailure.Stop(FAN.coastDown());
        double turned = 0;
        int steps = (int) Math.round(17 / step);
        for (int i = 1; i <= steps; i++) {
            turned += fan.advance(step, true) * step;
            assertThat(fan.speed() / FAN.ratedSpeed()).isCloseTo(model.speed(i * step), within(1e-9));
        }
        // the integral of 1/(1 + t/tau)
        assertThat(turned).isCloseTo(FAN.coastDown() * Math.log(1 + steps * step / FAN.coastDown()), within(1e-9));
    }

    @Test
    void ablockedRotorStandsAtOnce() {
        Fan blocked = new Fan(24, 8000, 0.1, FAN.curve(), 28e-3, 16e-3, 0.6, 0, FAN.runsAbove());
        SimulatedFan fan = new SimulatedFan(blocked, Traits.USUAL, 1, true);
        fan.fail(new Failure.Stop());
        assertThat(fan.advance(0.001, true)).isZero();
        assertThat(fan.speed()).isZero();
    }

    @Test
    void slowAndFadeFollowTheirOwnLaw() {
        SimulatedFan slow = calm();
        slow.fail(new Failure.Slow(0.4));
        slow.advance(0.05, true);
        assertThat(slow.speed()).isCloseTo(3200, within(1e-6));

        SimulatedFan fade = calm();
        fade.fail(new Failure.Fade(120));
        FanFailure.Fade model = new FanFailure.Fade(120);
        for (int i = 1; i <= 150; i++) {
            double mean = fade.advance(1, true);
            assertThat(fade.speed() / 8000).isCloseTo(model.speed(i), within(1e-9));
            assertThat(mean).isCloseTo((model.speed(i) + model.speed(i - 1)) / 2, within(1e-9));
        }
    }

    @Test
    void spinsUpAndMends() {
        SimulatedFan fan = new SimulatedFan(FAN, Traits.USUAL.calm(), 1, false);
        assertThat(fan.speed()).isZero();
        fan.advance(Traits.USUAL.spinUp(), true);
        assertThat(fan.speed()).isCloseTo(8000 * (1 - Math.exp(-1)), within(1e-6));
        fan.advance(10, true);
        fan.fail(new Failure.Stop());
        fan.advance(60, true);
        assertThat(fan.speed()).isLessThan(120);
        fan.mend();
        fan.advance(10, true);
        assertThat(fan.speed()).isCloseTo(8000, within(1.0));
    }

    @Test
    void tremblesWithTheDeviationAndCorrelationAsked() {
        Traits traits = new Traits(0.6, 0.01, 0.6, 0, 0, 0);
        SimulatedFan fan = new SimulatedFan(FAN, traits, 42, true);
        int reports = 40_000;
        double[] seen = new double[reports];
        for (int i = 0; i < reports; i++) {
            fan.tremble(i);
            seen[i] = fan.advance(1, true) - 1;
        }
        double variance = 0;
        double together = 0;
        double mean = 0;
        for (int i = 0; i < reports; i++) {
            mean += seen[i] / reports;
            variance += seen[i] * seen[i] / reports;
            together += i == 0 ? 0 : seen[i] * seen[i - 1] / (reports - 1);
        }
        // AR(1): standard error of the deviation sigma sqrt((1+r^2)/(1-r^2)/(2n)) = 0.5 %, of the correlation 0.4 %
        assertThat(mean).isCloseTo(0, within(0.0005));
        assertThat(Math.sqrt(variance)).isCloseTo(0.01, within(0.0003));
        assertThat(together / variance).isCloseTo(0.6, within(0.02));
    }

    @Test
    void wearsAndTremblesMoreWithTheHours() {
        Traits fast = new Traits(0.6, 0.001, 0, 0.01, 1, 0);
        SimulatedFan fan = new SimulatedFan(FAN, fast, 5, true);
        double young = deviation(fan, 0);
        for (int i = 0; i < 10 * 36; i++) {
            fan.advance(100, true);
        }
        assertThat(fan.advance(1, true)).isCloseTo(1 - 0.01 * 9.5, within(0.06));
        assertThat(fan.state().hoursTurned()).isBetween(9.0, 10.1);
        double old = deviation(fan, 10_000);
        assertThat(old / young).isBetween(8.0, 13.0);
    }

    private static double deviation(SimulatedFan fan, long from) {
        double sum = 0;
        double before = fan.state().share();
        for (int i = 0; i < 2000; i++) {
            fan.tremble(from + i);
            double off = fan.speed() / FAN.ratedSpeed() / before - 1;
            sum += off * off / 2000;
        }
        return Math.sqrt(sum);
    }

    @Test
    void doesNotWearWhileItStands() {
        SimulatedFan fan = new SimulatedFan(FAN, Traits.USUAL, 5, false);
        fan.advance(3600, false);
        assertThat(fan.state().hoursTurned()).isZero();
    }
}
