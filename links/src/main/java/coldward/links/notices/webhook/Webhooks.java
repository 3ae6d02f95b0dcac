package coldward.links.notices.webhook;

import coldward.links.notices.CloudEvent;
import coldward.model.shop.ChannelSpec;
import coldward.model.shop.NoticeRules;
import coldward.model.shop.Secret;
import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.notices.Message;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.function.Supplier;

/**
 * The web addresses of a shop, heartbeat included. They share one client. Redirects are not followed (the web hook
 * specification, section 2.2, forbids it) and no proxy is used.
 */
public final class Webhooks implements AutoCloseable {

    private static final Duration CONNECT = Duration.ofSeconds(10);

    /** s for one sign of life, everything included (own choice). */
    private static final double HEARTBEAT_LIMIT = 10;

    private final ExecutorService threads;
    private final HttpClient client;
    private final Ticker ticker;

    /** @param ticker the clock */
    public Webhooks(Ticker ticker) {
        this.ticker = ticker;
        threads = Executors.newVirtualThreadPerTaskExecutor();
        client = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .followRedirects(HttpClient.Redirect.NEVER)
                .proxy(HttpClient.Builder.NO_PROXY)
                .connectTimeout(CONNECT)
                .executor(threads)
                .build();
    }

    /**
     * The channel to one address.
     *
     * @throws InputError if a header cannot be sent
     */
    public Channel channel(ChannelSpec.Webhook spec) {
        return new Address(spec);
    }

    /**
     * What sends one sign of life each time it is asked.
     *
     * @param shop the shop's name
     * @param ids unique ids
     * @param counts printers by the state of their fan, as they stand
     */
    public Supplier<CompletionStage<Outcome>> heartbeat(
            NoticeRules.Heartbeat spec, String shop, Supplier<String> ids, Supplier<Map<String, Long>> counts) {
        HttpRequest.Builder ready = request(spec.url(), spec.headers());
        return () -> post(
                ready.copy(),
                CloudEvent.alive(ids.get(), shop, ticker.wallMillis(), counts.get()),
                Optional.empty(),
                spec.place(),
                HEARTBEAT_LIMIT);
    }

    private static HttpRequest.Builder request(Secret url, Map<String, Secret> headers) {
        HttpRequest.Builder request =
                HttpRequest.newBuilder(URI.create(url.value())).header("Content-Type", CloudEvent.MEDIA_TYPE);
        headers.forEach((name, value) -> {
            try {
                request.header(name, value.value());
            } catch (IllegalArgumentException e) {
                // its message may hold the value
                throw new InputError("header " + name, "header " + name + " cannot be sent by this program");
            }
        });
        return request;
    }

    private CompletionStage<Outcome> post(
            HttpRequest.Builder request, String event, Optional<Secret> key, String place, double limit) {
        byte[] body = event.getBytes(StandardCharsets.UTF_8);
        key.ifPresent(k -> Signature.headers(k, CloudEvent.MEDIA_TYPE, body, ticker.wallMillis() / 1000)
                .forEach(request::header));
        HttpRequest whole = request.POST(BodyPublishers.ofByteArray(body)).build();
        try {
            // the client does some of its work on the caller's thread, which has better to do
            return CompletableFuture.supplyAsync(
                            () -> Post.send(client, whole, place, Math.round(limit * 1e9), ticker), threads)
                    .thenCompose(sent -> sent);
        } catch (RejectedExecutionException e) {
            return CompletableFuture.completedFuture(new Outcome.Failed("the watch ends"));
        }
    }

    @Override
    public void close() {
        client.shutdownNow();
        threads.shutdownNow();
    }

    /** One address. */
    private final class Address implements Channel {
        private final ChannelSpec.Webhook spec;
        private final HttpRequest.Builder ready;

        Address(ChannelSpec.Webhook spec) {
            this.spec = spec;
            this.ready = request(spec.url(), spec.headers());
        }

        @Override
        public String name() {
            return spec.name();
        }

        @Override
        public CompletionStage<Outcome> send(Message message) {
            return post(ready.copy(), CloudEvent.of(message), spec.signedBy(), spec.place(), spec.timeLimit());
        }

        @Override
        public void close() {
            // the client is the shop's; what is under way ends by its own deadline
        }
    }
}
