package coldward.links.notices.webhook;

import coldward.quantity.Ticker;
import coldward.watch.notices.Channel.Outcome;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodySubscriber;
import java.net.http.HttpResponse.ResponseInfo;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;
import org.jspecify.annotations.Nullable;

/**
 * One request of which only the status matters: it is known with the headers, so nothing waits for a body, and a body is
 * read to its end only where it is short, to keep the connection. A deadline ends it all; the client's own time limit
 * would end with the headers.
 */
final class Post {

    /** Bytes of a body that are read before the connection is given up. */
    private static final int SHORT = 16_384;

    private final CompletableFuture<Outcome> outcome = new CompletableFuture<>();
    private final Discarded body = new Discarded();

    private Post() {}

    /**
     * Sends it.
     *
     * @param place what people may see of the address
     * @param limitNanos for all of it
     */
    static CompletionStage<Outcome> send(
            HttpClient client, HttpRequest request, String place, long limitNanos, Ticker ticker) {
        Post post = new Post();
        CompletableFuture<?> sent = client.sendAsync(request, post::headers);
        Ticker.Pending timer = ticker.after(limitNanos, () -> {
            post.outcome.complete(
                    new Outcome.Failed("%s did not answer within %.1f s".formatted(place, limitNanos / 1e9)));
            sent.cancel(true);
            post.body.cancel();
        });
        CompletionStage<?> watched = sent;
        watched.whenComplete((response, error) -> {
            timer.close();
            if (error != null) {
                post.outcome.complete(new Outcome.Failed(place + ": " + why(error)));
            }
        });
        return post.outcome;
    }

    private BodySubscriber<Void> headers(ResponseInfo info) {
        outcome.complete(outcome(info));
        return body;
    }

    /** Status codes after the web hook specification, section 2.2, and RFC 9110 section 15. */
    private static Outcome outcome(ResponseInfo info) {
        int status = info.statusCode();
        if (status >= 200 && status < 300) {
            return new Outcome.Delivered();
        }
        String why = "the receiver answers with status " + status;
        boolean passing = status == 408 || status == 425 || status == 429 || status >= 500;
        return passing ? new Outcome.Failed(why, retryAfter(info)) : new Outcome.Refused(why);
    }

    /** s; only the form in seconds (RFC 9110 section 10.2.3), the other needs equal clocks. */
    private static double retryAfter(ResponseInfo info) {
        Optional<String> value = info.headers().firstValue("Retry-After").filter(v -> v.matches("[0-9]{1,6}"));
        return value.map(Double::parseDouble).orElse(0.0);
    }

    /** The kind of failure only: messages of libraries may hold the address. */
    private static String why(Throwable error) {
        Throwable cause = error;
        while (cause.getCause() != null && !(cause instanceof java.net.ProtocolException)) {
            cause = cause.getCause();
        }
        return switch (cause) {
            case java.net.ProtocolException e -> "what answers does not speak HTTP";
            case java.nio.channels.UnresolvedAddressException e -> "the host's name is not known";
            case java.net.ConnectException e -> "no connection";
            case java.nio.channels.ClosedChannelException e -> "no connection";
            case javax.net.ssl.SSLException e -> "no encrypted connection; look at its certificate";
            default -> "no connection, or it broke (" + cause.getClass().getSimpleName() + ")";
        };
    }

    /** Reads a short body away and cuts a long one off. */
    private static final class Discarded implements BodySubscriber<Void> {
        private final CompletableFuture<Void> end = new CompletableFuture<>();
        private volatile Flow.@Nullable Subscription subscription;
        private volatile boolean cancelled;
        private int bytes;

        @Override
        public CompletionStage<Void> getBody() {
            return end;
        }

        @Override
        public void onSubscribe(Flow.Subscription to) {
            subscription = to;
            if (cancelled) {
                to.cancel();
            } else {
                to.request(Long.MAX_VALUE);
            }
        }

        @Override
        public void onNext(List<ByteBuffer> parts) {
            for (ByteBuffer part : parts) {
                bytes += part.remaining();
            }
            if (bytes > SHORT) {
                cancel();
            }
        }

        @Override
        public void onError(Throwable error) {
            end.completeExceptionally(error);
        }

        @Override
        public void onComplete() {
            end.complete(null);
        }

        void cancel() {
            cancelled = true;
            Flow.Subscription to = subscription;
            if (to != null) {
                to.cancel();
            }
            end.completeExceptionally(new java.io.IOException("cut off"));
        }
    }
}
