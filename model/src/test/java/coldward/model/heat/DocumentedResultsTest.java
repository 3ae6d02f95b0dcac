package coldward.model.heat;

import static coldward.model.build.Action.BLOCK_FAN;
import static coldward.model.build.Action.HEATER_OFF;
import static coldward.model.build.Action.HOLD;
import static coldward.model.build.Action.POWER_OFF;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Action;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * The reference model's documented results for three builds: 3 % in heat and in temperature rise over the air (25 degC),
 * 5 % or 2 s in times, 0.02 in the unsafe share of rated speed.
 */
class DocumentedResultsTest {

    private static final double AIR_CELSIUS = 25;

    @Test
    void titaniumNeck() {
        Race race = new Race(SheetExample.titanium());
        standing(race, 2.46, 56.5);
        assertRise(race.standing(Regime.PRINTING).sink(), 33.6);

        assertThat(race.deadline(Regime.PRINTING, Set.of(HOLD))).isEqualTo(Deadline.never());
        deadline(race, Regime.PRINTING, Set.of(HEATER_OFF), 56);
        deadline(race, Regime.PRINTING, Set.of(HOLD, HEATER_OFF), 41);
        deadline(race, Regime.PRINTING, Set.of(HOLD, HEATER_OFF, BLOCK_FAN), 82);
        softens(race, Regime.PRINTING, 125);

        deadline(race, Regime.HOT_IDLE, Set.of(HOLD, HEATER_OFF), 35);
        deadline(race, Regime.HOT_IDLE, Set.of(HOLD, HEATER_OFF, BLOCK_FAN), 69);
        softens(race, Regime.HOT_IDLE, 80);
        // a length that the table gives to two digits: half a unit of the last
        assertThat(race.standing(Regime.HOT_IDLE).softenedDepth() * 1e3).isCloseTo(0.55, within(0.55 * 0.03));
        assertThat(race.unsafeSpeed()).isCloseTo(0.22, within(0.02));
    }

    @Test
    void stainlessSteelNeck() {
        Race race = new Race(SheetExample.stainless());
        standing(race, 4.52, 67);
        for (Regime regime : Regime.values()) {
            assertThat(race.softWhileHealthy(regime)).isFalse();
            assertThat(race.deadline(regime, Set.of(HOLD, HEATER_OFF))).isEqualTo(Deadline.never());
            assertThat(race.deadline(regime, Set.of(POWER_OFF))).isEqualTo(Deadline.never());
        }
        deadline(race, Regime.PRINTING, Set.of(HOLD, HEATER_OFF, BLOCK_FAN), 15);
        deadline(race, Regime.HOT_IDLE, Set.of(HOLD, HEATER_OFF, BLOCK_FAN), 12);
        softens(race, Regime.PRINTING, 51);
        softens(race, Regime.HOT_IDLE, 27);
        assertThat(race.unsafeSpeed()).isCloseTo(0.43, within(0.02));
    }

    @Test
    void twoMetalHeatBreak() {
        Race race = new Race(SheetExample.twoMetal());
        standing(race, 2.66, 39);
        deadline(race, Regime.PRINTING, Set.of(HOLD, HEATER_OFF), 37);
        deadline(race, Regime.HOT_IDLE, Set.of(HOLD, HEATER_OFF), 32);
    }

    private static void standing(Race race, double watts, double throat) {
        assertThat(race.warnings()).isEmpty();
        assertThat(race.standing(Regime.PRINTING).heatFlow()).isCloseTo(watts, within(0.03 * watts));
        assertRise(race.standing(Regime.PRINTING).throat(), throat);
    }

    private static void assertRise(double kelvin, double celsius) {
        double rise = celsius - AIR_CELSIUS;
        assertThat(kelvin - 273.15 - AIR_CELSIUS).isCloseTo(rise, within(0.03 * rise));
    }

    private static void deadline(Race race, Regime regime, Set<Action> response, double seconds) {
        assertThat(race.deadline(regime, response))
                .isInstanceOfSatisfying(Deadline.Until.class, until -> assertTime(until.seconds(), seconds));
    }

    private static void softens(Race race, Regime regime, double seconds) {
        assertTime(race.softens(regime).orElseThrow(), seconds);
    }

    private static void assertTime(double actual, double seconds) {
        assertThat(actual).isCloseTo(seconds, within(Math.max(0.05 * seconds, 2)));
    }
}
