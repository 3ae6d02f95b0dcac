package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What people see of a real watch: messages at a web address, acknowledgement, a bypass, measured latencies. */
class PeopleTest {

    /** Seeded wherever a secret belongs; must turn up nowhere. */
    private static final String MARKER = "marker-c0ffee-4711";

    @TempDir
    Path folder;

    /** A web address that keeps the events posted to it. */
    private static final class Receiver implements AutoCloseable {
        private final HttpServer server;
        private final List<JsonNode> events = new CopyOnWriteArrayList<>();

        Receiver() throws IOException {
            server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
            server.createContext("/", exchange -> {
                byte[] body = exchange.getRequestBody().readAllBytes();
                events.add(JsonMapper.shared().readTree(new String(body, StandardCharsets.UTF_8)));
                exchange.sendResponseHeaders(204, -1);
                exchange.close();
            });
            server.start();
        }

        String url() {
            return "http://127.0.0.1:" + server.getAddress().getPort() + "/" + MARKER;
        }

        JsonNode await(String type) throws InterruptedException {
            long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(40);
            while (System.nanoTime() < until) {
                for (JsonNode event : events) {
                    if (event.path("type").asString("").equals("coldward." + type)) {
                        return event;
                    }
                }
                TimeUnit.MILLISECONDS.sleep(50);
            }
            throw new AssertionError("no event " + type + " but " + events);
        }

        @Override
        public void close() {
            server.stop(0);
        }
    }

    private CommandRun run(Object... words) {
        CommandRun run = CommandRun.of(words);
        assertThat(run.out() + run.err()).doesNotContain(MARKER);
        return run;
    }

    private void addNotices(Path shop, String url, String more) throws IOException {
        Path secret = Files.writeString(shop.resolveSibling("pager.secret"), url + "\n");
        Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-------"));
        Files.writeString(
                shop,
                Files.readString(shop)
                        + "notices:\n  webhooks: [{name: pager, url_from: {file: pager.secret}, signed_by: {file: pager.secret}}]\n"
                        + more);
    }

    @Test
    void hearOfATripTakeNoticeAndHoldBack() throws Exception {
        try (RiggedShop shop = RiggedShop.in(folder, 5);
                Receiver receiver = new Receiver()) {
            Path file = shop.file();
            assertThat(run("notice", "try", file).code()).isEqualTo(3);
            addNotices(file, receiver.url(), "  heartbeat: {url_from: {file: pager.secret}, every: 5 s}\n");

            CommandRun tried = run("notice", "try", file, "--json");
            assertThat(tried.code()).as(tried.err()).isZero();
            OutputSchemas.assertFits("notice-try", tried.out());
            assertThat(receiver.await("try").path("data").path("line").asString())
                    .contains("brook lane");
            assertThat(run("acknowledge", file, "--name", "Ada").code())
                    .as("no watch runs")
                    .isEqualTo(4);

            try (WatchProcess watch = WatchProcess.on(file)) {
                watch.awaitState("turning");
                assertThat(receiver.await("alive").path("data").path("shop").asString())
                        .isEqualTo("brook lane");

                CommandRun bypass =
                        run("bypass", file, "heron", "--for", "2 s", "--name", "Ada", "--reason", "cleaning", "--json");
                assertThat(bypass.code()).as(bypass.err()).isZero();
                OutputSchemas.assertFits("bypass", bypass.out());
                watch.awaitNotice("bypassed");
                watch.awaitNotice("bypass-over");
                receiver.await("bypass-over");
                assertThat(run("bypass", file, "heron", "--for", "25 h", "--name", "Ada", "--reason", "x")
                                .code())
                        .isEqualTo(2);
                assertThat(run("bypass", file, "plover", "--for", "1min", "--name", "Ada", "--reason", "x")
                                .code())
                        .isEqualTo(3);
                assertThat(run("bypass", file, "heron", "--for", "1min", "--name", " ", "--reason", "x")
                                .code())
                        .isEqualTo(3);

                shop.failHeron("stop");
                watch.awaitNotice("made-safe");
                JsonNode trip = receiver.await("trip");
                assertThat(trip.path("subject").asString()).isEqualTo("heron");
                assertThat(trip.path("data").path("signal").asString()).isEqualTo("DANGER");
                receiver.await("made-safe");

                CommandRun seen = run("acknowledge", file, "heron", "--name", "Ada", "--json");
                assertThat(seen.code()).as(seen.err()).isZero();
                OutputSchemas.assertFits("acknowledge", seen.out());
                assertThat(seen.json().path("acknowledged").asInt()).isEqualTo(1);
                receiver.await("acknowledged");
                assertThat(run("acknowledge", file, "--name", "Ada").code()).isEqualTo(1);
                assertThat(run("acknowledge", file, "plover", "--name", "Ada").code())
                        .isEqualTo(3);
                watch.assertEveryLineFits();
                watch.stop();
                assertThat(watch.errors()).doesNotContain(MARKER);
            }
            measuredLatencies(file);
            assertThat(run("journal", "read", file, "--all").out())
                    .contains("notice-sent", "acknowledged", "bypass-over", "name: Ada");
            secretIsNowhereIn(file.resolveSibling("state"));
        }
    }

    private void measuredLatencies(Path file) throws IOException {
        CommandRun measured = run("latencies", file, "heron", "--json");
        assertThat(measured.code()).as(measured.err()).isBetween(0, 1);
        OutputSchemas.assertFits("latencies", measured.out());
        JsonNode sheet = measured.json().path("sheets").path(0);
        assertThat(sheet.path("responses").asInt()).isEqualTo(1);
        assertThat(sheet.path("latencies").size()).isGreaterThanOrEqualTo(3);

        Path heron = file.resolveSibling("heron.yaml");
        String before = Files.readString(heron);
        CommandRun written = run("latencies", file, "heron", "--write");
        assertThat(written.code()).as(written.err()).isZero();
        assertThat(written.out()).contains("->", "Margin", "Written to");
        String after = Files.readString(heron);
        assertThat(after).contains("link_latency");
        before.lines()
                .filter(l -> l.contains("#"))
                .forEach(l -> assertThat(after).contains(l.substring(l.indexOf('#'))));
        assertThat(run("sheet", "check", heron).code()).isZero();
        assertThat(run("latencies", file, "heron").code())
                .as("the sheet now holds what was measured")
                .isZero();
        assertThat(run("latencies", file, "plover").code()).isEqualTo(3);
    }

    private static void secretIsNowhereIn(Path state) throws IOException {
        try (Stream<Path> files = Files.walk(state)) {
            for (Path each : files.filter(Files::isRegularFile).toList()) {
                assertThat(new String(Files.readAllBytes(each), StandardCharsets.ISO_8859_1))
                        .as(each.toString())
                        .doesNotContain(MARKER);
            }
        }
    }

    /** What nobody could be told before a kill is told after the next start. */
    @Test
    void hearAfterAKillOfWhatDidNotReachThem() throws Exception {
        int port = OutputSchemaTest.freePort();
        try (RiggedShop shop = RiggedShop.in(folder, 6)) {
            addNotices(shop.file(), "http://127.0.0.1:" + port + "/" + MARKER, "");
            CommandRun nobody = run("notice", "try", shop.file(), "--json");
            assertThat(nobody.code()).isEqualTo(1);
            OutputSchemas.assertFits("notice-try", nobody.out());
            try (WatchProcess watch = WatchProcess.on(shop.file())) {
                watch.awaitState("turning");
                shop.failHeron("stop");
                watch.awaitNotice("made-safe");
                watch.killHard();
            }
            try (Receiver receiver = new Receiver()) {
                Files.writeString(shop.file().resolveSibling("pager.secret"), receiver.url() + "\n");
                try (WatchProcess watch = WatchProcess.on(shop.file())) {
                    assertThat(receiver.await("trip").path("subject").asString())
                            .isEqualTo("heron");
                    watch.stop();
                }
            }
        }
    }
}
