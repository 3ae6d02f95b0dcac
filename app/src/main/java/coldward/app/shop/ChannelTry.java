package coldward.app.shop;

import coldward.model.shop.NoticeRules;
import coldward.model.shop.Shop;
import coldward.quantity.CannotRun;
import coldward.quantity.Ticker;
import coldward.watch.Notice;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.notices.Message;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/** Sends one message over every channel of a shop, without a watch, and waits for what comes of each. */
public final class ChannelTry {

    /** Longer than any channel's own limit. */
    private static final long LONGEST = 130;

    /**
     * What came of one channel.
     *
     * @param channel its name, or {@code heartbeat}
     * @param arrived whether it arrived
     * @param seconds how long it took
     * @param why why not; empty if it arrived
     */
    public record Tried(String channel, boolean arrived, double seconds, String why) {}

    private ChannelTry() {}

    /** Tries all channels at once, the heartbeat included. */
    public static List<Tried> all(Shop shop, Ticker ticker) {
        NoticeRules rules = shop.notices();
        Notice notice = new Notice(
                ticker.wallMillis(),
                List.of(),
                Notice.Kind.TRY,
                "somebody tries whether messages of this shop arrive",
                "nothing else",
                "nothing");
        try (People.Ways ways = new People.Ways(rules, ticker)) {
            Map<String, CompletableFuture<Tried>> all = new LinkedHashMap<>();
            for (Channel channel : ways.channels()) {
                Message message = new Message(id(), shop.name(), List.of(notice), 0, Optional.empty(), true);
                all.put(channel.name(), tried(channel.name(), ticker, channel.send(message)));
            }
            rules.heartbeat()
                    .ifPresent(spec -> all.put(
                            "heartbeat",
                            tried(
                                    "heartbeat",
                                    ticker,
                                    ways.webhooks()
                                            .heartbeat(spec, shop.name(), ChannelTry::id, Map::of)
                                            .get())));
            List<Tried> results = new ArrayList<>();
            for (CompletableFuture<Tried> each : all.values()) {
                results.add(each.get(LONGEST, TimeUnit.SECONDS));
            }
            return results;
        } catch (ExecutionException | TimeoutException e) {
            throw new CannotRun("a channel did not say what came of it", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("interrupted", e);
        }
    }

    private static String id() {
        return UUID.randomUUID().toString();
    }

    private static CompletableFuture<Tried> tried(String channel, Ticker ticker, CompletionStage<Outcome> outcome) {
        long began = ticker.nanos();
        return outcome.thenApply(said -> new Tried(
                        channel,
                        said instanceof Outcome.Delivered,
                        (ticker.nanos() - began) / 1e9,
                        switch (said) {
                            case Outcome.Delivered d -> "";
                            case Outcome.Refused r -> r.why();
                            case Outcome.Failed f -> f.why();
                        }))
                .toCompletableFuture();
    }
}
