package coldward.model.heat;

import static coldward.model.build.Action.HEATER_OFF;
import static coldward.model.build.Action.HOLD;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.RandomBuilds;
import coldward.model.build.HotEnd;
import coldward.quantity.InputError;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The hot end that goes on in time, against the race and against itself. */
class LiveHotEndTest {

    private static final double STEP = 0.25;

    @Test
    void settledStaysSettled() {
        int settled = 0;
        for (int number = 0; number < 200; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            Regime regime = number % 2 == 0 ? Regime.PRINTING : Regime.HOT_IDLE;
            LiveHotEnd live = LiveHotEnd.settled(hotEnd, regime);
            if (live.heaterPower() > hotEnd.hotSide().heaterPower()) {
                continue;
            }
            settled++;
            double[] before = live.state();
            double feed = regime == Regime.PRINTING ? hotEnd.feed() : 0;
            double power = live.heaterPower();
            live.advance(30, new LiveHotEnd.Drive(1, hotEnd.nozzle(), feed, false));
            assertThat(TimeStepTest.largestDifference(live.state(), before))
                    .as("build %s", number)
                    .isLessThan(1e-6);
            assertThat(live.heaterPower()).as("build %s", number).isCloseTo(power, within(1e-6));
        }
        assertThat(settled).isGreaterThan(150);
    }

    /** Driven through a fan failure and [hold, heater-off] it softens as deep as the race says. */
    @Test
    void reproducesTheRace() {
        int softened = 0;
        for (int number = 0; softened < 30; number++) {
            assertThat(number).isLessThan(200);
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            Regime regime = number % 2 == 0 ? Regime.PRINTING : Regime.HOT_IDLE;
            Race race = new Race(hotEnd);
            LiveHotEnd live = LiveHotEnd.settled(hotEnd, regime);
            double stopAt = 10 + number % 30;
            if (race.softWhileHealthy(regime)
                    || live.heaterPower() > hotEnd.hotSide().heaterPower()) {
                continue;
            }
            double expected = race.deepest(regime, Set.of(HOLD, HEATER_OFF), stopAt);
            if (expected < 0.1e-3) {
                continue;
            }
            softened++;
            FanFailure stop = new FanFailure.Stop(hotEnd.fan().coastDown());
            double feed = regime == Regime.PRINTING ? hotEnd.feed() : 0;
            double deepest = live.softenedDepth();
            for (double t = 0; t < stopAt + 600; t += STEP) {
                boolean stopped = t > stopAt - STEP / 2;
                live.advance(
                        STEP,
                        new LiveHotEnd.Drive(
                                stop.speed(t + STEP / 2), stopped ? 0 : hotEnd.nozzle(), stopped ? 0 : feed, false));
                deepest = Math.max(deepest, live.softenedDepth());
            }
            assertThat(deepest).as("build %s, %s", number, regime).isCloseTo(expected, within(0.05e-3));
        }
    }

    @Test
    void goesOnFromARecordedState() {
        HotEnd hotEnd = SheetExample.titanium();
        LiveHotEnd.Drive stopped = new LiveHotEnd.Drive(0, 0, 0, true);
        LiveHotEnd live = LiveHotEnd.settled(hotEnd, Regime.PRINTING);
        live.advance(20, stopped);
        LiveHotEnd restored = LiveHotEnd.restore(hotEnd, live.state());
        live.advance(40, stopped);
        restored.advance(40, stopped);
        assertThat(restored.state()).isEqualTo(live.state());
        double[] tooShort = new double[7];
        assertThatThrownBy(() -> LiveHotEnd.restore(hotEnd, tooShort))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("7 values");
    }

    @Test
    void heatsUpWithThePowerItHas() {
        HotEnd hotEnd = SheetExample.titanium();
        LiveHotEnd live = LiveHotEnd.cold(hotEnd);
        LiveHotEnd.Drive heating = new LiveHotEnd.Drive(1, hotEnd.nozzle(), 0, false);
        live.advance(1, heating);
        assertThat(live.heaterPower()).isEqualTo(50);
        // 12 J/K at 50 W: 4 K/s at first
        assertThat(live.blockKelvin() - 298.15).isCloseTo(50.0 / 12, within(0.2));
        live.advance(600, heating);
        Standing standing = new Race(hotEnd).standing(Regime.HOT_IDLE);
        assertThat(live.blockKelvin()).isCloseTo(hotEnd.nozzle(), within(0.01));
        assertThat(live.throatKelvin()).isCloseTo(standing.throat(), within(0.05));
        assertThat(live.sinkKelvin()).isCloseTo(standing.sink(), within(0.05));
        assertThat(live.filamentAtThroatKelvin()).isCloseTo(standing.filamentAtThroat(), within(0.05));
        assertThat(live.heaterPower()).isCloseTo(standing.heaterPower(), within(0.01));
    }

    @Test
    void aColdBlockDoesNotFeed() {
        HotEnd hotEnd = SheetExample.titanium();
        double tooCold = hotEnd.plastic().feedsAbove() - 5;
        LiveHotEnd asked = LiveHotEnd.cold(hotEnd);
        LiveHotEnd idle = LiveHotEnd.cold(hotEnd);
        asked.advance(60, new LiveHotEnd.Drive(1, tooCold, 5e-9, false));
        idle.advance(60, new LiveHotEnd.Drive(1, tooCold, 0, false));
        assertThat(asked.state()).isEqualTo(idle.state());
        asked.advance(60, new LiveHotEnd.Drive(1, hotEnd.nozzle(), 5e-9, false));
        idle.advance(60, new LiveHotEnd.Drive(1, hotEnd.nozzle(), 0, false));
        assertThat(asked.filamentAtThroatKelvin()).isLessThan(idle.filamentAtThroatKelvin() - 5);
    }
}
