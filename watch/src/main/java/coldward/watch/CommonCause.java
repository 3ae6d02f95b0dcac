package coldward.watch;

import coldward.quantity.Ticker;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * Several printers that go unheard within a short time have one cause, and people get one notice that names it. The
 * first silence waits that long for company; only the telling waits, never a response. A silence that is over by then is
 * not told at all, it is in the journal.
 */
final class CommonCause implements Supervisor.Silence {

    /** ns; printers polled twice a second that lose the same network are told within it (own choice). */
    static final long WINDOW = 2_000_000_000L;

    private final Ticker ticker;
    private final Consumer<Notice> tell;
    private final List<Silent> silent = new ArrayList<>();

    /** A telling is due; guarded by {@link #silent}. */
    private boolean waiting;

    private record Silent(String printer, String place, double seconds) {}

    CommonCause(Ticker ticker, Consumer<Notice> tell) {
        this.ticker = ticker;
        this.tell = tell;
    }

    @Override
    public void unheard(String printer, String place, double seconds) {
        boolean first;
        synchronized (silent) {
            first = !waiting;
            waiting = true;
            silent.add(new Silent(printer, place, seconds));
        }
        if (first) {
            ticker.after(WINDOW, this::tellTogether);
        }
    }

    @Override
    public boolean heardAgain(String printer) {
        synchronized (silent) {
            return !silent.removeIf(s -> s.printer().equals(printer));
        }
    }

    private void tellTogether() {
        List<Silent> together;
        synchronized (silent) {
            together = List.copyOf(silent);
            silent.clear();
            waiting = false;
        }
        List<String> printers =
                together.stream().map(Silent::printer).distinct().sorted().toList();
        String done = "nothing yet; where the shop file says so, the response starts after its time";
        if (printers.isEmpty()) {
            return;
        }
        if (printers.size() == 1) {
            Silent one = together.getFirst();
            tell.accept(new Notice(
                    ticker.wallMillis(),
                    printers,
                    Notice.Kind.UNHEARD,
                    "%s: no report for %s s while hot, about to be, or working".formatted(one.printer(), one.seconds()),
                    done,
                    "look at the printer and at its connection (" + one.place() + ")"));
            return;
        }
        List<String> places =
                together.stream().map(Silent::place).distinct().sorted().toList();
        String cause = places.size() == 1
                ? "all are reached through " + places.getFirst() + ", which is the likely common cause"
                : "the network, its power or this computer's connection is the likely common cause";
        tell.accept(new Notice(
                ticker.wallMillis(),
                printers,
                Notice.Kind.UNHEARD,
                "%d printers fell silent together (%s): %s"
                        .formatted(printers.size(), String.join(", ", printers), cause),
                done,
                "mend the connection first; look at the hot printers meanwhile"));
    }
}
