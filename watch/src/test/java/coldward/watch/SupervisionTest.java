package coldward.watch;

import static coldward.watch.TestShop.S;
import static coldward.watch.TestShop.usual;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import coldward.watch.PrinterView.Outcome;
import coldward.watch.guard.FanState;
import coldward.watch.replay.EventTicker;
import coldward.watch.replay.MemoryJournal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

class SupervisionTest {

    @Test
    void a_healthy_shop_is_quiet() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron", "robin", "finch")) {
            shop.seconds(600);
            assertThat(shop.notices).isEmpty();
            assertThat(shop.watch.views()).extracting(PrinterView::printer).containsExactly("heron", "robin", "finch");
            assertThat(shop.watch.views()).allSatisfy(v -> {
                assertThat(v.fan()).isEqualTo(FanState.TURNING);
                assertThat(v.speed()).hasValue(8000);
                assertThat(v.age(shop.ticker.nanos()).orElseThrow()).isBetween(0.0, 0.5);
                assertThat(v.link().observations()).isEqualTo(1201);
            });
            // a quiet day must not fill the disk
            assertThat(shop.journal.of("heron")).hasSizeLessThan(5);
        }
    }

    @Test
    void one_printers_trip_is_no_other_printers_business() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron", "robin")) {
            shop.seconds(10);
            shop.machine("robin").speed(0);
            shop.seconds(10);
            assertThat(shop.watch.view("robin").fan()).isEqualTo(FanState.TRIPPED);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TURNING);
            assertThat(shop.machine("heron").requested).isEmpty();
        }
    }

    @Test
    void a_silent_hot_printer_is_told_and_heard_again() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            shop.seconds(10.1);
            shop.machine("heron").reachable = false;
            shop.seconds(3.8);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TURNING);
            shop.seconds(0.2);
            assertThat(shop.heron().fan()).isEqualTo(FanState.UNHEARD);
            shop.seconds(10);
            assertThat(shop.told()).containsExactly(Notice.Kind.UNHEARD);
            assertThat(shop.notices.getFirst().happened()).contains("heron").contains("4.0 s");
            shop.machine("heron").reachable = true;
            shop.seconds(1);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TURNING);
            assertThat(shop.told()).containsExactly(Notice.Kind.UNHEARD, Notice.Kind.HEARD_AGAIN);
            // trouble came twice a second for 14 s, but is journalled once a minute
            assertThat(shop.heron().link().troubles()).isGreaterThan(20);
            assertThat(shop.kinds("heron")).containsOnlyOnce("link-trouble");
        }
    }

    @Test
    void a_silence_that_is_over_at_once_is_journalled_but_not_told() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            shop.seconds(10.1);
            shop.machine("heron").reachable = false;
            shop.seconds(5);
            shop.machine("heron").reachable = true;
            shop.seconds(20);
            assertThat(shop.notices).isEmpty();
            assertThat(shop.journal.of("heron", "state-changed"))
                    .anyMatch(k -> "unheard".equals(k.entry().facts().get("to")));
        }
    }

    @Test
    void printers_that_fall_silent_together_give_one_notice_with_the_common_cause() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron", "robin", "finch", "wren")) {
            shop.seconds(10);
            for (String name : List.of("heron", "robin", "finch")) {
                shop.machine(name).reachable = false;
                shop.seconds(0.4);
            }
            shop.seconds(20);
            assertThat(shop.told()).containsExactly(Notice.Kind.UNHEARD);
            Notice notice = shop.notices.getFirst();
            assertThat(notice.printers()).containsExactly("finch", "heron", "robin");
            assertThat(notice.happened()).contains("3 printers").contains("localhost:7070");
        }
        try (TestShop shop = new TestShop(usual(), "heron", "robin")) {
            shop.machine("robin").place = "192.0.2.7:80";
            shop.seconds(10);
            shop.machine("heron").reachable = false;
            shop.machine("robin").reachable = false;
            shop.seconds(20);
            assertThat(shop.notices).hasSize(1);
            assertThat(shop.notices.getFirst().happened()).contains("the network");
        }
    }

    @Test
    void a_trip_is_released_by_name_only() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            shop.seconds(10);
            assertThat(shop.watch
                            .release("heron", "Ada", "by mistake")
                            .toCompletableFuture()
                            .join())
                    .isFalse();
            shop.machine("heron").speed(0);
            shop.seconds(10);
            assertThatThrownBy(() -> shop.watch.release("heron", "", "why")).isInstanceOf(InputError.class);
            assertThatThrownBy(() -> shop.watch.release("heron", "Ada", " ")).isInstanceOf(InputError.class);
            assertThatThrownBy(() -> shop.watch.release("plover", "Ada", "why"))
                    .isInstanceOf(InputError.class)
                    .hasMessageContaining("plover")
                    .hasMessageContaining("heron");
            assertThat(shop.heron().fan()).isEqualTo(FanState.TRIPPED);
            shop.machine("heron").speed(8000);
            assertThat(shop.watch
                            .release("heron", "Ada", "new fan")
                            .toCompletableFuture()
                            .join())
                    .isTrue();
            shop.seconds(1);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TURNING);
            assertThat(shop.heron().trip()).isEmpty();
            assertThat(shop.journal
                            .latest("heron", "release")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("name", "Ada")
                    .containsEntry("reason", "new fan");
        }
    }

    @Test
    void a_release_ends_an_unfinished_response() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            FakeMachine heron = shop.machine("heron");
            shop.seconds(10);
            heron.deaf.add(Action.HOLD);
            heron.speed(0);
            shop.seconds(5);
            shop.watch.release("heron", "Ada", "reading was wrong");
            heron.speed(8000);
            int sent = heron.requested.size();
            shop.seconds(120);
            assertThat(heron.requested).hasSize(sent);
            assertThat(shop.journal
                            .latest("heron", "response-finished")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("outcome", "released");
        }
    }

    @Test
    void a_bypass_is_journalled_expires_by_itself_and_outlives_a_restart() throws Exception {
        TestShop first = new TestShop(usual(), "heron");
        first.seconds(10);
        first.watch.bypass("heron", "Ada", "cleaning", Duration.ofSeconds(60));
        first.machine("heron").speed(0);
        first.seconds(20);
        assertThat(first.heron().fan()).isEqualTo(FanState.DOUBTED);
        first.kill();
        try (TestShop second = new TestShop(usual(), first.ticker, first.journal, "heron")) {
            second.machine("heron").speed(0);
            second.seconds(30);
            assertThat(second.heron().fan()).isEqualTo(FanState.DOUBTED);
            assertThat(second.heron().bypassUntil()).hasValue(70 * S);
            second.seconds(12);
            assertThat(second.heron().fan()).isEqualTo(FanState.TRIPPED);
            assertThat(second.kinds("heron")).contains("bypass-over");
        }
    }

    @Test
    void silence_on_purpose_of_a_configured_rule_responds() throws Exception {
        EventTicker ticker = new EventTicker(0);
        FakeMachine machine = new FakeMachine(ticker);
        try (Watch watch = new Watch(
                List.of(new WatchedPrinter(
                        "heron", TestShop.settings(OptionalLong.of(6 * S)), usual(), TestShop.spec())),
                p -> machine,
                new MemoryJournal(),
                History.none(),
                n -> {},
                ticker)) {
            ticker.advance(10 * S + S / 10);
            machine.reachable = false;
            ticker.advance(9 * S + S / 2);
            assertThat(machine.requested).isEmpty();
            ticker.advance(S);
            assertThat(machine.requested).isNotEmpty();
            assertThat(machine.requestedAt.getFirst()).isEqualTo(20 * S);
            assertThat(watch.view("heron").fan()).isEqualTo(FanState.TRIPPED);
        }
    }

    @Test
    void actions_do_not_wait_for_a_journal_that_hangs_or_fails() {
        for (Consumer<CompletableFuture<Journal.Kept>> disk : List.<Consumer<CompletableFuture<Journal.Kept>>>of(
                never -> {}, fails -> fails.completeExceptionally(new IllegalStateException("disk full")))) {
            EventTicker ticker = new EventTicker(0);
            FakeMachine machine = new FakeMachine(ticker);
            List<Notice.Kind> told = new ArrayList<>();
            MemoryJournal empty = new MemoryJournal();
            Journal slow = new Journal() {
                @Override
                public CompletionStage<Kept> append(Entry entry) {
                    CompletableFuture<Kept> kept = new CompletableFuture<>();
                    disk.accept(kept);
                    return kept;
                }

                @Override
                public List<Kept> of(String printer, String... kinds) {
                    return empty.of(printer, kinds);
                }

                @Override
                public void read(long from, Consumer<Kept> reader) {
                    empty.read(from, reader);
                }

                @Override
                public void close() {}
            };
            try (Watch watch = new Watch(
                    List.of(new WatchedPrinter(
                            "heron", TestShop.settings(OptionalLong.empty()), usual(), TestShop.spec())),
                    p -> machine,
                    slow,
                    History.none(),
                    n -> told.add(n.kind()),
                    ticker)) {
                ticker.advance(10 * S + S / 10);
                machine.speed(0);
                ticker.advance(2 * S);
                assertThat(machine.requestedAt).containsOnly(11 * S + S / 2);
                assertThat(watch.view("heron").trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
            }
            assertThat(told).contains(Notice.Kind.TRIP, Notice.Kind.MADE_SAFE);
            assertThat(told.stream()
                            .filter(k -> k == Notice.Kind.JOURNAL_FAILED)
                            .count())
                    .isLessThanOrEqualTo(1);
        }
    }

    @Test
    void a_mistake_in_one_listener_stops_nothing_and_is_told() throws Exception {
        try (TestShop shop = new TestShop(usual(), "heron")) {
            shop.watch.onView(v -> {
                throw new IllegalStateException("drawing failed");
            });
            shop.seconds(10.1);
            shop.machine("heron").speed(0);
            shop.seconds(5);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TRIPPED);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
            assertThat(shop.told()).contains(Notice.Kind.FAULT);
        }
    }

    @Test
    void a_computer_that_was_asleep_does_not_take_its_own_silence_for_the_machines() {
        EventTicker base = new EventTicker(0);
        long[] asleep = {0};
        Ticker ticker = new Ticker() {
            @Override
            public long wallMillis() {
                return base.wallMillis() + asleep[0] / 1_000_000;
            }

            @Override
            public long nanos() {
                return base.nanos() + asleep[0];
            }

            @Override
            public Pending after(long delayNanos, Runnable task) {
                return base.after(delayNanos, task);
            }
        };
        FakeMachine machine = new FakeMachine(ticker);
        MemoryJournal journal = new MemoryJournal();
        try (Watch watch = new Watch(
                List.of(new WatchedPrinter("heron", TestShop.settings(OptionalLong.of(0)), usual(), TestShop.spec())),
                p -> machine,
                journal,
                History.none(),
                n -> {},
                ticker)) {
            base.advance(10 * S);
            machine.reachable = false;
            base.advance(S);
            asleep[0] = 3600 * S;
            base.advance(3 * S + S / 2);
            assertThat(watch.view("heron").fan()).isEqualTo(FanState.TURNING);
            assertThat(journal.latest("heron", "watch-stood-still")).isPresent();
            // from then on it is the machine's silence
            base.advance(5 * S);
            assertThat(watch.view("heron").fan()).isEqualTo(FanState.TRIPPED);
        }
    }

    @Test
    void a_shop_without_printers_or_with_two_of_a_name_is_refused() {
        EventTicker ticker = new EventTicker(0);
        WatchedPrinter heron =
                new WatchedPrinter("heron", TestShop.settings(OptionalLong.empty()), usual(), TestShop.spec());
        for (List<WatchedPrinter> printers : List.of(List.<WatchedPrinter>of(), List.of(heron, heron))) {
            assertThatThrownBy(() -> new Watch(
                            printers,
                            p -> new FakeMachine(ticker),
                            new MemoryJournal(),
                            History.none(),
                            n -> {},
                            ticker))
                    .isInstanceOf(InputError.class);
        }
    }

    @Test
    void every_report_is_kept() {
        EventTicker ticker = new EventTicker(0);
        List<Double> speeds = new ArrayList<>();
        try (Watch watch = new Watch(
                List.of(new WatchedPrinter("heron", TestShop.settings(OptionalLong.empty()), usual(), TestShop.spec())),
                p -> new FakeMachine(ticker),
                new MemoryJournal(),
                (printer, wall, reads) -> speeds.add(reads.get(ReadName.SPEED)),
                n -> {},
                ticker)) {
            ticker.advance(10 * S);
            assertThat(speeds).hasSize(21).containsOnly(8000.0);
            assertThat(watch.views()).hasSize(1);
        }
    }
}
