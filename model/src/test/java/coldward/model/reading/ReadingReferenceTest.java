package coldward.model.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.Tachometer;
import org.junit.jupiter.api.Test;

/** Published facts of topic tach that a reading must obey; ids as in {@code reference/tach.csv}. */
class ReadingReferenceTest {

    /** T-INT-1 (specification of four-wire fans r1.3, 2.1.3): two pulses per revolution. */
    @Test
    void twoPulsesPerTurn() {
        assertThat(PinSimulation.of(Readings.pulseRate(6000, 2), 0.5, 1)
                        .count(new Edge(0, 0), 0, 60)
                        .real())
                .isBetween(11_999L, 12_001L);
    }

    /**
     * T-PWM-1 (Microchip DS41304B 2.4.2-2.4.4): the tachometer is valid only while the fan is powered; chopping at 10 to
     * 100 Hz; stretch the on-time for a measurement.
     */
    @Test
    void pulsesExistOnlyWhileTheFanIsPowered() {
        double rate = Readings.pulseRate(6000, 2);
        for (double hertz : new double[] {10, 33, 100}) {
            Chopping chopping = new Chopping(hertz, 0.5);
            PinSimulation.Count counted =
                    PinSimulation.of(rate, 0.5, 2).chopped(chopping).count(new Edge(0, 0), 0, 20);
            assertThat(counted.real() / counted.seconds()).isLessThan(0.6 * rate);
            ChoppedPulses.HeldOn held = ChoppedPulses.stretched(rate, 2, chopping, 1);
            assertThat(PinSimulation.of(rate, 0.5, 2)
                            .count(new Edge(0, 0), 0, held.seconds())
                            .real())
                    .isGreaterThanOrEqualTo(3);
        }
    }

    /**
     * T-INT-2 (same specification, 2.1.4): 25 kHz is for the control pin, which does not switch the fan's supply. Put on
     * the supply of a three-wire fan its own edges drown the pulses.
     */
    @Test
    void twentyFiveKilohertzOnTheSupplyIsNoReading() {
        Tachometer reading = new Tachometer(2, 0.5, new Edge(0, 0), 1);
        ReadingResult shown = Readings.of(reading, 6000, Conditions.PLAIN.withChopping(new Chopping(25_000, 0.5)));
        assertThat(shown.honest()).isFalse();
        assertThat(shown.shownRpm()).isCloseTo((200 * 0.5 + 25_000 * 0.5) * 30, within(1e-6));
    }

    /** T-PWM-2 (MAX6639 data sheet p. 17): a keep-alive supply keeps the tachometer alive: full power to the pulses. */
    @Test
    void aSupplyKeptAliveReadsHonestly() {
        Tachometer reading = new Tachometer(2, 0.5, new Edge(0, 0), 1);
        assertThat(Readings.of(reading, 6000, Conditions.PLAIN.withChopping(new Chopping(25_000, 1)))
                        .honest())
                .isTrue();
    }
}
