package coldward.watch.drill;

import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import coldward.watch.Journal;
import coldward.watch.PrinterView;
import coldward.watch.Watch;
import coldward.watch.guard.FanState;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Drills on a running watch, one at a time for each printer. The watch itself does not know that it is a drill: it trips
 * and responds as ever, so the real path is what is timed. Begun and ended drills are journalled.
 */
public final class Drills {

    /** s after which a drill that was prepared but never carried out is given up (own choice). */
    public static final double PREPARED_FOR = 600;

    private final Watch watch;
    private final Ticker ticker;
    private final Map<String, DrillSubject> subjects;

    /** Under way; guarded by itself, as {@link #results} is by it. */
    private final Map<String, DrillRun> runs = new HashMap<>();

    private final Map<String, DrillResult> results = new HashMap<>();

    /** What becomes of the wish to begin. */
    public sealed interface Begin {

        /**
         * Ready: fail the fan and say so in the same moment.
         *
         * @param speed rpm shown now
         * @param forecast what the model expects; for a lowered supply not known before the speed is
         */
        record Ready(double speed, Optional<DrillForecast> forecast) implements Begin {}

        /**
         * Not now.
         *
         * @param why one sentence with what to do about it
         */
        record Refused(String why) implements Begin {}
    }

    /**
     * A drill as it stands.
     *
     * @param sinceFailure s; empty while the failure is not told yet, and after the end
     * @param view the printer
     * @param result of the last drill, once it is over
     */
    public record Look(Optional<Double> sinceFailure, PrinterView view, Optional<DrillResult> result) {}

    /**
     * Drills of a watch.
     *
     * @param watch whose printers
     * @param ticker the watch's clock
     * @param subjects every printer that can be drilled, by name
     */
    public Drills(Watch watch, Ticker ticker, Map<String, DrillSubject> subjects) {
        this.watch = watch;
        this.ticker = ticker;
        this.subjects = Map.copyOf(subjects);
        watch.onView(this::viewed);
    }

    /**
     * Begins a drill.
     *
     * @param printer which
     * @param kind how it will fail
     * @param lowered for a lowered supply: the share of the speed it will lead to, where that is known
     * @param althoughWorking a job may be running
     * @throws InputError if there is no such printer
     */
    public Begin begin(String printer, DrillKind kind, Optional<Double> lowered, boolean althoughWorking) {
        PrinterView view = watch.view(printer);
        DrillSubject subject = subjects.get(printer);
        if (subject == null) {
            return new Begin.Refused(printer + " cannot be drilled: it has no trip speed");
        }
        Optional<String> hindrance = hindrance(view, althoughWorking);
        if (hindrance.isPresent()) {
            return new Begin.Refused(hindrance.get());
        }
        double speed = view.speed().orElse(0);
        boolean working = view.reads().find(ReadName.WORKING).orElse(0) > 0.5;
        // a lowered supply may lead to any speed: nothing is expected before that is known
        Optional<DrillForecast> forecast = kind == DrillKind.LOW_SUPPLY && lowered.isEmpty()
                ? Optional.empty()
                : DrillRun.forecast(kind, subject, speed, lowered.orElse(0.0), working);
        DrillRun run = new DrillRun(kind, subject, working, speed, forecast, ticker.nanos());
        synchronized (runs) {
            giveUpOld(ticker.nanos());
            DrillRun before = runs.get(printer);
            if (before != null && before.failure().isPresent()) {
                return new Begin.Refused("a drill of " + printer + " is under way; wait for its end");
            }
            if (before != null) {
                giveUp(printer, before, "another drill was begun");
            }
            runs.put(printer, run);
            results.remove(printer);
        }
        SortedMap<String, Object> facts = new TreeMap<>();
        facts.put("how", kind.word());
        facts.put("working", working ? 1L : 0L);
        facts.put("although_working", althoughWorking ? 1L : 0L);
        facts.put("speed_rpm", Math.round(speed));
        append(printer, "drill-started", facts);
        return new Begin.Ready(speed, forecast);
    }

    private static Optional<String> hindrance(PrinterView view, boolean althoughWorking) {
        String name = view.printer();
        if (view.bypassUntil().isPresent()) {
            return Optional.of(name + " is bypassed, so nothing would trip; wait until the bypass is over");
        }
        if (view.fan() != FanState.TURNING) {
            return Optional.of(
                    switch (view.fan()) {
                        case TRIPPED -> name + " is tripped; release it by name first";
                        case RESTING ->
                            name + "'s fan rests; heat the nozzle until the fan turns, so that the drill tries the real"
                                    + " thing";
                        case UNHEARD -> name + " is unheard; mend its connection first";
                        default -> name + "'s fan is " + view.fan().word() + "; wait until it is turning";
                    });
        }
        if (view.speed().orElse(0) <= 0) {
            return Optional.of(name + " shows no speed; a drill needs a turning fan");
        }
        if (althoughWorking) {
            return Optional.empty();
        }
        if (!view.reads().has(ReadName.WORKING)) {
            return Optional.of(
                    name + " does not say whether a job is running, and a drill spoils one; if none is, or it may be"
                            + " spoiled, say so with --although-working");
        }
        return view.reads().get(ReadName.WORKING) > 0.5
                ? Optional.of(name + " is running a job, which the drill would spoil; wait for its end, or accept that"
                        + " with --although-working")
                : Optional.empty();
    }

    /**
     * The fan fails at this moment.
     *
     * @param by how that is known
     * @return false if no drill was begun
     * @throws InputError if there is no such printer
     */
    public boolean failed(String printer, FailureMoment.By by) {
        long now = ticker.nanos();
        watch.view(printer);
        synchronized (runs) {
            DrillRun run = runs.get(printer);
            if (run == null) {
                return false;
            }
            run.failed(FailureMoment.told(now, by));
            ticker.after(Math.round(run.longest() * 1e9) + 1, () -> timeUp(printer, run));
            return true;
        }
    }

    /**
     * How the drill of a printer stands.
     *
     * @return empty if none was begun since the watch began
     * @throws InputError if there is no such printer
     */
    public Optional<Look> look(String printer) {
        PrinterView view = watch.view(printer);
        long now = ticker.nanos();
        synchronized (runs) {
            Optional<DrillResult> result = Optional.ofNullable(results.get(printer));
            Optional<DrillRun> run = Optional.ofNullable(runs.get(printer));
            if (result.isEmpty() && run.isEmpty()) {
                return Optional.empty();
            }
            return Optional.of(new Look(
                    run.flatMap(DrillRun::failure).map(f -> f.until(now)),
                    view,
                    run.isPresent() ? Optional.empty() : result));
        }
    }

    /**
     * Gives up a drill whose failure was not told yet.
     *
     * @return false if there was none
     * @throws InputError if there is no such printer
     */
    public boolean giveUp(String printer) {
        watch.view(printer);
        synchronized (runs) {
            DrillRun run = runs.get(printer);
            if (run == null || run.failure().isPresent()) {
                return false;
            }
            giveUp(printer, run, "given up before the failure");
            return true;
        }
    }

    private void giveUp(String printer, DrillRun run, String why) {
        runs.remove(printer);
        SortedMap<String, Object> facts = new TreeMap<>();
        facts.put("how", run.kind().word());
        facts.put("why", why);
        append(printer, "drill-given-up", facts);
    }

    private void giveUpOld(long now) {
        Map.copyOf(runs).forEach((printer, run) -> {
            if (run.failure().isEmpty() && run.age(now) > PREPARED_FOR) {
                giveUp(printer, run, "not carried out in time");
            }
        });
    }

    private void viewed(PrinterView view) {
        synchronized (runs) {
            DrillRun run = runs.get(view.printer());
            if (run != null && !run.over()) {
                run.see(view, ticker.nanos());
                if (run.over()) {
                    // judging takes its time, which the response behind this call must not wait for
                    ticker.after(0, () -> conclude(view.printer(), run));
                }
            }
        }
    }

    private void timeUp(String printer, DrillRun run) {
        synchronized (runs) {
            if (run.over()) {
                return;
            }
            run.look(ticker.nanos());
        }
        if (run.over()) {
            conclude(printer, run);
        }
    }

    private void conclude(String printer, DrillRun run) {
        DrillResult result = run.result();
        long at = ticker.wallMillis();
        watch.drilled(printer, new PrinterView.LastDrill(at, result.verdict().passed()));
        watch.keep(new Journal.Entry(at, printer, DrillResult.ENTRY, result.facts()));
        synchronized (runs) {
            results.put(printer, result);
            runs.remove(printer, run);
        }
    }

    private void append(String printer, String kind, SortedMap<String, Object> facts) {
        watch.keep(new Journal.Entry(ticker.wallMillis(), printer, kind, facts));
    }
}
