package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.heat.Deadline;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class MarginTest {

    private static final StopTime.Noticed NOTICED = new StopTime.Noticed(0.4, 0.9, 1, 3, 0.2, 2);

    @Test
    void theOrderIsTotal() {
        List<Deadline> deadlines = new ArrayList<>(List.of(
                Deadline.never(),
                Deadline.until(0),
                Deadline.until(0.1),
                Deadline.until(41),
                Deadline.until(1800),
                Deadline.always()));
        List<Margin> margins = new ArrayList<>(List.of(
                new Margin.NothingSaves(),
                new Margin.Seconds(-1800),
                new Margin.Seconds(-0.1),
                new Margin.Seconds(0),
                new Margin.Seconds(36.5),
                new Margin.Unlimited()));
        assertTotal(deadlines);
        assertTotal(margins);
        assertThat(Deadline.until(-0.0)).isEqualTo(Deadline.until(0.0)).isEqualByComparingTo(Deadline.until(0.0));
        assertThat(new Margin.Seconds(-0.0)).isEqualTo(new Margin.Seconds(0.0));
    }

    /** Of a list in rising order: antisymmetric, transitive, consistent with equals, and found again after shuffling. */
    private static <T extends Comparable<T>> void assertTotal(List<T> rising) {
        for (int i = 0; i < rising.size(); i++) {
            for (int j = 0; j < rising.size(); j++) {
                assertThat(Integer.signum(rising.get(i).compareTo(rising.get(j))))
                        .isEqualTo(Integer.compare(i, j));
            }
        }
        List<T> shuffled = new ArrayList<>(rising);
        for (int seed = 0; seed < 20; seed++) {
            Collections.shuffle(shuffled, new Random(seed));
            assertThat(shuffled.stream().sorted()).containsExactlyElementsOf(rising);
        }
    }

    @Test
    void isDeadlineMinusStopTime() {
        assertThat(Margin.of(Deadline.never(), 5)).isEqualTo(new Margin.NothingSaves());
        assertThat(Margin.of(Deadline.until(41), 5)).isEqualTo(new Margin.Seconds(36));
        assertThat(Margin.of(Deadline.always(), 5)).isEqualTo(new Margin.Unlimited());
        // 0.9 s, one window in the worst phase, two more, link and machine: 6.1 s
        assertThat(Margin.of(Deadline.until(6.1), NOTICED, 1).orElseThrow().words())
                .isEqualTo("0 s to spare");
    }

    @Test
    void withoutAReadingOnlyAColdSideThatNeedsNoneIsSafe() {
        StopTime never = new StopTime.NeverNoticed();
        assertThat(Margin.of(Deadline.until(1000), never, 0.99)).contains(new Margin.NothingSaves());
        assertThat(Margin.of(Deadline.never(), never, 0.99)).contains(new Margin.NothingSaves());
        assertThat(Margin.of(Deadline.always(), never, 0.99)).contains(new Margin.Unlimited());
        assertThat(Margin.of(Deadline.until(41), new StopTime.AlwaysLow(5200, 2000), 0.99))
                .isEmpty();
    }

    @Test
    void theWordsNeverPromiseMoreThanTheNumber() {
        assertThat(new Margin.Seconds(41.99).words()).isEqualTo("41 s to spare");
        assertThat(new Margin.Seconds(4.27).words()).isEqualTo("4.2 s to spare");
        assertThat(new Margin.Seconds(-11.2).words()).isEqualTo("too late by 12 s");
        assertThat(new Margin.Seconds(-0.01).words()).isEqualTo("too late by 0.1 s");
        assertThat(new Margin.NothingSaves().words()).isEqualTo("nothing saves it");
        assertThat(new Margin.Unlimited().words()).isEqualTo("no limit");
        assertThat(Deadline.until(41.9).words()).isEqualTo("until 41 s");
        assertThat(Deadline.until(0.59).words()).isEqualTo("until 0.5 s");
        assertThat(Deadline.never().words()).isEqualTo("never");
        assertThat(Deadline.always().words()).isEqualTo("always");
    }

    @Test
    void refusesWhatIsNoTime() {
        assertThatThrownBy(() -> new Margin.Seconds(Double.NaN)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> Deadline.until(-1))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("-1 s");
        assertThatThrownBy(() -> Margin.of(Deadline.never(), -1)).isInstanceOf(InputError.class);
    }
}
