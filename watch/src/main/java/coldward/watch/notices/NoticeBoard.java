package coldward.watch.notices;

import static coldward.quantity.Checks.notBlank;

import coldward.model.shop.NoticeRules;
import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import coldward.watch.Journal;
import coldward.watch.Notice;
import coldward.watch.Notice.Kind;
import coldward.watch.Notice.Signal;
import coldward.watch.Notices;
import coldward.watch.notices.BoardPast.Left;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Where notices hang until people have them. Every notice goes to the terminal at once and to each channel until that
 * has it; DANGER and WARNING are said again until somebody acknowledges or the matter settles. In the quiet hours only
 * DANGER goes out at once, the rest comes at their end as one message; nothing here can delay a response. What is not
 * delivered or not acknowledged is taken up from the journal after a restart.
 */
public final class NoticeBoard implements Notices, AutoCloseable {

    /** ns between two looks at the wall clock while something waits for it: it may be set. */
    private static final long LOOK_AGAIN = 60_000_000_000L;

    private final String shop;
    private final NoticeRules rules;
    private final Notices terminal;
    private final Journal journal;
    private final Ticker ticker;
    private final Supplier<String> ids;
    private final Map<String, Lane> lanes = new LinkedHashMap<>();
    private final Map<String, Posted> board = new LinkedHashMap<>();
    private Ticker.@Nullable Pending quietTimer;
    private boolean closed;

    /**
     * Takes up what the journal says is left, then waits for notices.
     *
     * @param shop the shop's name
     * @param rules repeats and quiet hours
     * @param channels one for each of the rules' channels; the board closes them
     * @param terminal told of everything at once
     * @param journal read once now, appended to from then on
     * @param ticker the clock
     */
    public NoticeBoard(
            String shop,
            NoticeRules rules,
            List<? extends Channel> channels,
            Notices terminal,
            Journal journal,
            Ticker ticker) {
        this(
                shop,
                rules,
                channels,
                terminal,
                journal,
                ticker,
                () -> UUID.randomUUID().toString());
    }

    /** As above, with ids of the caller's. */
    NoticeBoard(
            String shop,
            NoticeRules rules,
            List<? extends Channel> channels,
            Notices terminal,
            Journal journal,
            Ticker ticker,
            Supplier<String> ids) {
        this.shop = shop;
        this.rules = rules;
        this.terminal = terminal;
        this.journal = journal;
        this.ticker = ticker;
        this.ids = ids;
        Lane.Listener listener = new Told();
        channels.forEach(c -> lanes.put(c.name(), new Lane(c, ticker, listener)));
        synchronized (this) {
            BoardPast.of(journal, ticker.wallMillis(), lanes.keySet()).forEach(this::takeUp);
        }
    }

    @Override
    public void tell(Notice notice) {
        try {
            terminal.tell(notice);
        } catch (RuntimeException e) {
            // a terminal that is gone must not keep the others from hearing
            append("", "terminal-failed", "why", e.getClass().getSimpleName());
        }
        post(notice, "");
    }

    /** How many notices nobody has acknowledged. */
    public synchronized int open() {
        return (int) board.values().stream().filter(p -> p.open).count();
    }

    /** How many messages are still to be delivered. */
    public int undelivered() {
        return lanes.values().stream().mapToInt(Lane::waiting).sum() + held().size();
    }

    /**
     * Somebody has taken notice; repeats of what was told so far end.
     *
     * @param printer of which printer; empty: of everything
     * @param name who, not blank
     * @return how many notices were open
     * @throws InputError if the name is blank
     */
    public int acknowledge(Optional<String> printer, String name) {
        notBlank("name", name);
        List<Posted> seen;
        synchronized (this) {
            seen = board.values().stream()
                    .filter(p -> p.open && (printer.isEmpty() || p.concerns(printer.get())))
                    .toList();
            close(seen, "acknowledged", name);
        }
        append(printer.orElse(""), "acknowledged", "name", name, "notices", (long) seen.size());
        if (!seen.isEmpty()) {
            List<String> printers = printer.map(List::of)
                    .orElseGet(() -> seen.stream()
                            .flatMap(p -> p.notice.printers().stream())
                            .distinct()
                            .toList());
            tell(new Notice(
                    ticker.wallMillis(),
                    printers,
                    Kind.ACKNOWLEDGED,
                    (printers.isEmpty() ? "the watch" : String.join(", ", printers)) + ": acknowledged by " + name,
                    "no repeats of what was told until now",
                    "nothing, unless you hear nothing more from " + name));
        }
        return seen.size();
    }

    @Override
    public void close() {
        synchronized (this) {
            closed = true;
            board.values().forEach(p -> {
                if (p.timer != null) {
                    p.timer.close();
                }
            });
            if (quietTimer != null) {
                quietTimer.close();
            }
        }
        lanes.values().forEach(lane -> {
            lane.close();
            lane.channel.close();
        });
    }

    // posting

    /** @param but a channel that is left out; empty: none */
    private void post(Notice notice, String but) {
        Posted posted = new Posted(ids.get(), notice, but);
        append(
                "",
                "notice",
                "id",
                posted.id,
                "about",
                notice.kind().word(),
                "printers",
                String.join(", ", notice.printers()),
                "happened",
                notice.happened(),
                "done",
                notice.done(),
                "next",
                notice.next(),
                "channels",
                String.join(
                        " ", lanes.keySet().stream().filter(c -> !c.equals(but)).toList()));
        synchronized (this) {
            if (closed) {
                return;
            }
            settle(notice);
            board.put(posted.id, posted);
            posted.open = notice.kind().repeats();
            if (quiet() && notice.kind().signal() != Signal.DANGER) {
                hold(posted);
            } else {
                lanes.forEach((name, lane) -> {
                    if (!name.equals(but)) {
                        lane.offer(letter(posted));
                    }
                });
                repeatLater(posted);
            }
            forgetOld();
        }
    }

    private Lane.Letter letter(Posted posted) {
        return new Lane.Letter(Message.of(posted.id, shop, posted.notice), List.of(posted.id), ticker.nanos());
    }

    /** What this notice settles needs no repeats any more. */
    private void settle(Notice notice) {
        List<Posted> settled = board.values().stream()
                .filter(p -> p.open && notice.kind().settles(p.notice.kind()))
                .peek(p -> notice.printers().forEach(p.unsettled::remove))
                .filter(p -> p.unsettled.isEmpty())
                .toList();
        close(settled, notice.kind().word(), "");
    }

    private void close(List<Posted> all, String why, String name) {
        if (all.isEmpty()) {
            return;
        }
        for (Posted posted : all) {
            posted.stopRepeating();
            lanes.values().forEach(lane -> lane.forgetRepeats(posted.id));
        }
        closed(all, why, name);
    }

    private void closed(List<Posted> all, String why, String name) {
        append(
                "",
                "notice-closed",
                "ids",
                String.join(" ", all.stream().map(p -> p.id).toList()),
                "why",
                why,
                "name",
                name);
    }

    private synchronized void channelBack(String channel) {
        close(
                board.values().stream()
                        .filter(p -> p.open && p.notice.kind() == Kind.CHANNEL_FAILED)
                        .filter(p -> p.notice.happened().startsWith(notOver(channel)))
                        .toList(),
                Kind.CHANNEL_BACK.word(),
                "");
    }

    private static String notOver(String channel) {
        return "messages do not arrive over " + channel + ":";
    }

    private void forgetOld() {
        board.values().removeIf(p -> !p.open && !p.held);
    }

    // repeats

    private void repeatLater(Posted posted) {
        if (!posted.open || closed) {
            return;
        }
        if (posted.repeats >= rules.repeats().most()) {
            posted.stopRepeating();
            closed(List.of(posted), "repeated often enough", "");
            return;
        }
        long pause = Math.round(rules.repeats().pause(posted.repeats) * 1e9);
        posted.timer = ticker.after(pause, () -> repeat(posted));
    }

    private synchronized void repeat(Posted posted) {
        if (closed || !posted.open) {
            return;
        }
        if (quiet() && posted.notice.kind().signal() != Signal.DANGER) {
            long left = rules.quiet().orElseThrow().endAfter(now()).toEpochMilli() - ticker.wallMillis();
            posted.timer = ticker.after(Math.clamp(left * 1_000_000, 0, LOOK_AGAIN), () -> repeat(posted));
            return;
        }
        posted.repeats++;
        Message again = new Message(
                posted.id + "-" + posted.repeats,
                shop,
                List.of(posted.notice),
                posted.repeats,
                Optional.of(posted.id),
                false);
        for (Lane lane : lanes.values()) {
            // what has not even arrived once is not repeated
            if (!lane.holds(posted.id) && !lane.channel.name().equals(posted.but)) {
                lane.offer(new Lane.Letter(again, List.of(posted.id), ticker.nanos()));
            }
        }
        repeatLater(posted);
    }

    // quiet hours

    private Instant now() {
        return Instant.ofEpochMilli(ticker.wallMillis());
    }

    private boolean quiet() {
        return rules.quiet().filter(q -> q.at(now())).isPresent();
    }

    private void hold(Posted posted) {
        posted.held = true;
        if (quietTimer == null) {
            lookWhetherQuietIsOver();
        }
    }

    private synchronized void lookWhetherQuietIsOver() {
        quietTimer = null;
        if (closed) {
            return;
        }
        if (quiet()) {
            long left = rules.quiet().orElseThrow().endAfter(now()).toEpochMilli() - ticker.wallMillis();
            quietTimer = ticker.after(Math.clamp(left * 1_000_000, 0, LOOK_AGAIN), this::lookWhetherQuietIsOver);
            return;
        }
        List<Posted> waited = held();
        if (waited.isEmpty()) {
            return;
        }
        List<String> theirs = waited.stream().map(p -> p.id).toList();
        Message message = waited.size() == 1
                ? Message.of(waited.getFirst().id, shop, waited.getFirst().notice)
                : new Message(
                        ids.get(), shop, waited.stream().map(p -> p.notice).toList(), 0, Optional.empty(), false);
        lanes.values().forEach(lane -> lane.offer(new Lane.Letter(message, theirs, ticker.nanos())));
        waited.forEach(p -> {
            p.held = false;
            repeatLater(p);
        });
        forgetOld();
    }

    private synchronized List<Posted> held() {
        return board.values().stream().filter(p -> p.held).toList();
    }

    // the journal

    private void takeUp(Left left) {
        Posted posted = new Posted(left.id(), left.notice(), "");
        posted.open = left.open() && left.notice().kind().repeats();
        if (posted.open && left.notice().kind().ofThisRun()) {
            // whether it is still so is found out anew
            close(List.of(posted), "a new start", "");
        }
        posted.repeats = left.repeats();
        board.put(posted.id, posted);
        if (!left.unsent().isEmpty() && quiet() && left.notice().kind().signal() != Signal.DANGER) {
            hold(posted);
            return;
        }
        left.unsent()
                .forEach(channel ->
                        Optional.ofNullable(lanes.get(channel)).ifPresent(lane -> lane.offer(letter(posted))));
        repeatLater(posted);
        forgetOld();
    }

    private void append(String printer, String kind, Object... facts) {
        SortedMap<String, Object> map = new TreeMap<>();
        for (int i = 0; i < facts.length; i += 2) {
            map.put((String) facts[i], facts[i + 1]);
        }
        try {
            // the watch's own entries notice when the journal cannot be written; this one has nobody else to tell
            var ignored = journal.append(new Journal.Entry(ticker.wallMillis(), printer, kind, map));
        } catch (RuntimeException e) {
            terminal.tell(new Notice(
                    ticker.wallMillis(),
                    List.of(),
                    Kind.JOURNAL_FAILED,
                    "the journal cannot be written: " + e.getClass().getSimpleName(),
                    "messages go out all the same",
                    "see whether the disk is full or gone"));
        }
    }

    /** What lanes report. */
    private final class Told implements Lane.Listener {
        @Override
        public void sent(Lane lane, Lane.Letter letter, long tookNanos) {
            append(
                    "",
                    "notice-sent",
                    "ids",
                    String.join(" ", letter.ids),
                    "channel",
                    lane.channel.name(),
                    "attempts",
                    (long) letter.attempts,
                    "repeat",
                    (long) letter.message.repeat(),
                    "ms",
                    Math.round(tookNanos / 1e6));
        }

        @Override
        public void failed(Lane lane, Lane.Letter letter, String why) {
            // the first, then ever fewer: attempts 1, 2, 4, 8 and so on
            if (Integer.bitCount(letter.attempts) == 1) {
                append(
                        "",
                        "notice-failed",
                        "ids",
                        String.join(" ", letter.ids),
                        "channel",
                        lane.channel.name(),
                        "attempts",
                        (long) letter.attempts,
                        "why",
                        why);
            }
        }

        @Override
        public void dropped(Lane lane, Lane.Letter letter, String why) {
            append(
                    "",
                    "notice-dropped",
                    "ids",
                    String.join(" ", letter.ids),
                    "channel",
                    lane.channel.name(),
                    "why",
                    why);
        }

        @Override
        public void trouble(Lane lane, boolean inTrouble, String why) {
            String name = lane.channel.name();
            Notice notice = new Notice(
                    ticker.wallMillis(),
                    List.of(),
                    inTrouble ? Kind.CHANNEL_FAILED : Kind.CHANNEL_BACK,
                    inTrouble ? notOver(name) + " " + why : "messages arrive over " + name + " again",
                    inTrouble ? "they are tried again for a day" : "what waited is delivered",
                    inTrouble ? "mend it and test it with coldward notice try" : "nothing");
            terminal.tell(notice);
            if (!inTrouble) {
                channelBack(name);
            }
            post(notice, name);
        }
    }
}
