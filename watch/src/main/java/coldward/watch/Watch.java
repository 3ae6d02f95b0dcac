package coldward.watch;

import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The watch over a whole shop. It starts when it is made: takes up latched trips and unfinished responses from the
 * journal, then listens to every printer until it is closed. Nothing here blocks but the reading of the journal at the
 * start; journal, history, notices and links are the caller's to close, links apart, which the watch closes.
 */
public final class Watch implements AutoCloseable {

    private final Journal journal;
    private final Notices notices;
    private final Ticker ticker;
    private final Map<String, Supervisor> supervisors = new LinkedHashMap<>();
    private final List<Consumer<PrinterView>> listeners = new CopyOnWriteArrayList<>();
    private final AtomicBoolean journalFails = new AtomicBoolean();
    private final AtomicBoolean closed = new AtomicBoolean();

    /**
     * Starts the watch.
     *
     * @param printers with unique names, at least one
     * @param links makes the link to a printer, not yet started
     * @param journal read once now, appended to from then on
     * @param history keeps every report
     * @param notices where people are told
     * @param ticker the clock
     * @throws InputError if there is no printer, or two of one name
     */
    public Watch(
            List<WatchedPrinter> printers,
            Function<WatchedPrinter, ? extends Link> links,
            Journal journal,
            History history,
            Notices notices,
            Ticker ticker) {
        this.journal = journal;
        this.notices = notices;
        this.ticker = ticker;
        if (printers.isEmpty()) {
            throw new InputError("printers", "the watch has no printer but needs at least one");
        }
        Map<String, Past> pasts = new LinkedHashMap<>();
        for (WatchedPrinter printer : printers) {
            if (pasts.put(printer.name(), Past.of(printer.name(), journal)) != null) {
                throw new InputError(
                        "printers", "printer " + printer.name() + " is listed twice; names must be unique");
            }
        }
        CommonCause silence = new CommonCause(ticker, this::tell);
        for (WatchedPrinter printer : printers) {
            Mailbox mailbox = new Mailbox(fault -> fault(printer.name(), fault));
            Desk desk = new Desk(printer.name(), ticker, mailbox, journal, notices, this::journalled);
            supervisors.put(
                    printer.name(),
                    new Supervisor(printer, links.apply(printer), desk, history, this::viewed, silence));
        }
        append("watch-started", "printers", (long) printers.size());
        supervisors.forEach((name, supervisor) -> supervisor.start(pasts.getOrDefault(name, Past.of(name, journal))));
    }

    /** How every printer stands, in the order given. */
    public List<PrinterView> views() {
        List<PrinterView> views = new ArrayList<>();
        supervisors.values().forEach(s -> views.add(s.view()));
        return views;
    }

    /** How one printer stands. */
    public PrinterView view(String printer) {
        return supervisor(printer).view();
    }

    /** Names a listener told of every change and every report, from any thread; it must return at once. */
    public void onView(Consumer<PrinterView> listener) {
        listeners.add(listener);
    }

    /**
     * Takes back a trip.
     *
     * @param printer which
     * @param name who releases it, not blank
     * @param reason why, not blank
     * @return completes with whether there was a trip to release
     * @throws InputError if there is no such printer, or name or reason is blank
     */
    public CompletionStage<Boolean> release(String printer, String name, String reason) {
        return supervisor(printer).release(name, reason);
    }

    /**
     * Holds the trip of one printer back for a while; it ends by itself.
     *
     * @param duration above 0, at most a day
     * @throws InputError if there is no such printer, name or reason is blank, or the duration is out of bounds
     */
    public CompletionStage<Void> bypass(String printer, String name, String reason, Duration duration) {
        return supervisor(printer).bypass(name, reason, duration.toNanos());
    }

    /**
     * Shows a drill as the printer's last one.
     *
     * @throws InputError if there is no such printer
     */
    public void drilled(String printer, PrinterView.LastDrill drill) {
        supervisor(printer).drilled(drill);
    }

    /** Ends the watch in good order: links are closed and the journal says so. */
    @Override
    public void close() {
        if (closed.compareAndSet(false, true)) {
            supervisors.values().forEach(Supervisor::close);
            append("watch-stopped");
        }
    }

    private Supervisor supervisor(String printer) {
        Supervisor supervisor = supervisors.get(printer);
        if (supervisor == null) {
            throw new InputError(
                    "printer",
                    "there is no printer " + printer + " in this shop; it has " + names(supervisors.keySet()));
        }
        return supervisor;
    }

    private static String names(Collection<String> names) {
        return String.join(", ", names);
    }

    private void viewed(PrinterView view) {
        for (Consumer<PrinterView> listener : listeners) {
            listener.accept(view);
        }
    }

    private void tell(Notice notice) {
        notices.tell(notice);
        append("told", "about", notice.kind().word(), "printers", names(notice.printers()), "what", notice.happened());
    }

    private void append(String kind, Object... facts) {
        SortedMap<String, Object> map = new TreeMap<>();
        for (int i = 0; i < facts.length; i += 2) {
            map.put((String) facts[i], facts[i + 1]);
        }
        keep(new Journal.Entry(ticker.wallMillis(), "", kind, map));
    }

    /** Journals something that happened beside the guard, for example a drill; never waits, and a failure is told. */
    public void keep(Journal.Entry entry) {
        try {
            journal.append(entry).whenComplete((kept, error) -> journalled(error));
        } catch (RuntimeException e) {
            journalled(e);
        }
    }

    /** The watch goes on without its journal, but people know of it, once per failure. */
    private void journalled(@Nullable Throwable error) {
        if (error == null) {
            journalFails.set(false);
        } else if (journalFails.compareAndSet(false, true) && !closed.get()) {
            notices.tell(new Notice(
                    ticker.wallMillis(),
                    List.of(),
                    Notice.Kind.JOURNAL_FAILED,
                    "the journal cannot be written: " + error.getMessage(),
                    "the watch goes on; what happens now may be lost",
                    "see whether the disk is full or gone"));
        }
    }

    private void fault(String printer, Throwable fault) {
        StackTraceElement[] trace = fault.getStackTrace();
        String where = trace.length > 0 ? " at " + trace[0] : "";
        append("fault", "printer", printer, "what", fault + where);
        notices.tell(new Notice(
                ticker.wallMillis(),
                List.of(printer),
                Notice.Kind.FAULT,
                printer + ": the watch made a mistake of its own: " + fault,
                "the watch goes on",
                "report it with the journal"));
    }
}
