package coldward.watch;

import coldward.quantity.OwnBug;
import coldward.quantity.Ticker;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** One printer's clock, mailbox, journal and notices in one hand. */
final class Desk {

    private final String printer;
    private final Ticker ticker;
    private final Mailbox mailbox;
    private final Journal journal;
    private final Notices notices;
    private final Consumer<@Nullable Throwable> journalled;

    /** @param journalled told after every append: of what went wrong, or null */
    Desk(
            String printer,
            Ticker ticker,
            Mailbox mailbox,
            Journal journal,
            Notices notices,
            Consumer<@Nullable Throwable> journalled) {
        this.printer = printer;
        this.ticker = ticker;
        this.mailbox = mailbox;
        this.journal = journal;
        this.notices = notices;
        this.journalled = journalled;
    }

    String printer() {
        return printer;
    }

    long now() {
        return ticker.nanos();
    }

    long wallMillis() {
        return ticker.wallMillis();
    }

    /** Runs a task in the mailbox. */
    void post(Runnable task) {
        mailbox.post(task);
    }

    /** Runs a task in the mailbox, later. */
    Ticker.Pending later(long delayNanos, Runnable task) {
        return ticker.after(Math.max(0, delayNanos), () -> mailbox.post(task));
    }

    /** Journals, without waiting; facts as name, value, name, value. */
    void journal(String kind, Object... facts) {
        if (facts.length % 2 != 0) {
            throw new OwnBug("journal entry " + kind + " has a fact without a value");
        }
        SortedMap<String, Object> map = new TreeMap<>();
        for (int i = 0; i < facts.length; i += 2) {
            map.put((String) facts[i], facts[i + 1]);
        }
        try {
            journal.append(new Journal.Entry(ticker.wallMillis(), printer, kind, map))
                    .whenComplete((kept, error) -> journalled.accept(error));
        } catch (RuntimeException e) {
            journalled.accept(e);
        }
    }

    /** Tells people, and journals that. */
    void tell(Notice.Kind kind, String happened, String done, String next) {
        notices.tell(new Notice(ticker.wallMillis(), List.of(printer), kind, happened, done, next));
        journal("told", "about", kind.word(), "what", happened);
    }

    /** Whole milliseconds between two times, ns. */
    static long millis(long from, long to) {
        return Math.round((to - from) / 1e6);
    }
}
