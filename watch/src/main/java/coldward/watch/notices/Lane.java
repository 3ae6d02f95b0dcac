package coldward.watch.notices;

import coldward.quantity.Ticker;
import coldward.watch.notices.Channel.Outcome;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletionStage;
import org.jspecify.annotations.Nullable;

/**
 * The way of messages through one channel: one at a time, the most urgent first, each again and again with longer and
 * longer pauses until the channel has it or it is too old. What is asked of the channel is asked from the ticker's
 * threads, never from the caller's, so that no channel can hold the watch up.
 */
final class Lane {

    /** ns between the first and the second attempt; doubles. */
    static final long FIRST_PAUSE = 1_000_000_000L;

    /** ns after a refusal: it will hardly change by itself. */
    static final long REFUSED_PAUSE = 60_000_000_000L;

    static final long LONGEST_PAUSE = 300_000_000_000L;

    /** ns for which a message is worth delivering. */
    static final long WORTH = 24L * 3600 * 1_000_000_000L;

    /** ns within which every adapter must have answered; past it the attempt counts as failed. */
    static final long ANSWER_WITHIN = 150_000_000_000L;

    /** Failures in a row after which people are told that this channel does not work. */
    static final int IN_TROUBLE = 3;

    /** Messages that may wait; beyond it the oldest of the least urgent goes. */
    static final int MOST = 500;

    /** Told of everything; never called with the lane locked. */
    interface Listener {
        void sent(Lane lane, Letter letter, long tookNanos);

        void failed(Lane lane, Letter letter, String why);

        void dropped(Lane lane, Letter letter, String why);

        /** The channel has failed several times in a row, or works again. */
        void trouble(Lane lane, boolean inTrouble, String why);
    }

    /** A message under way through this lane. */
    static final class Letter {
        final Message message;
        /** The notices in it, by their ids. */
        final List<String> ids;

        final long since;
        int attempts;

        Letter(Message message, List<String> ids, long since) {
            this.message = message;
            this.ids = List.copyOf(ids);
            this.since = since;
        }
    }

    private static final Comparator<Letter> URGENT_FIRST = Comparator.<Letter, coldward.watch.Notice.Signal>comparing(
                    l -> l.message.signal())
            .thenComparingLong(l -> l.since);

    final Channel channel;
    private final Ticker ticker;
    private final Listener listener;

    private final List<Letter> waiting = new ArrayList<>();
    private @Nullable Letter underWay;
    private Ticker.@Nullable Pending timer;
    private int failuresInRow;
    private boolean inTrouble;
    private boolean closed;

    Lane(Channel channel, Ticker ticker, Listener listener) {
        this.channel = channel;
        this.ticker = ticker;
        this.listener = listener;
    }

    void offer(Letter letter) {
        Letter tooMany = null;
        synchronized (this) {
            if (closed) {
                return;
            }
            waiting.add(letter);
            if (waiting.size() > MOST) {
                tooMany = waiting.stream()
                        .max(Comparator.<Letter, coldward.watch.Notice.Signal>comparing(l -> l.message.signal())
                                .thenComparingLong(l -> -l.since))
                        .orElseThrow();
                waiting.remove(tooMany);
            }
            // something urgent does not wait for the pause after a failure of something else
            if (underWay == null && (timer == null || letter.message.signal() == coldward.watch.Notice.Signal.DANGER)) {
                in(0);
            }
        }
        if (tooMany != null) {
            listener.dropped(this, tooMany, "more than " + MOST + " messages wait");
        }
    }

    /** Whether something of these notices is still to be delivered. */
    synchronized boolean holds(String id) {
        return (underWay != null && underWay.ids.contains(id))
                || waiting.stream().anyMatch(l -> l.ids.contains(id));
    }

    synchronized int waiting() {
        return waiting.size() + (underWay == null ? 0 : 1);
    }

    /** Takes back repeats of a notice that are not under way. */
    synchronized void forgetRepeats(String id) {
        waiting.removeIf(l -> l.message.repeat() > 0 && l.ids.contains(id));
    }

    synchronized void close() {
        closed = true;
        waiting.clear();
        if (timer != null) {
            timer.close();
        }
    }

    private void in(long nanos) {
        if (timer != null) {
            timer.close();
        }
        timer = ticker.after(nanos, this::next);
    }

    private void next() {
        Letter letter;
        List<Letter> tooOld;
        synchronized (this) {
            timer = null;
            if (closed || underWay != null) {
                return;
            }
            tooOld = waiting.stream()
                    .filter(l -> ticker.nanos() - l.since > WORTH)
                    .toList();
            waiting.removeAll(tooOld);
            Optional<Letter> first = waiting.stream().min(URGENT_FIRST);
            first.ifPresent(waiting::remove);
            letter = first.orElse(null);
            underWay = letter;
            if (letter != null) {
                letter.attempts++;
            }
        }
        tooOld.forEach(l -> listener.dropped(this, l, "not delivered within a day"));
        if (letter != null) {
            attempt(letter);
        }
    }

    private void attempt(Letter letter) {
        int number = letter.attempts;
        ticker.after(ANSWER_WITHIN, () -> answered(letter, number, new Outcome.Failed("the channel did not answer")));
        CompletionStage<Outcome> outcome;
        try {
            outcome = channel.send(letter.message);
        } catch (RuntimeException e) {
            answered(
                    letter,
                    number,
                    new Outcome.Failed(
                            "the channel made a mistake: " + e.getClass().getSimpleName()));
            return;
        }
        outcome.whenComplete((said, error) -> answered(
                letter,
                number,
                error == null
                        ? said
                        : new Outcome.Failed("the channel made a mistake: "
                                + error.getClass().getSimpleName())));
    }

    private void answered(Letter letter, int attempt, Outcome outcome) {
        boolean begins;
        boolean ends;
        synchronized (this) {
            if (closed || underWay != letter || letter.attempts != attempt) {
                return;
            }
            underWay = null;
            boolean done = outcome instanceof Outcome.Delivered;
            failuresInRow = done ? 0 : failuresInRow + 1;
            begins = !inTrouble && failuresInRow >= IN_TROUBLE;
            ends = inTrouble && done;
            inTrouble = (inTrouble || begins) && !ends;
            if (!done) {
                waiting.add(letter);
            }
            in(done ? 0 : pause(outcome));
        }
        String why = switch (outcome) {
            case Outcome.Delivered delivered -> "";
            case Outcome.Refused refused -> refused.why();
            case Outcome.Failed failed -> failed.why();
        };
        if (outcome instanceof Outcome.Delivered) {
            listener.sent(this, letter, ticker.nanos() - letter.since);
        } else {
            listener.failed(this, letter, why);
        }
        if (begins || ends) {
            listener.trouble(this, begins, why);
        }
    }

    private long pause(Outcome outcome) {
        long doubled = FIRST_PAUSE << Math.min(failuresInRow - 1, 20);
        long least = switch (outcome) {
            case Outcome.Delivered delivered -> 0;
            case Outcome.Refused refused -> REFUSED_PAUSE;
            case Outcome.Failed failed -> Math.round(Math.min(failed.notBefore(), 3600) * 1e9);
        };
        return Math.max(least, Math.min(LONGEST_PAUSE, doubled));
    }
}
