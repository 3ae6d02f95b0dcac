package coldward.links.http;

import coldward.model.build.Action;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.LinkSpec.HttpRead;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import coldward.watch.Link;
import coldward.watch.guard.Reads;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;

/**
 * One machine polled over HTTP. Each path is fetched once per poll and one poll is under way at a time; polls keep to a
 * fixed grid of times, so that without report identities every report interval yields its report. While the machine
 * cannot be reached the polls grow rarer, up to one in {@value #LONGEST_PAUSE_SECONDS} s. Actions go out at once beside
 * a poll, on a connection of their own if need be.
 */
final class HttpLink implements Link {

    static final long LONGEST_PAUSE_SECONDS = 5;

    private static final long LONGEST_PAUSE = LONGEST_PAUSE_SECONDS * 1_000_000_000L;

    private final HttpClient client;
    private final Ticker ticker;
    private final String place;
    private final long every;
    private final long limit;
    private final Map<HttpRequest, ReadMapping> fetches = new LinkedHashMap<>();
    private final Map<Action, HttpRequest> acts = new EnumMap<>(Action.class);
    private final Set<Exchange> underWay = ConcurrentHashMap.newKeySet();
    private final AtomicBoolean started = new AtomicBoolean();

    private volatile boolean closed;
    private volatile Ticker.@Nullable Pending next;

    /** Polls in a row that found nobody; touched only between one poll's end and the next one's beginning. */
    private int unreachable;

    HttpLink(LinkSpec.Http spec, HttpClient client, Ticker ticker) {
        this.client = client;
        this.ticker = ticker;
        this.every = Math.round(spec.every() * 1e9);
        this.limit = Math.round(spec.timeLimit() * 1e9);
        URI base = uri(spec.base());
        this.place = base.getPort() < 0 ? base.getHost() : base.getHost() + ":" + base.getPort();
        Map<String, Map<ReadName, HttpRead>> byPath = new LinkedHashMap<>();
        spec.reads()
                .forEach((name, read) -> byPath.computeIfAbsent(read.path(), p -> new EnumMap<>(ReadName.class))
                        .put(name, read));
        if (byPath.isEmpty()) {
            throw new InputError("link reads", "the link to " + place + " reads nothing but needs at least the speed");
        }
        boolean speedMayBeSilent = spec.says() == LinkSpec.Says.ON_CHANGE;
        byPath.forEach((path, reads) -> fetches.put(
                request(spec, "GET", path, BodyPublishers.noBody(), false), new ReadMapping(reads, speedMayBeSilent)));
        spec.acts()
                .forEach((action, act) -> acts.put(
                        action,
                        request(
                                spec,
                                act.method(),
                                act.path(),
                                act.body().map(BodyPublishers::ofString).orElseGet(BodyPublishers::noBody),
                                act.body().isPresent())));
    }

    private static URI uri(String text) {
        try {
            URI uri = new URI(text);
            boolean web = "http".equalsIgnoreCase(uri.getScheme()) || "https".equalsIgnoreCase(uri.getScheme());
            if (web && uri.getHost() != null) {
                return uri;
            }
        } catch (URISyntaxException e) {
            // only the reason: the text may hold a secret
            throw new InputError("http base", "http base or path is not a URL: " + e.getReason());
        }
        throw new InputError("http base", "http base must be a URL like http://localhost:7070/heron");
    }

    private static HttpRequest request(
            LinkSpec.Http spec, String method, String path, HttpRequest.BodyPublisher body, boolean hasBody) {
        try {
            HttpRequest.Builder builder =
                    HttpRequest.newBuilder(uri(spec.base() + path)).method(method, body);
            boolean typed = spec.headers().keySet().stream().anyMatch("content-type"::equalsIgnoreCase);
            if (hasBody && !typed) {
                builder.header("Content-Type", "application/json");
            }
            spec.headers().forEach(builder::header);
            return builder.build();
        } catch (IllegalArgumentException e) {
            // the message of a bad header may quote its value, which can be a secret
            throw new InputError("link request", "method " + method + " or a header of the link cannot be sent");
        }
    }

    @Override
    public void start(Listener listener) {
        if (!started.compareAndSet(false, true)) {
            throw new InputError("link", "the link to " + place + " is started already");
        }
        poll(listener, ticker.nanos());
    }

    /** @param due when this poll should begin, ns */
    private void poll(Listener listener, long due) {
        if (closed) {
            return;
        }
        long now = ticker.nanos();
        // a little late is on time: the grid, not the timer's jitter, is what reports are counted by
        long at = now - due <= every / 4 ? due : now;
        List<CompletableFuture<Exchange.Result>> answers = new ArrayList<>();
        fetches.keySet()
                .forEach(request -> answers.add(exchange(request).result().toCompletableFuture()));
        CompletionStage<Void> all = CompletableFuture.allOf(answers.toArray(CompletableFuture<?>[]::new));
        all.whenComplete((done, error) -> {
            try {
                deliver(
                        listener,
                        at,
                        answers.stream().map(CompletableFuture::join).toList());
            } catch (RuntimeException e) {
                // a listener's own mistake; the polls go on
                Thread thread = Thread.currentThread();
                thread.getUncaughtExceptionHandler().uncaughtException(thread, e);
            }
            again(listener, due);
        });
    }

    private void deliver(Listener listener, long at, List<Exchange.Result> answers) {
        if (closed) {
            return;
        }
        Reads.Builder reads = new Reads.Builder();
        List<Trouble> troubles = new ArrayList<>();
        boolean usable = true;
        int i = 0;
        for (ReadMapping mapping : fetches.values()) {
            usable &= use(answers.get(i++), mapping, reads, troubles);
        }
        unreachable = troubles.stream().anyMatch(HttpLink::nobody) ? unreachable + 1 : 0;
        troubles.forEach(listener::troubled);
        if (usable) {
            listener.observed(new Observation(at, reads.build()));
        }
    }

    private static boolean nobody(Trouble trouble) {
        return trouble.kind() == Trouble.Kind.UNREACHABLE || trouble.kind() == Trouble.Kind.LATE;
    }

    private static boolean use(
            Exchange.Result answer, ReadMapping mapping, Reads.Builder reads, List<Trouble> troubles) {
        return switch (answer) {
            case Exchange.Result.Failed failed -> {
                troubles.add(failed.trouble());
                yield false;
            }
            case Exchange.Result.Answered answered
            when !good(answered.status()) -> {
                troubles.add(new Trouble(Trouble.Kind.REFUSED, refusal(answered.status())));
                yield false;
            }
            case Exchange.Result.Answered answered ->
                switch (JsonText.parse(answered.body())) {
                    case JsonText.Parsed.Value value -> mapping.read(value.root(), reads, troubles);
                    case JsonText.Parsed.Unreadable unreadable -> {
                        troubles.add(new Trouble(Trouble.Kind.UNREADABLE, unreadable.why()));
                        yield false;
                    }
                };
        };
    }

    private void again(Listener listener, long due) {
        if (closed) {
            return;
        }
        long pause = every;
        for (int i = 1; i < unreachable && pause < LONGEST_PAUSE; i++) {
            pause *= 2;
        }
        long wanted = due + Math.min(pause, Math.max(every, LONGEST_PAUSE));
        long late = ticker.nanos() - wanted;
        // stays on the grid: times already gone are left out
        long nextDue = late <= 0 ? wanted : wanted + (late + every - 1) / every * every;
        next = ticker.after(Math.max(0, nextDue - ticker.nanos()), () -> poll(listener, nextDue));
        if (closed) {
            stopTimer();
        }
    }

    @Override
    public CompletionStage<Answer> request(Action action) {
        HttpRequest request = acts.get(action);
        if (request == null) {
            return CompletableFuture.completedFuture(
                    new Answer.Refused("the link has no request for " + action.word()));
        }
        if (closed) {
            return CompletableFuture.completedFuture(new Answer.Failed("the link is closed"));
        }
        return exchange(request).status().handle((status, error) -> {
            if (error != null) {
                return new Answer.Failed(error.getMessage() == null ? error.toString() : error.getMessage());
            }
            return good(status) ? new Answer.Taken() : new Answer.Refused(refusal(status));
        });
    }

    private Exchange exchange(HttpRequest request) {
        Exchange exchange = Exchange.send(client, request, limit, JsonText.MOST_BYTES, ticker);
        underWay.add(exchange);
        exchange.result().whenComplete((result, error) -> underWay.remove(exchange));
        return exchange;
    }

    private static boolean good(int status) {
        return status >= 200 && status < 300;
    }

    private static String refusal(int status) {
        return "status " + status + (status >= 300 && status < 400 ? "; redirects are not followed" : "");
    }

    @Override
    public String place() {
        return place;
    }

    @Override
    public void close() {
        closed = true;
        stopTimer();
        underWay.forEach(Exchange::cancel);
    }

    private void stopTimer() {
        Ticker.Pending pending = next;
        if (pending != null) {
            pending.close();
        }
    }
}
