package coldward.links.http;

import static coldward.links.http.Ear.within;
import static coldward.links.http.TestLinks.spec;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.build.Action;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.LinkSpec.HttpAct;
import coldward.model.shop.LinkSpec.HttpRead;
import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.watch.Link;
import coldward.watch.Link.Answer;
import coldward.watch.Link.Trouble.Kind;
import coldward.watch.guard.Reads;
import java.io.IOException;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class HttpLinkTest {

    private static final long S = 1_000_000_000L;

    private final RealTicker ticker = new RealTicker();
    private final HttpLinks links = new HttpLinks(ticker);
    private final Ear ear = new Ear();
    private RawServer server;

    HttpLinkTest() throws IOException {
        server = new RawServer(Manners.turning(8000));
    }

    @BeforeEach
    void silence() {
        assertThat(ear.observations).isEmpty();
    }

    @AfterEach
    void end() throws IOException {
        links.close();
        ticker.close();
        server.close();
    }

    private Answer act(Link link, Action action) throws Exception {
        return link.request(action).toCompletableFuture().get(10, TimeUnit.SECONDS);
    }

    @Test
    void reads_are_scaled_and_each_path_is_fetched_once_a_poll() throws Exception {
        try (Link link = links.link(spec(server, 0.1, 1))) {
            link.start(ear);
            assertThat(within(10, () -> ear.observations.size() >= 5)).isTrue();
        }
        Reads reads = ear.observations.getFirst().reads();
        assertThat(reads.get(ReadName.SPEED)).isEqualTo(8000);
        assertThat(reads.get(ReadName.DUTY)).isEqualTo(1);
        assertThat(reads.get(ReadName.WORKING)).isEqualTo(1);
        assertThat(reads.get(ReadName.NOZZLE)).isEqualTo(508.15);
        assertThat(reads.has(ReadName.COLD_SIDE)).isFalse();
        assertThat(ear.troubles).isEmpty();
        long state = server.requests.stream()
                .filter(r -> r.path().equals("/heron/state"))
                .count();
        long heat = server.requests.stream()
                .filter(r -> r.path().equals("/heron/heat"))
                .count();
        assertThat(Math.abs(state - heat)).isLessThanOrEqualTo(1);
        assertThat(state - ear.observations.size()).isBetween(0L, 1L);
        assertThat(server.requests)
                .allMatch(r -> r.head().toLowerCase(java.util.Locale.ROOT).contains("x-token: open-sesame"));
        assertThat(server.mostOpen.get()).isLessThanOrEqualTo(2);
    }

    @Test
    void polls_keep_to_a_fixed_grid() throws Exception {
        try (Link link = links.link(spec(server, 0.1, 1))) {
            link.start(ear);
            assertThat(within(10, () -> ear.observations.size() >= 12)).isTrue();
        }
        long first = ear.observations.getFirst().at();
        long onGrid = ear.observations.stream()
                .filter(o -> (o.at() - first) % (S / 10) == 0)
                .count();
        // a loaded machine may be late now and then; it then says so by the actual time
        assertThat(onGrid).isGreaterThanOrEqualTo(4);
    }

    @Test
    void every_wrong_answer_is_counted_and_none_is_passed_on() throws Exception {
        for (Map.Entry<String, RawServer.Manner> wrong : Manners.wrongAnswers().entrySet()) {
            Ear one = new Ear();
            server.manner = wrong.getValue();
            try (Link link = links.link(spec(server, 0.05, 1))) {
                link.start(one);
                assertThat(within(10, () -> one.troubles.size() >= 2))
                        .as(wrong.getKey())
                        .isTrue();
                assertThat(one.observations).as(wrong.getKey()).isEmpty();
                server.manner = Manners.turning(8000);
                assertThat(within(10, () -> !one.observations.isEmpty()))
                        .as(wrong.getKey() + " mended")
                        .isTrue();
            }
        }
        assertThat(server.requests).noneMatch(r -> r.path().contains("elsewhere"));
    }

    @Test
    void each_kind_of_trouble_has_its_name() throws Exception {
        Map<String, Kind> kinds = Map.ofEntries(
                Map.entry("status 500", Kind.REFUSED),
                Map.entry("redirect", Kind.REFUSED),
                Map.entry("html", Kind.UNREADABLE),
                Map.entry("truncated", Kind.UNREADABLE),
                Map.entry("deep", Kind.UNREADABLE),
                Map.entry("not http", Kind.UNREADABLE),
                Map.entry("text for a number", Kind.WRONG_KIND),
                Map.entry("no speed", Kind.MISSING),
                Map.entry("absurd speed", Kind.IMPLAUSIBLE),
                Map.entry("infinite speed", Kind.IMPLAUSIBLE),
                Map.entry("huge", Kind.TOO_LONG));
        Map<String, RawServer.Manner> wrong = Manners.wrongAnswers();
        for (Map.Entry<String, Kind> expected : kinds.entrySet()) {
            Ear one = new Ear();
            server.manner = java.util.Objects.requireNonNull(wrong.get(expected.getKey()));
            // one read only, so that one answer gives one trouble
            Map<ReadName, HttpRead> speed = Map.of(ReadName.SPEED, new HttpRead("/state", "/fan/speed_rpm", 1, 0));
            try (Link link = links.link(spec(server, 0.05, 1, speed, Says.ALWAYS))) {
                link.start(one);
                assertThat(within(10, () -> !one.troubles.isEmpty())).isTrue();
            }
            assertThat(one.troubles.getFirst().kind()).as(expected.getKey()).isEqualTo(expected.getValue());
            assertThat(one.troubles.getFirst().detail()).hasSizeLessThan(400).doesNotContain("open-sesame", "\n");
        }
    }

    @Test
    void the_deadline_covers_the_whole_exchange_and_frees_the_connection() throws Exception {
        for (RawServer.Manner slow : new RawServer.Manner[] {Manners.dripping(200), Manners.silentAfterAccepting()}) {
            Ear one = new Ear();
            server.manner = slow;
            try (Link link = links.link(spec(server, 0.1, 0.4))) {
                long begin = System.nanoTime();
                link.start(one);
                assertThat(within(10, () -> !one.troubles.isEmpty())).isTrue();
                assertThat((System.nanoTime() - begin) / 1e9).isBetween(0.35, 4.0);
                assertThat(one.troubles.getFirst().kind()).isEqualTo(Kind.LATE);
                server.manner = Manners.turning(8000);
                assertThat(within(10, () -> !one.observations.isEmpty())).isTrue();
            }
        }
        // a drip notices at its next byte that nobody listens; connections do not pile up
        assertThat(within(10, () -> server.open.get() <= 4)).isTrue();
        assertThat(server.mostOpen.get()).isLessThanOrEqualTo(12);
    }

    @Test
    void an_endless_body_is_cut_off_by_its_size_long_before_the_deadline() throws Exception {
        server.manner = Manners.endless();
        try (Link link = links.link(spec(server, 0.1, 30))) {
            link.start(ear);
            assertThat(within(10, () -> !ear.troubles.isEmpty())).isTrue();
            assertThat(ear.troubles.getFirst().kind()).isEqualTo(Kind.TOO_LONG);
        }
    }

    @Test
    void a_connection_reset_within_the_body_is_trouble_and_no_more() throws Exception {
        server.manner = Manners.resetWithinBody();
        try (Link link = links.link(spec(server, 0.05, 1))) {
            link.start(ear);
            assertThat(within(10, () -> ear.troubles.size() >= 3)).isTrue();
            assertThat(ear.troubles.getFirst().kind()).isEqualTo(Kind.UNREACHABLE);
            server.manner = Manners.turning(8000);
            assertThat(within(10, () -> !ear.observations.isEmpty())).isTrue();
        }
    }

    @Test
    void polls_grow_rarer_while_nobody_answers() throws Exception {
        server.goAway();
        try (Link link = links.link(spec(server, 0.05, 1))) {
            link.start(ear);
            Ear.pause(2);
            // 0.05, 0.05, 0.1, 0.2 ... s apart: two paths each; without back-off it would be 80
            assertThat(ear.troubles.size()).isBetween(4, 24);
            server.comeBack();
            assertThat(within(10, () -> !ear.observations.isEmpty())).isTrue();
        }
    }

    @Test
    void one_poll_is_under_way_at_a_time() throws Exception {
        server.manner = (s, request, out, socket) -> {
            s.pause(250);
            Manners.turning(8000).answer(s, request, out, socket);
        };
        try (Link link = links.link(spec(server, 0.05, 2))) {
            link.start(ear);
            assertThat(within(10, () -> ear.observations.size() >= 4)).isTrue();
            assertThat(server.mostOpen.get()).isLessThanOrEqualTo(2);
        }
    }

    @Test
    void an_action_is_requested_as_mapped() throws Exception {
        try (Link link = links.link(spec(server, 0.5, 1))) {
            assertThat(act(link, Action.HOLD)).isEqualTo(new Answer.Taken());
            assertThat(act(link, Action.HEATER_OFF)).isEqualTo(new Answer.Taken());
            assertThat(act(link, Action.POWER_OFF)).isInstanceOf(Answer.Refused.class);
        }
        RawServer.Request hold = server.requests.get(0);
        assertThat(hold.method()).isEqualTo("POST");
        assertThat(hold.path()).isEqualTo("/heron/do/hold");
        RawServer.Request heater = server.requests.get(1);
        assertThat(heater.method()).isEqualTo("PUT");
        assertThat(heater.body()).isEqualTo("{\"target_degC\": 0}");
        assertThat(heater.head().toLowerCase(java.util.Locale.ROOT)).contains("content-type: application/json");
    }

    @Test
    void an_action_does_not_queue_behind_a_hanging_poll() throws Exception {
        server.manner = (s, request, out, socket) -> {
            if (request.method().equals("GET")) {
                s.pause(20_000);
            }
            RawServer.send(out, "200 OK", "application/json", "{}");
        };
        try (Link link = links.link(spec(server, 0.1, 10))) {
            link.start(ear);
            assertThat(within(10, () -> server.requests.size() >= 2)).isTrue();
            long begin = System.nanoTime();
            assertThat(act(link, Action.HOLD)).isEqualTo(new Answer.Taken());
            assertThat((System.nanoTime() - begin) / 1e9).isLessThan(5);
        }
    }

    @Test
    void an_action_that_is_refused_redirected_or_not_answered_says_so() throws Exception {
        Map<String, RawServer.Manner> wrong = Manners.wrongAnswers();
        try (Link link = links.link(spec(server, 0.1, 0.4))) {
            server.manner = java.util.Objects.requireNonNull(wrong.get("status 500"));
            assertThat(act(link, Action.HOLD)).isEqualTo(new Answer.Refused("status 500"));
            server.manner = java.util.Objects.requireNonNull(wrong.get("redirect"));
            assertThat(act(link, Action.HOLD)).isInstanceOf(Answer.Refused.class);
            server.manner = Manners.silentAfterAccepting();
            assertThat(act(link, Action.HOLD)).isEqualTo(new Answer.Failed("no complete answer within 0.4 s"));
            server.goAway();
            assertThat(act(link, Action.HOLD)).isInstanceOf(Answer.Failed.class);
            server.comeBack();
            server.manner = RawServer.json("{}");
            assertThat(act(link, Action.HOLD)).isEqualTo(new Answer.Taken());
            // the status is what counts; a body that drips holds nobody up
            server.manner = Manners.dripping(200);
            assertThat(act(link, Action.HOLD)).isEqualTo(new Answer.Taken());
        }
    }

    @Test
    void what_the_guard_does_not_judge_by_is_left_out_alone_and_a_null_there_says_nothing() throws Exception {
        Map<ReadName, HttpRead> reads = new EnumMap<>(ReadName.class);
        reads.put(ReadName.SPEED, new HttpRead("/state", "/speed", 1, 0));
        reads.put(ReadName.COLD_SIDE, new HttpRead("/state", "/cold", 1, 273.15));
        reads.put(ReadName.AIR, new HttpRead("/state", "/air", 1, 273.15));
        server.manner = RawServer.json("{\"speed\": 8000, \"cold\": -300, \"air\": null}");
        try (Link link = links.link(spec(server, 0.05, 1, reads, Says.ALWAYS))) {
            link.start(ear);
            assertThat(within(10, () -> !ear.observations.isEmpty())).isTrue();
        }
        assertThat(ear.observations.getFirst().reads()).isEqualTo(Reads.ofSpeed(8000));
        assertThat(ear.troubles).allMatch(t -> t.kind() == Kind.IMPLAUSIBLE);
    }

    @Test
    void with_on_change_an_answer_without_speed_is_a_sign_of_life() throws Exception {
        Map<ReadName, HttpRead> reads = Map.of(
                ReadName.SPEED, new HttpRead("/state", "/speed", 1, 0),
                ReadName.DUTY, new HttpRead("/state", "/duty", 1, 0));
        server.manner = RawServer.json("{\"speed\": null, \"duty\": 0.5}");
        try (Link link = links.link(spec(server, 0.05, 1, reads, Says.ON_CHANGE))) {
            link.start(ear);
            assertThat(within(10, () -> !ear.observations.isEmpty())).isTrue();
        }
        assertThat(ear.observations.getFirst().reads().has(ReadName.SPEED)).isFalse();
        assertThat(ear.troubles).isEmpty();
    }

    @Test
    void after_closing_nothing_is_delivered_or_sent() throws Exception {
        server.manner = Manners.silentAfterAccepting();
        Link link = links.link(spec(server, 0.05, 30));
        link.start(ear);
        assertThat(within(10, () -> !server.requests.isEmpty())).isTrue();
        long begin = System.nanoTime();
        link.close();
        assertThat((System.nanoTime() - begin) / 1e9).isLessThan(5);
        int sent = server.requests.size();
        Ear.pause(0.3);
        assertThat(server.requests.size() - sent).isLessThanOrEqualTo(1);
        assertThat(ear.observations).isEmpty();
        assertThat(ear.troubles).isEmpty();
        assertThat(act(link, Action.HOLD)).isInstanceOf(Answer.Failed.class);
    }

    @Test
    void what_cannot_be_sent_is_refused_when_the_link_is_made_without_showing_secrets() {
        Map<String, LinkSpec.Http> wrong = Map.of(
                "not a URL", http("lalala", "/state", Map.of()),
                "another scheme", http("ftp://localhost", "/state", Map.of()),
                "a space", http("http://localhost", "/a b", Map.of()),
                "a header with a line break", http("http://localhost", "/state", Map.of("X-Token", "secret\r\nX: y")),
                "a header that is the client's", http("http://localhost", "/state", Map.of("Host", "secret")),
                "no reads",
                        new LinkSpec.Http(
                                "http://localhost", 1, 1, Says.ALWAYS, Map.of(), Map.of(), Map.of(), Map.of()),
                "a bad method",
                        new LinkSpec.Http(
                                "http://localhost",
                                1,
                                1,
                                Says.ALWAYS,
                                TestLinks.READS,
                                Map.of(Action.HOLD, new HttpAct("P OST", "/hold", Optional.empty())),
                                Map.of(),
                                Map.of()));
        Set<String> refused = new HashSet<>();
        wrong.forEach((what, spec) -> {
            assertThatThrownBy(() -> links.link(spec))
                    .as(what)
                    .isInstanceOf(InputError.class)
                    .hasMessageNotContaining("secret")
                    .hasNoCause();
            refused.add(what);
        });
        assertThat(refused).hasSize(7);
    }

    private static LinkSpec.Http http(String base, String path, Map<String, String> headers) {
        return new LinkSpec.Http(
                base,
                1,
                1,
                Says.ALWAYS,
                Map.of(ReadName.SPEED, new HttpRead(path, "/fan", 1, 0)),
                Map.of(),
                Map.of(),
                headers);
    }

    @Test
    void closing_all_links_ends_hanging_exchanges_at_once() throws Exception {
        server.manner = Manners.silentAfterAccepting();
        Link link = links.link(spec(server, 0.05, 30));
        var hanging = link.request(Action.HOLD).toCompletableFuture();
        assertThat(within(10, () -> !server.requests.isEmpty())).isTrue();
        assertThatThrownBy(() -> hanging.get(50, TimeUnit.MILLISECONDS)).isInstanceOf(TimeoutException.class);
        links.close();
        assertThat(hanging.get(10, TimeUnit.SECONDS)).isInstanceOf(Answer.Failed.class);
    }
}
