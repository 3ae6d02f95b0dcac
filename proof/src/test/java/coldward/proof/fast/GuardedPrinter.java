package coldward.proof.fast;

import coldward.model.build.Action;
import coldward.model.build.Reading;
import coldward.model.build.Trip;
import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import coldward.model.shop.WatchRules;
import coldward.rig.Failure;
import coldward.rig.Shown;
import coldward.rig.SimulatedPrinter;
import coldward.rig.Truth;
import coldward.watch.guard.Effect;
import coldward.watch.guard.FanState;
import coldward.watch.guard.Guard;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.GuardSettings;
import coldward.watch.guard.GuardState;
import coldward.watch.guard.Reads;
import coldward.watch.guard.Step;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * One simulated printer and its guard, in rig time: every report goes to the guard the moment it ends; a response
 * reaches the printer after the sheet's link latency, every action then takes its own.
 */
final class GuardedPrinter {

    private static final double NANOS = 1e9;

    /** s; for how long the filament must have been cooling, or firm, until the worst is over. */
    private static final double COOLING = 30;

    /** K within a second: what is slower has less than a degree to go, with the minutes that a sink takes. */
    private static final double STEADY = 1e-3;

    private final SimulatedPrinter printer;
    private final Guard guard;
    private final double interval;
    private final boolean acts;
    private GuardState state = GuardState.begin(0);
    private long reportSeen;
    private OptionalLong trippedAt = OptionalLong.empty();
    private OptionalLong actsAt = OptionalLong.empty();

    /** @param acts whether a trip is answered; a printer that is never answered goes on as if nothing had tripped */
    GuardedPrinter(SimulatedPrinter printer, Trip trip, boolean acts) {
        this.printer = printer;
        this.acts = acts;
        this.guard = new Guard(GuardSettings.of(
                printer.build(),
                trip,
                new WatchRules(10, OptionalDouble.empty(), 10, false, WatchRules.USUAL_DRILL_EVERY),
                Says.ALWAYS));
        this.interval = ((Reading.Tachometer) printer.build().reading()).reportInterval();
        listen();
    }

    /** Lets reports come until the guard holds the fan for turning, and a few more. */
    void settle(int reports) {
        for (int i = 0; i < reports; i++) {
            advance(interval);
        }
    }

    FanState fan() {
        return state.fan();
    }

    void fail(Failure failure) {
        printer.fail(failure);
    }

    /** Lets some time go by, s; nothing that happens within it is missed. */
    void advance(double seconds) {
        long end = now() + Math.round(seconds * NANOS);
        while (now() < end) {
            double step = Math.min((end - now()) / NANOS, toNextReport());
            if (actsAt.isPresent() && actsAt.getAsLong() > now()) {
                step = Math.min(step, (actsAt.getAsLong() - now()) / NANOS);
            }
            printer.advance(Math.max(step, 1e-9));
            listen();
            act();
        }
    }

    private double toNextReport() {
        long whole = Math.round(interval * NANOS);
        long left = whole - Math.floorMod(now(), whole);
        return left / NANOS;
    }

    private long now() {
        return printer.truth().at();
    }

    private void listen() {
        Shown shown = printer.shown();
        if (shown.report() == reportSeen) {
            return;
        }
        reportSeen = shown.report();
        Reads.Builder reads = new Reads.Builder()
                .with(ReadName.REPORT, (double) shown.report())
                .with(ReadName.DUTY, shown.commandedShare())
                .with(ReadName.NOZZLE, shown.nozzle());
        shown.speed().ifPresent(rpm -> reads.with(ReadName.SPEED, rpm));
        take(guard.step(state, new GuardEvent.Report(now(), reads.build())));
    }

    private void take(Step step) {
        state = step.state();
        for (Effect effect : step.effects()) {
            if (effect instanceof Effect.StartResponse) {
                trippedAt = OptionalLong.of(now());
                actsAt = OptionalLong.of(
                        now() + Math.round(printer.build().response().linkLatency() * NANOS));
            }
        }
    }

    private void act() {
        if (acts && actsAt.isPresent() && now() >= actsAt.getAsLong()) {
            for (Action action : Action.values()) {
                if (printer.build().response().actions().contains(action)) {
                    printer.act(action);
                }
            }
        }
    }

    OptionalLong trippedAt() {
        return trippedAt;
    }

    Truth truth() {
        return printer.truth();
    }

    /** Takes back a trip at once, as if somebody had looked. */
    void release() {
        take(guard.step(state, new GuardEvent.Release(now(), "proof", "the fan is healthy")));
        trippedAt = OptionalLong.empty();
        actsAt = OptionalLong.empty();
    }

    /**
     * Goes on until the worst is over: some time after the response took effect the filament has been cooling; or, with
     * no trip, until it is as warm as it gets.
     *
     * @param longest s
     */
    void toTheEnd(double longest) {
        double left = longest;
        double cooling = 0;
        double last = Double.POSITIVE_INFINITY;
        while (left > 0 && cooling < COOLING) {
            advance(1);
            left -= 1;
            Truth truth = printer.truth();
            boolean acted = truth.actions().values().stream().anyMatch(a -> a.effective() < truth.at());
            boolean steady = !acted && Math.abs(truth.filamentAtThroat() - last) < STEADY;
            cooling = steady || (acted && truth.filamentAtThroat() < last) ? cooling + 1 : 0;
            last = truth.filamentAtThroat();
        }
    }
}
