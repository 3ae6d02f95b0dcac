package coldward.watch.fitted;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.InputError;
import coldward.watch.Journal;
import coldward.watch.fitted.FittedFan.ThirdWire;
import coldward.watch.fitted.FittedFan.Why;
import coldward.watch.replay.MemoryJournal;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FittedFanTest {

    private static FittedFan fan(String label, double speed, int pulses, ThirdWire wire, Why why) {
        return new FittedFan(label, Optional.of("2611"), Optional.of(why), speed, pulses, wire);
    }

    @Test
    void one_life_ends_where_the_next_begins() {
        MemoryJournal journal = new MemoryJournal();
        FittedFan first = fan("F-1", 8000, 2, ThirdWire.PULSES, Why.UPGRADE);
        FittedFan second = fan("F-2", 8000, 2, ThirdWire.PULSES, Why.WORN);
        journal.append(new Journal.Entry(1000, "heron", FittedFan.ENTRY, first.facts(Optional.empty())));
        journal.append(new Journal.Entry(1500, "heron", "trip", first.facts(Optional.empty())));
        journal.append(new Journal.Entry(2000, "heron", FittedFan.ENTRY, second.facts(Optional.of("F-1"))));
        List<FittedFan.Life> lives = FittedFan.lives(journal.of("heron"));
        assertThat(lives)
                .containsExactly(
                        new FittedFan.Life(first, 1000, Optional.of(new FittedFan.End(2000, Optional.of(Why.WORN)))),
                        new FittedFan.Life(second, 2000, Optional.empty()));
        assertThat(FittedFan.lives(journal.of("robin"))).isEmpty();
    }

    @Test
    void a_spare_of_another_kind_is_told() {
        FittedFan usual = fan("F-1", 8000, 2, ThirdWire.PULSES, Why.WORN);
        assertThat(fan("F-2", 8700, 2, ThirdWire.PULSES, Why.WORN).differences(usual, "the fan before"))
                .isEmpty();
        assertThat(fan("F-2", 6000, 2, ThirdWire.PULSES, Why.WORN).differences(usual, "the fan before"))
                .singleElement()
                .asString()
                .contains("6000 rpm", "8000 rpm", "trip speed");
        assertThat(fan("F-2", 8000, 1, ThirdWire.PULSES, Why.WORN).differences(usual, "the fan before"))
                .singleElement()
                .asString()
                .contains("1 pulses per turn");
        assertThat(fan("F-2", 8000, 0, ThirdWire.LOCKED, Why.WORN).differences(usual, "the fan before"))
                .hasSize(2)
                .last()
                .asString()
                .contains("nothing watches");
    }

    @Test
    void a_fan_needs_a_label() {
        assertThatThrownBy(() -> fan(" ", 8000, 2, ThirdWire.PULSES, Why.WORN)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> fan("F-1", 8000, 13, ThirdWire.PULSES, Why.WORN))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("13");
    }
}
