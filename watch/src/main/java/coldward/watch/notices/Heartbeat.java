package coldward.watch.notices;

import coldward.quantity.Ticker;
import coldward.watch.Notice;
import coldward.watch.notices.Channel.Outcome;
import java.util.List;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * A sign of life at a steady rhythm, so that somebody else notices when it stays away: a dead watch can tell nobody.
 * People are told when it cannot go out, since then its absence no longer means anything.
 */
public final class Heartbeat implements AutoCloseable {

    /** Failures in a row after which people are told. */
    static final int IN_TROUBLE = 3;

    private final Ticker ticker;
    private final long every;
    private final Supplier<CompletionStage<Outcome>> beat;
    private final Consumer<Notice> tell;
    private Ticker.@Nullable Pending timer;
    private int failures;
    private boolean told;
    private boolean closed;

    /**
     * Begins at once.
     *
     * @param every ns, above 0
     * @param beat sends one sign of life; must return at once
     * @param tell told when several in a row failed, and when one arrives again
     */
    public Heartbeat(Ticker ticker, long every, Supplier<CompletionStage<Outcome>> beat, Consumer<Notice> tell) {
        this.ticker = ticker;
        this.every = every;
        this.beat = beat;
        this.tell = tell;
        synchronized (this) {
            timer = ticker.after(0, this::next);
        }
    }

    private void next() {
        synchronized (this) {
            if (closed) {
                return;
            }
            timer = ticker.after(every, this::next);
        }
        try {
            beat.get().whenComplete((outcome, error) -> answered(error == null ? outcome : new Outcome.Failed("")));
        } catch (RuntimeException e) {
            answered(new Outcome.Failed("it made a mistake: " + e.getClass().getSimpleName()));
        }
    }

    private void answered(Outcome outcome) {
        boolean arrived = outcome instanceof Outcome.Delivered;
        boolean say;
        synchronized (this) {
            failures = arrived ? 0 : failures + 1;
            say = !closed && (arrived ? told : !told && failures >= IN_TROUBLE);
            if (say) {
                told = !arrived;
            }
        }
        if (say) {
            String why = switch (outcome) {
                case Outcome.Delivered d -> "";
                case Outcome.Refused r -> ": " + r.why();
                case Outcome.Failed f -> ": " + f.why();
            };
            tell.accept(new Notice(
                    ticker.wallMillis(),
                    List.of(),
                    arrived ? Notice.Kind.HEARTBEAT_BACK : Notice.Kind.HEARTBEAT_FAILED,
                    arrived ? "the heartbeat goes out again" : "the heartbeat does not go out" + why,
                    "the watch itself goes on",
                    arrived
                            ? "nothing"
                            : "see whether its receiver is up; until then nobody would notice a dead watch"));
        }
    }

    @Override
    public synchronized void close() {
        closed = true;
        if (timer != null) {
            timer.close();
        }
    }
}
