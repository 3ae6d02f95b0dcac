package coldward.links.http;

import static coldward.links.http.Ear.within;
import static org.assertj.core.api.Assertions.assertThat;

import coldward.links.http.RawServer.Manner;
import coldward.model.build.Action;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.LinkSpec.Says;
import coldward.watch.History;
import coldward.watch.Notice;
import coldward.watch.PrinterView;
import coldward.watch.ResponsePlan;
import coldward.watch.Watch;
import coldward.watch.WatchedPrinter;
import coldward.watch.guard.FanState;
import coldward.watch.guard.GuardSettings;
import coldward.watch.replay.MemoryJournal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;

/** A whole shop on real sockets, each printer's server going wrong in a way of its own. */
class BadInputTest {

    private static final long S = 1_000_000_000L;

    /** Trips of 5200 rpm, unheard after 1.2 s. */
    private static GuardSettings settings() {
        return new GuardSettings(
                5200, 3, S, S / 10, 323.15, Says.ALWAYS, 6 * S / 5, OptionalLong.empty(), 4, false, 2 * S);
    }

    private static Map<String, Manner> allWrong() {
        Map<String, Manner> wrong = new LinkedHashMap<>(Manners.wrongAnswers());
        wrong.put("half open", Manners.silentAfterAccepting());
        wrong.put("slow drip", Manners.dripping(200));
        wrong.put("endless", Manners.endless());
        wrong.put("reset", Manners.resetWithinBody());
        return wrong;
    }

    @Test
    void whatever_a_server_does_the_watch_stays_up_hears_of_it_in_time_and_recovers() throws Exception {
        Map<String, Manner> wrong = allWrong();
        Map<String, RawServer> servers = new LinkedHashMap<>();
        List<WatchedPrinter> printers = new ArrayList<>();
        for (String name : wrong.keySet()) {
            add(name, servers, printers);
        }
        add("no server", servers, printers);
        add("well", servers, printers);
        List<Notice> notices = new CopyOnWriteArrayList<>();
        Map<String, Long> unheardAt = new ConcurrentHashMap<>();
        try (RealTicker ticker = new RealTicker();
                HttpLinks links = new HttpLinks(ticker);
                Watch watch = new Watch(
                        printers,
                        p -> links.link((LinkSpec.Http) p.link()),
                        new MemoryJournal(),
                        History.none(),
                        notices::add,
                        ticker)) {
            watch.onView(view -> {
                if (view.fan() == FanState.UNHEARD) {
                    unheardAt.putIfAbsent(view.printer(), ticker.nanos());
                }
            });
            assertThat(within(30, () -> watch.views().stream().allMatch(v -> v.fan() == FanState.TURNING)))
                    .as("%s", watch.views())
                    .isTrue();
            unheardAt.clear();

            long broken = ticker.nanos();
            for (Map.Entry<String, Manner> each : wrong.entrySet()) {
                server(servers, each.getKey()).manner = each.getValue();
            }
            server(servers, "no server").goAway();
            assertThat(within(20, () -> unheardAt.size() == wrong.size() + 1)).isTrue();
            // unheard_after, and what a loaded machine may add
            assertThat(unheardAt)
                    .allSatisfy((name, at) ->
                            assertThat((at - broken) / 1e9).as(name).isBetween(1.0, 6.0));
            assertThat(watch.view("well").fan()).isEqualTo(FanState.TURNING);

            assertThat(within(
                            5,
                            () -> notices.stream()
                                    .anyMatch(n -> n.kind() == Notice.Kind.UNHEARD
                                            && n.printers().size() > 5)))
                    .isTrue();
            for (String name : wrong.keySet()) {
                server(servers, name).manner = Manners.turning(8000);
            }
            server(servers, "no server").comeBack();
            assertThat(within(30, () -> watch.views().stream().allMatch(v -> v.fan() == FanState.TURNING)))
                    .as("%s", watch.views())
                    .isTrue();
            assertThat(watch.views())
                    .filteredOn(v -> !v.printer().equals("well"))
                    .allSatisfy(v -> assertThat(v.link().troubles()).isPositive());
            // a loaded machine may be late once; the others had dozens
            assertThat(watch.view("well").link().troubles()).isLessThan(5);
            assertThat(notices).extracting(Notice::kind).doesNotContain(Notice.Kind.TRIP, Notice.Kind.FAULT);
            assertThat(notices)
                    .anyMatch(
                            n -> n.kind() == Notice.Kind.UNHEARD && n.printers().size() > 5);
        } finally {
            for (RawServer server : servers.values()) {
                server.close();
            }
        }
    }

    @Test
    void a_stopped_fan_trips_and_is_made_safe_over_the_socket() throws Exception {
        Map<String, RawServer> servers = new LinkedHashMap<>();
        List<WatchedPrinter> printers = new ArrayList<>();
        add("heron", servers, printers);
        RawServer server = server(servers, "heron");
        double[] speed = {8000};
        boolean[] feeding = {true};
        long[] number = {0};
        server.manner = (s, request, out, socket) -> {
            if (request.method().equals("POST")) {
                feeding[0] = false;
            }
            RawServer.send(
                    out,
                    "200 OK",
                    "application/json",
                    "{\"fan\": {\"speed_rpm\": %s, \"duty\": 100, \"report\": %d}, \"feeding\": %s, \"nozzle_degC\": 235, \"target_degC\": 235}"
                            .formatted(speed[0], number[0]++, feeding[0]));
        };
        try (server;
                RealTicker ticker = new RealTicker();
                HttpLinks links = new HttpLinks(ticker);
                Watch watch = new Watch(
                        printers,
                        p -> links.link((LinkSpec.Http) p.link()),
                        new MemoryJournal(),
                        History.none(),
                        n -> {},
                        ticker)) {
            assertThat(within(20, () -> watch.view("heron").fan() == FanState.TURNING))
                    .isTrue();
            speed[0] = 0;
            assertThat(within(
                            10,
                            () -> watch.view("heron")
                                    .trip()
                                    .map(t -> t.outcome() == PrinterView.Outcome.SAFE)
                                    .orElse(false)))
                    .isTrue();
            PrinterView.TripView trip = watch.view("heron").trip().orElseThrow();
            assertThat(trip.secondsToSafe().orElseThrow()).isBetween(0.2, 6.0);
            assertThat(feeding[0]).isFalse();
        }
    }

    private static void add(String name, Map<String, RawServer> servers, List<WatchedPrinter> printers)
            throws java.io.IOException {
        RawServer server = new RawServer(Manners.turning(8000));
        servers.put(name, server);
        LinkSpec.Http spec = TestLinks.spec(server, 0.1, 0.4);
        printers.add(new WatchedPrinter(
                name,
                settings(),
                new ResponsePlan(EnumSet.of(Action.HOLD), List.of(), spec.acts().keySet(), spec.proofs(), 3, 0),
                spec));
    }

    private static RawServer server(Map<String, RawServer> servers, String name) {
        return java.util.Objects.requireNonNull(servers.get(name));
    }
}
