package coldward.watch;

import static coldward.watch.TestShop.usual;
import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.build.Action;
import coldward.watch.Journal.Kept;
import coldward.watch.PrinterView.Outcome;
import coldward.watch.guard.FanState;
import coldward.watch.replay.EventTicker;
import coldward.watch.replay.MemoryJournal;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class RestartTest {

    @Test
    void killed_at_any_instant_a_journalled_trip_is_still_latched_and_its_response_carried_out() throws Exception {
        TestShop story = new TestShop(usual(), "heron");
        story.seconds(10.1);
        story.machine("heron").speed(0);
        story.seconds(10);
        List<Kept> all = new ArrayList<>();
        story.journal.read(1, all::add);
        story.kill();
        assertThat(all).hasSizeGreaterThan(12);

        for (int kept = 0; kept <= all.size(); kept++) {
            MemoryJournal disk = new MemoryJournal();
            all.subList(0, kept).forEach(k -> disk.append(k.entry()));
            boolean tripped = disk.latest("heron", "trip").isPresent();
            boolean finished = disk.latest("heron", "response-finished").isPresent();
            EventTicker ticker = new EventTicker(1_800_000_100_000L);
            try (TestShop again = new TestShop(usual(), ticker, disk, "heron")) {
                FakeMachine heron = again.machine("heron");
                if (tripped) {
                    assertThat(again.heron().fan()).as("after %s entries", kept).isEqualTo(FanState.TRIPPED);
                    assertThat(again.heron().trip().orElseThrow().resumed()).isTrue();
                }
                if (tripped && !finished) {
                    assertThat(heron.requested)
                            .as("requested at once, after %s entries", kept)
                            .containsExactly(Action.HEATER_OFF, Action.HOLD, Action.BLOCK_FAN);
                } else {
                    assertThat(heron.requested).as("after %s entries", kept).isEmpty();
                }
                again.seconds(3);
                assertThat(again.heron().fan())
                        .as("after %s entries", kept)
                        .isEqualTo(tripped ? FanState.TRIPPED : FanState.TURNING);
                if (tripped) {
                    assertThat(again.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
                    assertThat(disk.latest("heron", "response-finished")).isPresent();
                }
            }
        }
    }

    @Test
    void a_finished_response_is_not_repeated_and_a_released_trip_is_gone() throws Exception {
        TestShop first = new TestShop(usual(), "heron");
        first.seconds(10.1);
        first.machine("heron").speed(0);
        first.seconds(5);
        first.kill();
        TestShop second = new TestShop(usual(), first.ticker, first.journal, "heron");
        second.seconds(60);
        assertThat(second.heron().fan()).isEqualTo(FanState.TRIPPED);
        assertThat(second.machine("heron").requested).isEmpty();
        second.watch.release("heron", "Ada", "new fan");
        second.kill();
        try (TestShop third = new TestShop(usual(), first.ticker, first.journal, "heron")) {
            third.seconds(1);
            assertThat(third.heron().fan()).isEqualTo(FanState.TURNING);
        }
    }

    @Test
    void after_a_hard_end_a_dead_fan_gets_no_grace() throws Exception {
        TestShop first = new TestShop(usual(), "heron");
        first.seconds(20);
        first.kill();
        try (TestShop second = new TestShop(usual(), first.ticker, first.journal, m -> m.speed(0), "heron")) {
            // reports at 0, 0.5 and 1 s; the grace would be 5 s
            second.seconds(1.1);
            assertThat(second.heron().fan()).isEqualTo(FanState.TRIPPED);
            assertThat(second.journal
                            .latest("heron", "resumed")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("hard_end", 1L)
                    .containsEntry("asked", 1L);
        }
    }

    @Test
    void a_first_start_gives_grace() throws Exception {
        EventTicker ticker = new EventTicker(0);
        try (TestShop shop = new TestShop(usual(), ticker, new MemoryJournal(), m -> m.speed(0), "heron")) {
            shop.seconds(4.9);
            assertThat(shop.heron().fan()).isEqualTo(FanState.STARTING);
            shop.seconds(2);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TRIPPED);
        }
    }

    @Test
    void an_end_in_good_order_is_not_a_hard_one() throws Exception {
        TestShop first = new TestShop(usual(), "heron");
        first.seconds(20);
        first.close();
        try (TestShop second = new TestShop(usual(), first.ticker, first.journal, "heron")) {
            assertThat(second.journal
                            .latest("heron", "resumed")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("hard_end", 0L);
        }
    }

    @Test
    void a_printer_that_was_turning_before_the_end_and_is_silent_now_is_told() throws Exception {
        TestShop first = new TestShop(usual(), "heron");
        first.seconds(20);
        first.kill();
        try (TestShop second = new TestShop(usual(), first.ticker, first.journal, "heron")) {
            second.machine("heron").closed = true;
            second.seconds(10);
            assertThat(second.told()).containsExactly(Notice.Kind.UNHEARD);
        }
    }
}
