package coldward.rig;

import coldward.quantity.Ticker;
import java.util.function.Function;

/** A simulated printer that keeps step with the real clock, used by requests and by the step task alike. */
final class RunningPrinter {

    private static final double NANOS = 1e9;

    /**
     * How much is made up for at once, ns. After a long pause (a computer that slept) the rig runs ahead of real time,
     * piece by piece, instead of keeping a request waiting.
     */
    private static final long MOST_AT_ONCE = 2_000_000_000;

    private final SimulatedPrinter printer;
    private final Ticker ticker;
    private long reached;

    RunningPrinter(SimulatedPrinter printer, Ticker ticker) {
        this.printer = printer;
        this.ticker = ticker;
        this.reached = ticker.nanos();
    }

    String name() {
        return printer.name();
    }

    /** Does something with the printer as it is at this moment. */
    synchronized <T> T now(Function<SimulatedPrinter, T> work) {
        catchUp();
        return work.apply(printer);
    }

    /** Brings the printer up to this moment. */
    synchronized void catchUp() {
        long step = Math.min(ticker.nanos() - reached, MOST_AT_ONCE);
        if (step > 0) {
            printer.advance(step / NANOS);
            reached += step;
        }
    }
}
