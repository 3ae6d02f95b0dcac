package coldward.model.blind;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.blind.BlindSpot.Fault;
import coldward.model.build.Reading;
import coldward.model.shop.ReadName;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The faults of small fans that the trade lists as unseen by a speed (common practice, no source). */
class BlindSpotsTest {

    private static final Reading READ = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);

    private static List<Fault> faults(Reading reading, Set<ReadName> reads) {
        return BlindSpots.of(reading, reads).stream().map(BlindSpot::fault).toList();
    }

    @Test
    void aSpeedAloneSaysNothingOfTheAir() {
        assertThat(faults(READ, EnumSet.of(ReadName.SPEED)))
                .containsExactly(
                        Fault.DUCT_OFF,
                        Fault.DIRTY_FINS,
                        Fault.REVERSED_FAN,
                        Fault.LOST_BLADE,
                        Fault.FROZEN_READING,
                        Fault.COUPLED_READING,
                        Fault.WRONG_PULSES);
    }

    @Test
    void aColdSideSeesWhatRisesAndMissesWhatCreeps() {
        assertThat(faults(READ, EnumSet.of(ReadName.SPEED, ReadName.COLD_SIDE)))
                .containsExactly(Fault.DIRTY_FINS, Fault.REVERSED_FAN, Fault.WRONG_PULSES);
    }

    @Test
    void withoutASpeedNoFailureIsSeen() {
        assertThat(faults(new Reading.None(), EnumSet.allOf(ReadName.class))).startsWith(Fault.ANY_FAN_FAILURE);
        assertThat(faults(READ, EnumSet.of(ReadName.NOZZLE)))
                .as("a signal that is not mapped")
                .startsWith(Fault.ANY_FAN_FAILURE);
    }

    /** One more read never makes a printer blinder. */
    @Test
    void everyReadOnlyHelps() {
        for (int bits = 0; bits < 1 << 3; bits++) {
            Set<ReadName> some = EnumSet.of(ReadName.NOZZLE);
            List<ReadName> relevant = List.of(ReadName.SPEED, ReadName.DUTY, ReadName.COLD_SIDE);
            for (int i = 0; i < relevant.size(); i++) {
                if ((bits >> i & 1) == 1) {
                    some.add(relevant.get(i));
                }
            }
            Set<ReadName> more = EnumSet.copyOf(some);
            more.add(ReadName.COLD_SIDE);
            assertThat(faults(READ, some)).containsAll(faults(READ, more));
            assertThat(BlindSpots.of(READ, some))
                    .allSatisfy(s -> assertThat(s.sentence()).contains(s.fault().words(), "noticed by"));
        }
    }
}
