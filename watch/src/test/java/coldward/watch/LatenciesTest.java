package coldward.watch;

import static coldward.watch.TestShop.usual;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.build.Action;
import coldward.quantity.InputError;
import java.util.List;
import org.junit.jupiter.api.Test;

class LatenciesTest {

    /** The fake machine answers after 20 ms, acts 100 ms later and reports every 500 ms: seen 500 ms after the request. */
    @Test
    void are_read_from_what_responses_took() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            shop.seconds(10.1);
            shop.machine("heron").speed(0);
            shop.seconds(4);
            Latencies once = Latencies.of(shop.journal.of("heron", Latencies.kinds()));
            assertThat(once.responses()).isEqualTo(1);
            assertThat(once.request()).containsExactly(0.02, 0.02, 0.02);
            assertThat(once.effect()).containsOnlyKeys(Action.HEATER_OFF, Action.HOLD, Action.BLOCK_FAN);
            assertThat(once.effect().values()).allMatch(t -> t.equals(List.of(0.48)));
            assertThat(Latencies.together(List.of(once, once)).responses()).isEqualTo(2);
        }
    }

    @Test
    void of_an_action_that_was_repeated_are_those_of_the_attempt_that_was_confirmed() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(Action.HOLD);
            shop.seconds(10.1);
            heron.speed(0);
            // the first request, at 11.5 s, has no effect; the second, 3 s later, has
            shop.seconds(2);
            heron.deaf.clear();
            shop.seconds(10);
            Latencies times = Latencies.of(shop.journal.of("heron"));
            assertThat(times.effect().get(Action.HOLD))
                    .singleElement()
                    .satisfies(t -> assertThat(t).isBetween(0.3, 0.6));
        }
    }

    @Test
    void median_and_worst() {
        assertThat(Latencies.median(List.of(3.0, 1.0, 2.0))).isEqualTo(2);
        assertThat(Latencies.median(List.of(4.0, 1.0, 2.0, 3.0))).isEqualTo(2.5);
        assertThat(Latencies.worst(List.of(3.0, 1.0))).isEqualTo(3);
        assertThatThrownBy(() -> Latencies.worst(List.of())).isInstanceOf(InputError.class);
    }
}
