package coldward.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.quantity.CannotRun;
import coldward.quantity.Ticker;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Over real sockets. Most tests move the clock by hand; one runs in real time. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class RigServerTest {

    private static final HttpClient CLIENT =
            HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();

    /** Held, so that its level is: the server's own log would drown the tests'. */
    private static final Logger QUIET = Logger.getLogger("io.helidon");

    private final Examples.HandTicker ticker = new Examples.HandTicker();
    private RigServer rig = start(ticker);
    /** A rig that somebody did something to is replaced before the next test. */
    private boolean used;

    private static RigServer start(Ticker ticker) {
        return RigServer.start(
                RigShop.of(Examples.shop("heron", "robin", "finch"), SimulatedPrinter.Start.PRINTING, 3), 0, ticker);
    }

    @BeforeAll
    static void hush() {
        QUIET.setLevel(Level.WARNING);
    }

    @BeforeEach
    void fresh() {
        if (used) {
            rig.close();
            rig = start(ticker);
            used = false;
        }
    }

    @AfterAll
    void end() {
        rig.close();
        CLIENT.close();
    }

    private HttpResponse<String> send(String method, String path, String body) throws Exception {
        return CLIENT.send(
                HttpRequest.newBuilder(URI.create(rig.url() + path))
                        .timeout(Duration.ofSeconds(5))
                        .method(
                                method,
                                body.isEmpty()
                                        ? HttpRequest.BodyPublishers.noBody()
                                        : HttpRequest.BodyPublishers.ofString(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    private JsonNode get(String path) throws Exception {
        HttpResponse<String> response = send("GET", path, "");
        assertThat(response.statusCode()).as(response.body()).isEqualTo(200);
        assertThat(response.headers().firstValue("content-type")).hasValue("application/json");
        return JsonMapper.shared().readTree(response.body());
    }

    private JsonNode post(String path) throws Exception {
        return post(path, "");
    }

    private JsonNode post(String path, String body) throws Exception {
        used = true;
        HttpResponse<String> response = send("POST", path, body);
        assertThat(response.statusCode()).as(response.body()).isEqualTo(200);
        return JsonMapper.shared().readTree(response.body());
    }

    /** Lets time go by; the rig makes up for at most two seconds at a time. */
    private void pass(String printer, double seconds) throws Exception {
        used = true;
        for (double left = seconds; left > 1e-9; left -= 1) {
            ticker.move(Math.min(1, left));
            get("/" + printer + "/job");
        }
    }

    @Test
    void thelayoutIsTheSheetsExample() throws Exception {
        // the shop file's example: /fan /speed_rpm, /heat /nozzle_degC, /job /feeding
        JsonNode fan = get("/heron/fan");
        assertThat(fan.propertyNames()).containsExactly("speed_rpm", "report", "commanded_share");
        assertThat(fan.get("speed_rpm").doubleValue()).isCloseTo(8000, within(150.0));
        assertThat(fan.get("report").longValue()).isEqualTo(1);
        assertThat(fan.get("commanded_share").doubleValue()).isEqualTo(1);

        JsonNode heat = get("/heron/heat");
        assertThat(heat.propertyNames())
                .containsExactly(
                        "nozzle_degC", "nozzle_target_degC", "cold_side_degC", "heater_power_W", "block_fan_share");
        assertThat(heat.get("nozzle_degC").doubleValue()).isEqualTo(235);
        assertThat(heat.get("nozzle_target_degC").doubleValue()).isEqualTo(235);
        assertThat(heat.get("cold_side_degC").doubleValue()).isCloseTo(33.6, within(1.0));
        assertThat(heat.get("heater_power_W").doubleValue()).isBetween(10.0, 40.0);
        assertThat(heat.get("block_fan_share").doubleValue()).isZero();

        assertThat(get("/heron/job").get("feeding").booleanValue()).isTrue();
        assertThat(get("/heron/power").get("on").booleanValue()).isTrue();
        assertThat(get("/").get("printers").valueStream().map(JsonNode::stringValue))
                .containsExactly("heron", "robin", "finch");
    }

    @Test
    void astopShowsAndTheResponseTakesEffect() throws Exception {
        pass("heron", 3);
        post("/heron/fail/stop");
        pass("heron", 4);
        assertThat(get("/heron/fan").get("speed_rpm").doubleValue()).isLessThan(2500);
        assertThat(get("/heron/fan").get("report").longValue()).isEqualTo(8);
        assertThat(get("/robin/fan").get("speed_rpm").doubleValue()).isGreaterThan(7500);

        post("/heron/do/heater-off");
        post("/heron/do/hold", "{\"reason\":\"any body will do\"}");
        post("/heron/do/block-fan");
        pass("heron", 2.5);
        assertThat(get("/heron/heat").get("nozzle_target_degC").doubleValue()).isZero();
        assertThat(get("/heron/heat").get("block_fan_share").doubleValue()).isEqualTo(1);
        assertThat(get("/heron/job").get("feeding").booleanValue()).isFalse();

        JsonNode truth = get("/heron/truth");
        assertThat(truth.get("rig_ms").doubleValue()).isEqualTo(9500);
        assertThat(truth.get("since_failure_ms").doubleValue()).isEqualTo(6500);
        assertThat(truth.at("/fan_failure/failure").stringValue()).isEqualTo("stop");
        assertThat(truth.at("/fan_failure/at_ms").doubleValue()).isEqualTo(3000);
        assertThat(truth.at("/actions/hold/asked_after_failure_ms").doubleValue())
                .isEqualTo(4000);
        assertThat(truth.at("/actions/hold/effective_after_failure_ms").doubleValue())
                .isEqualTo(6000);
        assertThat(truth.at("/actions/hold/in_effect").booleanValue()).isTrue();
        assertThat(truth.get("depth_limit_mm").doubleValue()).isEqualTo(3);
        assertThat(truth.get("fan_rpm").doubleValue()).isBetween(700.0, 1000.0);

        // whoever has the record can say how it will end
        PrinterRecord record = PrinterRecord.ofJson(truth.get("record"));
        assertThat(Aftermath.of(Examples.build(Examples.TACHOMETER), record, 900)
                        .kept())
                .isTrue();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        stop          |                    | 0    | 2500
        slow          |                    | 3900 | 4100
        slow          | {"fraction":0.25}  | 1900 | 2100
        fade          | {"minutes":0.1}    | 0    | 900
        fade          |                    | 7700 | 8000
        cut-signal    |                    | 0    | 0
        stuck-reading |                    | 7800 | 8200
        """)
    void everyFailureShowsAndIsMended(String word, String body, double least, double most) throws Exception {
        pass("finch", 1);
        JsonNode told = post("/finch/fail/" + word, body == null ? "" : body);
        assertThat(told.get("failure").stringValue()).isEqualTo(word);
        pass("finch", 6);
        assertThat(get("/finch/fan").get("speed_rpm").doubleValue()).isBetween(least, most);
        assertThat(get("/finch/truth").get("since_failure_ms").doubleValue()).isEqualTo(6000);

        post("/finch/mend");
        pass("finch", 8);
        assertThat(get("/finch/fan").get("speed_rpm").doubleValue()).isCloseTo(8000, within(200.0));
        assertThat(get("/finch/truth").has("since_failure_ms")).isFalse();
    }

    @Test
    void workStartsAndEndsAJob() throws Exception {
        post("/robin/do/heater-off");
        post("/robin/do/hold");
        pass("robin", 3);
        assertThat(get("/robin/job").get("feeding").booleanValue()).isFalse();
        post("/robin/work");
        assertThat(get("/robin/heat").get("nozzle_target_degC").doubleValue()).isEqualTo(235);
        assertThat(get("/robin/job").get("feeding").booleanValue()).isTrue();
        post("/robin/work", "{\"feeding\":false,\"nozzle_target_degC\":210}");
        assertThat(get("/robin/heat").get("nozzle_target_degC").doubleValue()).isEqualTo(210);
        assertThat(get("/robin/job").get("feeding").booleanValue()).isFalse();
        post("/robin/work", "{\"nozzle_target_degC\":0}");
        assertThat(get("/robin/heat").get("nozzle_target_degC").doubleValue()).isZero();
        post("/robin/do/power-off");
        pass("robin", 1);
        assertThat(get("/robin/power").get("on").booleanValue()).isFalse();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        GET    | /wren/fan              |                     | 404 | There is no printer 'wren' on this rig. There are: heron, robin, finch.
        GET    | /heron/nothing         |                     | 404 | There is nothing at 'nothing' of heron.
        GET    | /heron                 |                     | 404 | There is nothing at '' of heron.
        GET    | /heron/fan/more        |                     | 404 | There is nothing at 'fan' of heron.
        POST   | /heron/do/stop         |                     | 404 | There is no action 'stop'. There are: heater-off, hold, block-fan, power-off.
        POST   | /heron/do              |                     | 404 | Say what to do, for example /heron/do/hold.
        POST   | /heron/fail/explode    |                     | 404 | There is no failure 'explode'. There are: stop, slow, fade, cut-signal, stuck-reading.
        POST   | /heron/fail            |                     | 404 | Say what to fail, for example /heron/fail/stop.
        POST   | /heron/fan             |                     | 405 | /heron/fan answers to GET only.
        GET    | /heron/do/hold         |                     | 405 | /heron/do/hold answers to POST only.
        DELETE | /heron/work            |                     | 405 | /heron/work answers to POST only.
        POST   | /                      |                     | 405 | / answers to GET only.
        POST   | /heron/fail/slow       | {"fraction":1.5}    | 400 | fraction is 1.5 but must be between 0 and 1
        POST   | /heron/fail/slow       | {"fraction":"half"} | 400 | 'fraction' must be a number
        POST   | /heron/fail/slow       | {"share":0.5}       | 400 | The body has 'share', known here: fraction.
        POST   | /heron/fail/fade       | {"minutes":0}       | 400 | 'minutes' must be above 0
        POST   | /heron/fail/fade       | {"minutes":-1}      | 400 | 'minutes' must be above 0
        POST   | /heron/fail/stop       | {"minutes":1}       | 400 | nothing is said in this request's body
        POST   | /heron/fail/stop       | {"minutes":         | 400 | The body is not JSON
        POST   | /heron/fail/stop       | [1]                 | 400 | must be one JSON object
        POST   | /heron/work            | {"feeding":1}       | 400 | 'feeding' must be true or false
        POST   | /heron/work            | {"nozzle_target_degC":900} | 400 | must be between 0 and 600 degC
        POST   | /heron/do/hold         | not json            | 400 | The body is not JSON
        """)
    void errorsAreJsonWithAClearSentence(String method, String path, String body, int status, String sentence)
            throws Exception {
        HttpResponse<String> response = send(method, path, body == null ? "" : body);
        assertThat(response.statusCode()).as(response.body()).isEqualTo(status);
        assertThat(JsonMapper.shared().readTree(response.body()).get("error").stringValue())
                .contains(sentence);
        assertThat(response.headers().firstValue("allow").isPresent()).isEqualTo(status == 405);
        assertThat(get("/heron/truth").has("since_failure_ms"))
                .as("nothing was done")
                .isFalse();
    }

    @ParameterizedTest
    @ValueSource(strings = {"/heron/%2e%2e/fan", "//", "/heron//fan", "/%00", "/heron/fan?x=1"})
    void oddPathsNeverBreakIt(String path) throws Exception {
        assertThat(send("GET", path, "").statusCode()).isIn(200, 400, 404);
        assertThat(get("/heron/fan").has("report")).isTrue();
    }

    @Test
    void ahugeBodyIsRefused() throws Exception {
        HttpResponse<String> response = send("POST", "/heron/fail/stop", "{\"a\":\"" + "x".repeat(200_000) + "\"}");
        assertThat(response.statusCode()).isIn(400, 413);
        assertThat(get("/heron/truth").has("since_failure_ms")).isFalse();
    }

    @Test
    void aportInUseIsNamed() {
        assertThatThrownBy(() -> RigServer.start(
                        RigShop.of(Examples.shop("heron"), SimulatedPrinter.Start.COLD, 1), rig.port(), ticker))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("The rig cannot listen on port " + rig.port())
                .hasMessageContaining("in use")
                .hasMessageContaining("choose another port");
        assertThatThrownBy(() -> RigServer.start(
                        RigShop.of(Examples.shop("heron"), SimulatedPrinter.Start.COLD, 1), 70_000, ticker))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("ports go from 1 to 65535");
    }

    @Test
    void listensOnLoopbackOnlyAndGivesItsPortFree() throws Exception {
        int port = rig.port();
        for (InetAddress address :
                InetAddress.getAllByName(InetAddress.getLocalHost().getHostName())) {
            if (!address.isLoopbackAddress()) {
                assertThatThrownBy(() -> new java.net.Socket(address, port).close())
                        .isInstanceOf(java.io.IOException.class);
            }
        }
        used = true;
        rig.close();
        try (ServerSocket free = new ServerSocket()) {
            free.setReuseAddress(true);
            free.bind(new java.net.InetSocketAddress(InetAddress.getLoopbackAddress(), port));
            assertThat(free.isBound()).isTrue();
        }
    }

    @Test
    void manyCallersAtOnceAreAnsweredRightly() throws Exception {
        used = true;
        List<CompletableFuture<HttpResponse<String>>> answers = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            String path = List.of("/heron/fan", "/robin/heat", "/finch/truth").get(i % 3);
            answers.add(CLIENT.sendAsync(
                    HttpRequest.newBuilder(URI.create(rig.url() + path)).build(),
                    HttpResponse.BodyHandlers.ofString()));
            ticker.move(0.01);
        }
        for (CompletableFuture<HttpResponse<String>> answer : answers) {
            assertThat(answer.get(20, TimeUnit.SECONDS).statusCode()).isEqualTo(200);
        }
    }

    @Test
    void runsInRealTime() throws Exception {
        used = true;
        rig.close();
        try (ScheduledExecutorService executor = Executors.newSingleThreadScheduledExecutor()) {
            rig = start(new RealTicker(executor));
            JsonNode first = get("/heron/truth");
            long began = System.nanoTime();
            executor.schedule(() -> {}, 1200, TimeUnit.MILLISECONDS).get(10, TimeUnit.SECONDS);
            JsonNode second = get("/heron/truth");
            double elapsed = (System.nanoTime() - began) / 1e6;
            assertThat(second.get("rig_ms").doubleValue() - first.get("rig_ms").doubleValue())
                    .isCloseTo(elapsed, within(100.0));
            assertThat(get("/heron/fan").get("report").longValue()).isEqualTo(2);
            rig.close();
        }
    }

    private record RealTicker(ScheduledExecutorService executor) implements Ticker {
        @Override
        public long wallMillis() {
            return System.currentTimeMillis();
        }

        @Override
        public long nanos() {
            return System.nanoTime();
        }

        @Override
        public Pending after(long delayNanos, Runnable task) {
            ScheduledFuture<?> future = executor.schedule(task, delayNanos, TimeUnit.NANOSECONDS);
            return () -> future.cancel(false);
        }
    }
}
