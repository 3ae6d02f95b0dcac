package coldward.links.http;

import coldward.quantity.Ticker;
import coldward.watch.Link.Trouble;
import java.io.IOException;
import java.net.ProtocolException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodySubscriber;
import java.net.http.HttpResponse.ResponseInfo;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;
import org.jspecify.annotations.Nullable;

/**
 * One request and its answer, with a deadline for the whole of it and a limit on the body. The client's own time limit
 * ends with the headers; a body that drips would hold it for ever.
 */
final class Exchange {

    /** What came of it. */
    sealed interface Result {
        /** A complete answer. */
        // read once, by its only reader; never compared
        @SuppressWarnings("ArrayRecordComponent")
        record Answered(int status, byte[] body) implements Result {}

        /** None. */
        record Failed(Trouble trouble) implements Result {}
    }

    /** The body grew beyond its limit. */
    private static final class TooLong extends IOException {
        private static final long serialVersionUID = 1L;
    }

    private final CompletableFuture<Integer> status = new CompletableFuture<>();
    private final CompletableFuture<Result> result = new CompletableFuture<>();
    private final Limited body;
    private final Ticker.Pending timer;
    private final CompletableFuture<HttpResponse<byte[]>> sent;

    private Exchange(HttpClient client, HttpRequest request, long limitNanos, int mostBytes, Ticker ticker) {
        body = new Limited(mostBytes);
        sent = client.sendAsync(request, this::headers);
        timer = ticker.after(
                limitNanos,
                () -> end(new Trouble(Trouble.Kind.LATE, "no complete answer within " + limitNanos / 1e9 + " s")));
        stage(result).whenComplete((r, e) -> {
            timer.close();
            if (r instanceof Result.Failed failed) {
                status.completeExceptionally(new IOException(failed.trouble().detail()));
            }
        });
        stage(sent).whenComplete((response, error) -> {
            if (error == null) {
                result.complete(new Result.Answered(response.statusCode(), response.body()));
            } else {
                result.complete(new Result.Failed(trouble(error)));
            }
        });
    }

    /** As something whose failure is looked at here and needs no keeping. */
    private static <T> CompletionStage<T> stage(CompletableFuture<T> future) {
        return future;
    }

    /**
     * Sends a request.
     *
     * @param limitNanos for the whole exchange, body included, ns
     * @param mostBytes of the body
     */
    static Exchange send(HttpClient client, HttpRequest request, long limitNanos, int mostBytes, Ticker ticker) {
        return new Exchange(client, request, limitNanos, mostBytes, ticker);
    }

    /** Completes with the whole answer or the reason why there is none; never exceptionally. */
    CompletionStage<Result> result() {
        return result;
    }

    /** Completes with the status as soon as it is known, or exceptionally with the reason why there is none. */
    CompletionStage<Integer> status() {
        return status;
    }

    /** Ends it now. */
    void cancel() {
        end(new Trouble(Trouble.Kind.UNREACHABLE, "ended by the watch"));
    }

    private void end(Trouble why) {
        if (result.complete(new Result.Failed(why))) {
            sent.cancel(true);
            body.cancel();
        }
    }

    private BodySubscriber<byte[]> headers(ResponseInfo info) {
        status.complete(info.statusCode());
        return body;
    }

    private static Trouble trouble(Throwable error) {
        Throwable cause = error;
        while (cause.getCause() != null && !(cause instanceof TooLong) && !(cause instanceof ProtocolException)) {
            cause = cause.getCause();
        }
        String what = cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
        return switch (cause) {
            case TooLong t ->
                new Trouble(Trouble.Kind.TOO_LONG, "the answer has more than " + JsonText.MOST_BYTES + " bytes");
            case ProtocolException p -> new Trouble(Trouble.Kind.UNREADABLE, "not HTTP: " + what);
            default -> new Trouble(Trouble.Kind.UNREACHABLE, "no connection, or it broke: " + what);
        };
    }

    /** Collects a body up to a limit. */
    private static final class Limited implements BodySubscriber<byte[]> {
        private final int most;
        private final CompletableFuture<byte[]> whole = new CompletableFuture<>();
        private final java.io.ByteArrayOutputStream bytes = new java.io.ByteArrayOutputStream();
        private volatile Flow.@Nullable Subscription subscription;
        private volatile boolean cancelled;

        Limited(int most) {
            this.most = most;
        }

        @Override
        public CompletionStage<byte[]> getBody() {
            return whole;
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
                if (bytes.size() + part.remaining() > most) {
                    whole.completeExceptionally(new TooLong());
                    cancel();
                    return;
                }
                byte[] copy = new byte[part.remaining()];
                part.get(copy);
                bytes.writeBytes(copy);
            }
        }

        @Override
        public void onError(Throwable error) {
            whole.completeExceptionally(error);
        }

        @Override
        public void onComplete() {
            whole.complete(bytes.toByteArray());
        }

        void cancel() {
            cancelled = true;
            Flow.Subscription to = subscription;
            if (to != null) {
                to.cancel();
            }
            whole.completeExceptionally(new IOException("cancelled"));
        }
    }
}
