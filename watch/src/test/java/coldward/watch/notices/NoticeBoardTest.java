package coldward.watch.notices;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.shop.NoticeRules;
import coldward.model.shop.NoticeRules.Repeats;
import coldward.model.shop.QuietHours;
import coldward.watch.Journal;
import coldward.watch.Notice;
import coldward.watch.Notice.Kind;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.replay.EventTicker;
import coldward.watch.replay.MemoryJournal;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class NoticeBoardTest {

    private static final long S = 1_000_000_000L;
    private static final Repeats REPEATS = new Repeats(60, 240, 5);
    private static final Optional<QuietHours> NIGHT =
            Optional.of(new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0), ZoneOffset.UTC));
    private static final AtomicInteger IDS = new AtomicInteger();

    private final MemoryJournal journal = new MemoryJournal();
    private final List<Notice> terminal = new ArrayList<>();

    /** A channel that does what it is told. */
    private static final class Fake implements Channel {
        final String name;
        final EventTicker ticker;
        final List<Message> got = new ArrayList<>();
        final List<Long> attempts = new ArrayList<>();
        Outcome outcome = new Outcome.Delivered();
        boolean silent;

        Fake(String name, EventTicker ticker) {
            this.name = name;
            this.ticker = ticker;
        }

        @Override
        public String name() {
            return name;
        }

        @Override
        public CompletionStage<Outcome> send(Message message) {
            attempts.add(ticker.nanos());
            if (silent) {
                return new CompletableFuture<>();
            }
            if (outcome instanceof Outcome.Delivered) {
                got.add(message);
            }
            return CompletableFuture.completedFuture(outcome);
        }

        List<String> abouts() {
            return got.stream().map(Message::about).toList();
        }

        @Override
        public void close() {
            silent = true;
        }
    }

    private NoticeBoard board(EventTicker ticker, Optional<QuietHours> quiet, Fake... channels) {
        return new NoticeBoard(
                "brook lane",
                new NoticeRules(List.of(), REPEATS, quiet, Optional.empty()),
                List.of(channels),
                terminal::add,
                journal,
                ticker,
                () -> "id" + IDS.incrementAndGet());
    }

    private static EventTicker at(String wall) {
        return new EventTicker(Instant.parse(wall).toEpochMilli());
    }

    private static Notice notice(EventTicker ticker, Kind kind, String... printers) {
        return new Notice(ticker.wallMillis(), List.of(printers), kind, kind.word() + " happened", "done", "next");
    }

    private List<String> kinds() {
        return journal.of("").stream().map(k -> k.entry().kind()).toList();
    }

    @AfterEach
    void every_kind_is_documented() throws IOException {
        String page = Files.readString(Path.of("..", "docs", "journal.md"));
        journal.read(1, k -> assertThat(page).contains("| `" + k.entry().kind() + "` |"));
    }

    @Test
    void a_notice_goes_to_the_terminal_at_once_and_to_every_channel() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake one = new Fake("one", ticker);
        Fake two = new Fake("two", ticker);
        try (NoticeBoard board = board(ticker, Optional.empty(), one, two)) {
            board.tell(notice(ticker, Kind.MADE_SAFE, "heron"));
            assertThat(terminal).hasSize(1);
            // never from the caller's thread: a channel could hold it up
            assertThat(one.attempts).isEmpty();
            ticker.advance(0);
            assertThat(one.abouts()).containsExactly("made-safe");
            assertThat(two.abouts()).containsExactly("made-safe");
            assertThat(kinds()).containsExactly("notice", "notice-sent", "notice-sent");
            assertThat(board.open()).isZero();
        }
    }

    @Test
    void failures_are_retried_with_doubling_pauses_and_told_over_the_others() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake bad = new Fake("bad", ticker);
        Fake good = new Fake("good", ticker);
        bad.outcome = new Outcome.Failed("no connection");
        try (NoticeBoard board = board(ticker, Optional.empty(), bad, good)) {
            board.tell(notice(ticker, Kind.MADE_SAFE, "heron"));
            ticker.advance(40 * S);
            assertThat(bad.attempts).startsWith(0L, S, 3 * S, 7 * S, 15 * S, 31 * S);
            assertThat(good.abouts()).containsExactly("made-safe", "channel-failed");
            assertThat(terminal.getLast().happened()).contains("bad", "no connection");
            bad.outcome = new Outcome.Delivered();
            ticker.advance(60 * S);
            assertThat(bad.abouts()).containsExactly("made-safe");
            assertThat(good.abouts()).contains("channel-back");
            assertThat(board.open()).isZero();
            assertThat(kinds()).contains("notice-failed", "notice-closed");
        }
    }

    @Test
    void a_refusal_and_a_wish_to_be_left_alone_are_heeded() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake refusing = new Fake("refusing", ticker);
        refusing.outcome = new Outcome.Refused("status 404");
        Fake busy = new Fake("busy", ticker);
        busy.outcome = new Outcome.Failed("status 429", 90);
        try (NoticeBoard board = board(ticker, Optional.empty(), refusing, busy)) {
            board.tell(notice(ticker, Kind.MADE_SAFE, "heron"));
            ticker.advance(100 * S);
            assertThat(refusing.attempts).containsExactly(0L, 60 * S);
            assertThat(busy.attempts).containsExactly(0L, 90 * S);
        }
    }

    @Test
    void a_channel_that_never_answers_counts_as_failed() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake dead = new Fake("dead", ticker);
        dead.silent = true;
        try (NoticeBoard board = board(ticker, Optional.empty(), dead)) {
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            ticker.advance(Lane.ANSWER_WITHIN + 2 * S);
            assertThat(dead.attempts).hasSize(2);
        }
    }

    @Test
    void danger_does_not_wait_for_the_pause_of_something_else() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake channel = new Fake("one", ticker);
        channel.outcome = new Outcome.Refused("status 400");
        try (NoticeBoard board = board(ticker, Optional.empty(), channel)) {
            board.tell(notice(ticker, Kind.BYPASSED, "heron"));
            ticker.advance(5 * S);
            channel.outcome = new Outcome.Delivered();
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            ticker.advance(0);
            assertThat(channel.abouts()).containsExactly("trip", "bypassed");
        }
    }

    @Test
    void what_nobody_acknowledges_is_repeated_with_doubling_pauses_up_to_a_limit() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = board(ticker, Optional.empty(), channel)) {
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            ticker.advance(3600 * S);
            // 60, then 120, 240, 240, 240 s later
            assertThat(channel.attempts).containsExactly(0L, 60 * S, 180 * S, 420 * S, 660 * S, 900 * S);
            assertThat(channel.got.getLast().repeat()).isEqualTo(5);
            assertThat(channel.got.getLast().first())
                    .contains(channel.got.getFirst().id());
            assertThat(channel.got.stream().map(Message::id)).doesNotHaveDuplicates();
            assertThat(board.open()).isZero();
        }
    }

    @Test
    void acknowledging_ends_the_repeats_and_tells_the_others() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = board(ticker, Optional.empty(), channel)) {
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            board.tell(notice(ticker, Kind.UNHEARD, "robin"));
            ticker.advance(61 * S);
            assertThat(board.acknowledge(Optional.of("heron"), "Ada")).isEqualTo(1);
            assertThat(board.acknowledge(Optional.of("heron"), "Ada")).isZero();
            ticker.advance(600 * S);
            assertThat(channel.got.stream().filter(m -> m.about().equals("trip")))
                    .hasSize(2);
            assertThat(channel.got.stream().filter(m -> m.about().equals("unheard")))
                    .hasSizeGreaterThan(3);
            assertThat(channel.abouts()).contains("acknowledged");
            assertThat(journal.latest("heron", "acknowledged")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("name", "Ada");
            assertThat(board.acknowledge(Optional.empty(), "Ben")).isEqualTo(1);
        }
    }

    @Test
    void news_that_settle_a_matter_end_its_repeats() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = board(ticker, Optional.empty(), channel)) {
            board.tell(notice(ticker, Kind.UNHEARD, "heron", "robin"));
            board.tell(notice(ticker, Kind.HEARD_AGAIN, "heron"));
            assertThat(board.open()).isEqualTo(1);
            board.tell(notice(ticker, Kind.HEARD_AGAIN, "robin"));
            assertThat(board.open()).isZero();
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            board.tell(notice(ticker, Kind.MADE_SAFE, "heron"));
            assertThat(board.open()).isEqualTo(1);
            board.tell(notice(ticker, Kind.RELEASED, "heron"));
            assertThat(board.open()).isZero();
        }
    }

    @Test
    void in_the_quiet_hours_only_danger_goes_out_and_the_rest_comes_as_one_message_at_their_end() {
        EventTicker ticker = at("2026-11-25T21:59:59.999Z");
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = board(ticker, NIGHT, channel)) {
            board.tell(notice(ticker, Kind.BYPASSED, "heron"));
            ticker.advance(0);
            assertThat(channel.abouts()).as("the last moment before").containsExactly("bypassed");
            ticker.advance(1_000_000);
            board.tell(notice(ticker, Kind.BYPASS_OVER, "heron"));
            board.tell(notice(ticker, Kind.UNHEARD, "robin"));
            ticker.advance(S);
            assertThat(channel.got).as("the first moment of them").hasSize(1);
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            ticker.advance(S);
            assertThat(channel.abouts()).endsWith("trip");
            assertThat(terminal).hasSize(4);
            board.acknowledge(Optional.of("heron"), "Ada");
            ticker.advanceTo((9 * 3600 - 1) * S);
            assertThat(channel.abouts()).containsExactly("bypassed", "trip");
            ticker.advance(2 * S);
            assertThat(channel.got).hasSize(3);
            Message summary = channel.got.getLast();
            assertThat(summary.summary()).isTrue();
            assertThat(summary.about()).isEqualTo("summary");
            assertThat(summary.notices().stream().map(Notice::kind))
                    .containsExactly(Kind.BYPASS_OVER, Kind.UNHEARD, Kind.ACKNOWLEDGED);
            assertThat(summary.signal()).isEqualTo(Notice.Signal.WARNING);
            ticker.advance(61 * S);
            assertThat(channel.abouts()).as("repeats begin then").endsWith("unheard");
        }
    }

    @Test
    void repeats_of_a_warning_keep_the_quiet_hours_those_of_danger_do_not() {
        EventTicker ticker = at("2026-11-25T21:59:30Z");
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = board(ticker, NIGHT, channel)) {
            board.tell(notice(ticker, Kind.UNHEARD, "robin"));
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            ticker.advance(3600 * S);
            assertThat(channel.got.stream().filter(m -> m.about().equals("trip")))
                    .hasSize(6);
            assertThat(channel.got.stream().filter(m -> m.about().equals("unheard")))
                    .hasSize(1);
            ticker.advance(8 * 3600 * S + 31 * S);
            assertThat(channel.got.stream().filter(m -> m.about().equals("unheard")))
                    .hasSize(2);
        }
    }

    @Test
    void a_restart_keeps_what_is_undelivered_and_what_nobody_acknowledged() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake bad = new Fake("one", ticker);
        bad.outcome = new Outcome.Failed("no connection");
        NoticeBoard before = board(ticker, Optional.empty(), bad);
        before.tell(notice(ticker, Kind.TRIP, "heron"));
        before.tell(notice(ticker, Kind.MADE_SAFE, "heron"));
        before.tell(notice(ticker, Kind.UNHEARD, "robin"));
        before.acknowledge(Optional.of("robin"), "Ada");
        ticker.advance(10 * S);
        // ends without a word
        EventTicker later = at("2026-11-25T12:10:00Z");
        Fake good = new Fake("one", later);
        Fake fresh = new Fake("fresh", later);
        try (NoticeBoard again = board(later, Optional.empty(), good, fresh)) {
            later.advance(S);
            assertThat(good.abouts()).startsWith("trip", "unheard").contains("made-safe", "acknowledged");
            assertThat(fresh.got).as("a channel added since then").isEmpty();
            assertThat(again.open()).isEqualTo(1);
            later.advance(60 * S);
            assertThat(good.abouts()).endsWith("trip");
            assertThat(fresh.abouts()).containsExactly("trip");
        }
        EventTicker latest = at("2026-11-25T12:20:00Z");
        Fake third = new Fake("one", latest);
        try (NoticeBoard again = board(latest, Optional.empty(), third)) {
            latest.advance(S);
            assertThat(third.got).as("what was delivered is not sent again").isEmpty();
            assertThat(again.acknowledge(Optional.of("heron"), "Ada")).isEqualTo(1);
        }
        EventTicker days = at("2026-11-28T12:00:00Z");
        Fake fourth = new Fake("one", days);
        try (NoticeBoard again = board(days, Optional.empty(), fourth)) {
            days.advance(S);
            assertThat(fourth.got).isEmpty();
            assertThat(again.open()).isZero();
        }
    }

    @Test
    void what_was_held_in_the_quiet_hours_survives_a_restart_within_them() {
        EventTicker ticker = at("2026-11-25T23:00:00Z");
        NoticeBoard before = board(ticker, NIGHT, new Fake("one", ticker));
        before.tell(notice(ticker, Kind.UNHEARD, "heron"));
        before.tell(notice(ticker, Kind.BYPASSED, "robin"));
        EventTicker later = at("2026-11-26T01:00:00Z");
        Fake channel = new Fake("one", later);
        try (NoticeBoard again = board(later, NIGHT, channel)) {
            later.advance(3600 * S);
            assertThat(channel.got).isEmpty();
            assertThat(again.undelivered()).isEqualTo(2);
            later.advance(6 * 3600 * S);
            assertThat(channel.got.getFirst().notices()).hasSize(2);
        }
    }

    @Test
    void a_flood_is_bounded_and_the_most_urgent_stay() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake bad = new Fake("one", ticker);
        bad.outcome = new Outcome.Failed("no connection");
        try (NoticeBoard board = board(ticker, Optional.empty(), bad)) {
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            for (int i = 0; i < 3 * Lane.MOST; i++) {
                board.tell(notice(ticker, Kind.BYPASSED, "robin"));
            }
            assertThat(board.undelivered()).isEqualTo(Lane.MOST);
            bad.outcome = new Outcome.Delivered();
            ticker.advance(300 * S);
            assertThat(bad.abouts()).contains("trip").startsWith("trip");
            assertThat(kinds()).contains("notice-dropped");
        }
    }

    @Test
    void a_heartbeat_goes_out_steadily_and_its_failing_is_told_once() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        List<Long> beats = new ArrayList<>();
        List<Outcome> outcome = new ArrayList<>(List.of(new Outcome.Delivered()));
        Heartbeat heartbeat = new Heartbeat(
                ticker,
                60 * S,
                () -> {
                    beats.add(ticker.nanos());
                    return CompletableFuture.completedFuture(outcome.getFirst());
                },
                terminal::add);
        ticker.advance(125 * S);
        assertThat(beats).containsExactly(0L, 60 * S, 120 * S);
        outcome.set(0, new Outcome.Failed("no connection"));
        ticker.advance(600 * S);
        assertThat(terminal).singleElement().satisfies(n -> {
            assertThat(n.kind()).isEqualTo(Kind.HEARTBEAT_FAILED);
            assertThat(n.happened()).contains("no connection");
        });
        outcome.set(0, new Outcome.Delivered());
        ticker.advance(60 * S);
        assertThat(terminal.getLast().kind()).isEqualTo(Kind.HEARTBEAT_BACK);
        heartbeat.close();
        int sofar = beats.size();
        ticker.advance(600 * S);
        assertThat(beats).hasSize(sofar);
    }

    @Test
    void a_terminal_that_fails_keeps_nobody_else_from_hearing() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = new NoticeBoard(
                "brook lane",
                NoticeRules.none(),
                List.of(channel),
                n -> {
                    throw new IllegalStateException("gone");
                },
                journal,
                ticker)) {
            board.tell(notice(ticker, Kind.TRIP, "heron"));
            ticker.advance(0);
            assertThat(channel.abouts()).containsExactly("trip");
        }
    }

    @Test
    void an_entry_of_a_later_version_does_no_harm() {
        EventTicker ticker = at("2026-11-25T12:00:00Z");
        var appended = journal.append(new Journal.Entry(
                ticker.wallMillis(),
                "",
                "notice",
                new java.util.TreeMap<>(
                        java.util.Map.of("id", "x1", "about", "trip", "channels", "one", "printers", "heron"))));
        assertThat(appended).isCompleted();
        Fake channel = new Fake("one", ticker);
        try (NoticeBoard board = board(ticker, Optional.empty(), channel)) {
            ticker.advance(S);
            assertThat(channel.abouts()).containsExactly("trip");
            assertThat(board.open()).isEqualTo(1);
        }
    }
}
