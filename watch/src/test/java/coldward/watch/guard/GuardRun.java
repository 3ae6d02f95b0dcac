package coldward.watch.guard;

import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** Feeds a guard by hand, in seconds; keeps every effect. */
final class GuardRun {

    static final long S = 1_000_000_000L;
    static final double TRIP = 5200;

    /** Trip 5200 rpm, 3 confirmations, 5 s grace, a report a second, silence after 4 s, everything only told. */
    static GuardSettings settings() {
        return new GuardSettings(
                TRIP, 3, 5 * S, S, 50 + 273.15, Says.ALWAYS, 4 * S, OptionalLong.empty(), 4, false, 2 * S);
    }

    static GuardSettings saying(Says says) {
        GuardSettings s = settings();
        return new GuardSettings(
                s.tripSpeed(),
                s.confirmations(),
                s.grace(),
                s.reportInterval(),
                s.runsAbove(),
                says,
                s.unheardAfter(),
                s.unheardRespondsAfter(),
                s.contradictedRise(),
                s.contradictedResponds(),
                s.coastAllowance());
    }

    static GuardSettings responding(OptionalLong unheard, boolean contradicted) {
        GuardSettings s = settings();
        return new GuardSettings(
                s.tripSpeed(),
                s.confirmations(),
                s.grace(),
                s.reportInterval(),
                s.runsAbove(),
                s.says(),
                s.unheardAfter(),
                unheard,
                s.contradictedRise(),
                contradicted,
                s.coastAllowance());
    }

    final Guard guard;
    GuardState state = GuardState.begin(0);
    final List<Effect> effects = new ArrayList<>();

    GuardRun(GuardSettings settings) {
        guard = new Guard(settings);
    }

    GuardRun() {
        this(settings());
    }

    /** Turning since 0 s, its grace over; the last report came at 6 s. */
    static GuardRun turning(GuardSettings settings) {
        GuardRun run = new GuardRun(settings);
        for (int t = 0; t <= 6; t++) {
            run.speed(t, 8000);
        }
        return run;
    }

    FanState at(GuardEvent event) {
        Step step = guard.step(state, event);
        state = step.state();
        effects.addAll(step.effects());
        return state.fan();
    }

    /** A report of a fan at half duty. */
    FanState speed(double seconds, double rpm) {
        return report(seconds, rpm, 0.5, 220);
    }

    FanState report(double seconds, double rpm, double duty, double nozzleCelsius) {
        return at(new GuardEvent.Report(
                ns(seconds),
                new Reads.Builder()
                        .with(ReadName.SPEED, rpm)
                        .with(ReadName.DUTY, duty)
                        .with(ReadName.NOZZLE, nozzleCelsius + 273.15)
                        .build()));
    }

    FanState numbered(double seconds, double rpm, double number) {
        return at(new GuardEvent.Report(
                ns(seconds),
                new Reads.Builder()
                        .with(ReadName.SPEED, rpm)
                        .with(ReadName.DUTY, 1)
                        .with(ReadName.REPORT, number)
                        .build()));
    }

    FanState tick(double seconds) {
        return at(new GuardEvent.Tick(ns(seconds)));
    }

    Optional<TripCause> trip() {
        return effects.stream()
                .filter(Effect.StartResponse.class::isInstance)
                .map(e -> ((Effect.StartResponse) e).cause())
                .findFirst();
    }

    List<Effect.Matter> told() {
        return effects.stream()
                .filter(Effect.Tell.class::isInstance)
                .map(e -> ((Effect.Tell) e).matter())
                .toList();
    }

    static long ns(double seconds) {
        return Math.round(seconds * S);
    }
}
