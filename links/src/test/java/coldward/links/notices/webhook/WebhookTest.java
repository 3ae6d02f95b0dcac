package coldward.links.notices.webhook;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.links.notices.BadServer;
import coldward.links.notices.ChannelContract;
import coldward.model.shop.ChannelSpec;
import coldward.model.shop.NoticeRules;
import coldward.model.shop.Secret;
import coldward.watch.Notice;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.notices.Message;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.OffsetDateTime;
import java.util.Base64;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class WebhookTest extends ChannelContract {

    private final Webhooks webhooks = new Webhooks(ticker);

    /** A real server that notes what it gets. */
    private static final class Receiver implements AutoCloseable {
        final HttpServer server;
        final Map<String, String> headers = new HashMap<>();
        volatile String body = "";
        volatile String path = "";
        volatile int status = 204;

        Receiver() throws IOException {
            server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
            server.createContext("/", exchange -> {
                exchange.getRequestHeaders().forEach((name, values) -> headers.put(name, values.getFirst()));
                path = exchange.getRequestMethod() + " " + exchange.getRequestURI();
                body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
                if (status == 429) {
                    exchange.getResponseHeaders().set("Retry-After", "17");
                }
                if (status == 302) {
                    exchange.getResponseHeaders().set("Location", "/elsewhere");
                }
                exchange.sendResponseHeaders(status, -1);
                exchange.close();
            });
            server.start();
        }

        int port() {
            return server.getAddress().getPort();
        }

        @Override
        public void close() {
            server.stop(0);
        }
    }

    @AfterEach
    void end() {
        webhooks.close();
    }

    @Override
    protected Channel channelTo(int port) {
        return webhooks.channel(new ChannelSpec.Webhook(
                "pager",
                new Secret("http://127.0.0.1:" + port + "/hook/" + MARKER + "?access_token=" + MARKER),
                "http://127.0.0.1:" + port,
                Map.of("Authorization", new Secret("Bearer " + MARKER)),
                Optional.of(new Secret(MARKER)),
                LIMIT));
    }

    @Override
    protected BadServer.Manner refusing() {
        return (server, in, out) -> {
            out.write("HTTP/1.1 404 Not Found\r\nContent-Length: 0\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
            out.flush();
            server.pause(200);
        };
    }

    @Override
    protected String beginning() {
        return "HTTP/1.1 200 OK\r\nContent-Type: text/plain; charset=utf-8\r\nX-Padding: ";
    }

    @Test
    void is_delivered_and_no_secret_is_in_the_body() throws Exception {
        try (Receiver receiver = new Receiver();
                Channel channel = channelTo(receiver.port())) {
            assertThat(send(channel)).isInstanceOf(Outcome.Delivered.class);
            assertThat(receiver.path).isEqualTo("POST /hook/" + MARKER + "?access_token=" + MARKER);
            assertThat(receiver.headers.get("Authorization")).isEqualTo("Bearer " + MARKER);
            assertThat(receiver.body).doesNotContain(MARKER).contains("heron");
        }
    }

    /** A body that drips after a good status holds nothing up: the status is the answer. */
    @Test
    void a_body_that_never_ends_does_not_matter() throws Exception {
        try (BadServer server = new BadServer((s, in, out) -> {
                    out.write("HTTP/1.1 200 OK\r\nContent-Length: 100000\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
                    out.flush();
                    s.pause(60_000);
                });
                Channel channel = channelTo(server.port())) {
            assertThat(send(channel)).isInstanceOf(Outcome.Delivered.class);
        }
    }

    /** HTTP 1.1 Web Hooks for Event Delivery 1.0.2, section 2.2. */
    @Test
    void status_codes_mean_what_the_web_hook_specification_says() throws Exception {
        try (Receiver receiver = new Receiver();
                Channel channel = channelTo(receiver.port())) {
            for (int good : new int[] {200, 201, 202, 204}) {
                receiver.status = good;
                assertThat(send(channel)).as("status " + good).isInstanceOf(Outcome.Delivered.class);
            }
            for (int bad : new int[] {302, 400, 401, 410, 415}) {
                receiver.status = bad;
                assertThat(send(channel)).as("status " + bad).isInstanceOf(Outcome.Refused.class);
            }
            assertThat(receiver.path).as("redirects are not followed").doesNotContain("elsewhere");
            receiver.status = 503;
            assertThat(send(channel)).isEqualTo(new Outcome.Failed("the receiver answers with status 503"));
            receiver.status = 429;
            assertThat(send(channel)).isEqualTo(new Outcome.Failed("the receiver answers with status 429", 17));
        }
    }

    /**
     * CloudEvents 1.0.2 (spec.md, "Context Attributes"): id, source, specversion and type are required; source is a
     * non-empty URI-reference, specversion is 1.0, time is RFC 3339; names are lower-case letters and digits. JSON event
     * format 1.0.2: media type in section 3, data as a JSON value in section 3.1.1.
     */
    @Test
    void is_a_cloud_event_in_structured_mode() throws Exception {
        try (Receiver receiver = new Receiver();
                Channel channel = channelTo(receiver.port())) {
            Message repeat = new Message("id-1-2", "brook lane", List.of(trip()), 2, Optional.of("id-1"), false);
            assertThat(send(channel, repeat)).isInstanceOf(Outcome.Delivered.class);
            assertThat(receiver.headers.get("Content-type")).startsWith("application/cloudevents+json");
            JsonNode event = JsonMapper.shared().readTree(receiver.body);
            assertThat(event.path("specversion").asString()).isEqualTo("1.0");
            assertThat(event.path("id").asString()).isEqualTo("id-1-2");
            assertThat(java.net.URI.create(event.path("source").asString()).toString())
                    .isEqualTo("urn:coldward:shop:brook%20lane");
            assertThat(event.path("type").asString()).isEqualTo("coldward.trip");
            assertThat(event.path("subject").asString()).isEqualTo("heron");
            assertThat(OffsetDateTime.parse(event.path("time").asString())
                            .toInstant()
                            .toEpochMilli())
                    .isEqualTo(1_795_600_000_000L);
            assertThat(event.path("datacontenttype").asString()).isEqualTo("application/json");
            event.propertyNames().forEach(name -> assertThat(name).matches("[a-z0-9]{1,20}"));
            JsonNode data = event.path("data");
            assertThat(data.path("repeat").asInt()).isEqualTo(2);
            assertThat(data.path("repeats_id").asString()).isEqualTo("id-1");
            JsonNode notice = data.path("notices").path(0);
            assertThat(notice.path("signal").asString()).isEqualTo("DANGER");
            assertThat(notice.path("printers").path(0).asString()).isEqualTo("heron");
            for (String sentence : List.of("happened", "done", "next")) {
                assertThat(notice.path(sentence).asString()).isNotBlank();
            }
        }
    }

    @Test
    void the_heartbeat_is_an_event_too() throws Exception {
        try (Receiver receiver = new Receiver()) {
            NoticeRules.Heartbeat spec = new NoticeRules.Heartbeat(
                    new Secret("http://127.0.0.1:" + receiver.port() + "/" + MARKER), "http://127.0.0.1", Map.of(), 60);
            Outcome outcome = webhooks.heartbeat(
                            spec, "brook lane", () -> "beat-1", () -> Map.of("turning", 2L, "tripped", 1L))
                    .get()
                    .toCompletableFuture()
                    .get(5, TimeUnit.SECONDS);
            assertThat(outcome).isInstanceOf(Outcome.Delivered.class);
            JsonNode event = JsonMapper.shared().readTree(receiver.body);
            assertThat(event.path("type").asString()).isEqualTo("coldward.alive");
            assertThat(event.path("data").path("printers").path("turning").asInt())
                    .isEqualTo(2);
        }
    }

    /** RFC 9421, appendix B.2.5: signing with hmac-sha256. */
    @Test
    void signs_as_the_example_of_the_standard() {
        Map<String, String> covered = new LinkedHashMap<>();
        covered.put("date", "Tue, 20 Apr 2021 02:07:55 GMT");
        covered.put("@authority", "example.com");
        covered.put("content-type", "application/json");
        String base = Signature.base(
                covered, "(\"date\" \"@authority\" \"content-type\");created=1618884473;keyid=\"test-shared-secret\"");
        byte[] key = Base64.getDecoder()
                .decode("uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==");
        assertThat(Signature.sign(key, base)).isEqualTo("pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=");
    }

    @Test
    void a_receiver_can_check_the_signature() throws Exception {
        try (Receiver receiver = new Receiver();
                Channel channel = channelTo(receiver.port())) {
            assertThat(send(channel)).isInstanceOf(Outcome.Delivered.class);
            String digest = Objects.requireNonNull(receiver.headers.get("Content-digest"));
            byte[] hash = MessageDigest.getInstance("SHA-256").digest(receiver.body.getBytes(StandardCharsets.UTF_8));
            // RFC 9530 section 2
            assertThat(digest).isEqualTo("sha-256=:" + Base64.getEncoder().encodeToString(hash) + ":");
            String parameters = Objects.requireNonNull(receiver.headers.get("Signature-input"))
                    .replaceFirst("^coldward=", "");
            Map<String, String> covered = new LinkedHashMap<>();
            covered.put("@method", "POST");
            covered.put("content-type", Objects.requireNonNull(receiver.headers.get("Content-type")));
            covered.put("content-digest", digest);
            assertThat(receiver.headers.get("Signature"))
                    .isEqualTo("coldward=:"
                            + Signature.sign(
                                    MARKER.getBytes(StandardCharsets.US_ASCII), Signature.base(covered, parameters))
                            + ":");
        }
    }

    @Test
    void control_characters_in_a_machines_words_do_not_break_the_event() throws Exception {
        try (Receiver receiver = new Receiver();
                Channel channel = channelTo(receiver.port())) {
            Notice odd = new Notice(0, List.of("heron"), Notice.Kind.TRIP, "a\r\nb\u0000\"}", "c", "d");
            assertThat(send(channel, Message.of("id-2", "brook lane", odd))).isInstanceOf(Outcome.Delivered.class);
            assertThat(JsonMapper.shared()
                            .readTree(receiver.body)
                            .path("data")
                            .path("notices")
                            .path(0)
                            .path("happened")
                            .asString())
                    .isEqualTo("a\r\nb\u0000\"}");
        }
    }
}
