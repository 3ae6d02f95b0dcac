package coldward.watch.drill;

import coldward.model.build.Action;
import coldward.model.heat.Deadline;
import coldward.quantity.OwnBug;
import coldward.watch.PrinterView;
import coldward.watch.PrinterView.ActionView;
import coldward.watch.PrinterView.TripView;
import coldward.watch.drill.DrillResult.Step;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One drill under way, fed with views of its printer and with the time; no clock of its own. Not for several threads at
 * once.
 */
final class DrillRun {

    private static final double NS = 1e9;

    /** s beyond the predicted 99 % after which nothing more is waited for. */
    private static final double PATIENCE = 30;

    private static final double PATIENCE_WITHOUT_FORECAST = 60;

    private final DrillKind kind;
    private final DrillSubject subject;
    private final boolean working;
    private final double healthy;
    private final Optional<DrillForecast> forecast;
    private final long begunAt;

    private Optional<FailureMoment> failure = Optional.empty();
    private double lowest;
    private Optional<Fallen> fallen = Optional.empty();
    private Optional<TripView> trip = Optional.empty();
    private boolean over;

    /** The first report that fell: when it was seen, ns, and what it showed, rpm. */
    private record Fallen(long seenAt, double rpm) {}

    /**
     * @param healthy rpm shown now, above 0
     * @param forecast what the model expects, as far as it is known before
     */
    DrillRun(
            DrillKind kind,
            DrillSubject subject,
            boolean working,
            double healthy,
            Optional<DrillForecast> forecast,
            long now) {
        this.kind = kind;
        this.subject = subject;
        this.working = working;
        this.healthy = healthy;
        this.lowest = healthy;
        this.forecast = forecast;
        this.begunAt = now;
    }

    DrillKind kind() {
        return kind;
    }

    Optional<FailureMoment> failure() {
        return failure;
    }

    /** The fan fails now; told twice, the first time counts. */
    void failed(FailureMoment moment) {
        if (failure.isEmpty()) {
            failure = Optional.of(moment);
        }
    }

    /** s after the failure after which nothing more is waited for. */
    double longest() {
        return forecast.map(f -> f.safe().high() + PATIENCE).orElse(PATIENCE_WITHOUT_FORECAST);
    }

    /** Something new about the printer; costs next to nothing, since it is told on the way to the response. */
    void see(PrinterView view, long now) {
        if (over) {
            return;
        }
        view.speed().ifPresent(rpm -> {
            lowest = Math.min(lowest, rpm);
            if (fallen.isEmpty() && rpm < healthy * (1 - FailureMoment.HEALTHY)) {
                fallen = Optional.of(new Fallen(view.heardAt().orElse(now), rpm));
            }
        });
        trip = view.trip();
        look(now);
    }

    /** Whether the printer is safe, has been given up, or has been waited for long enough. */
    void look(long now) {
        if (failure.isPresent()) {
            boolean safe = trip.filter(t -> t.safeAt().isPresent()).isPresent();
            boolean lost = trip.filter(t -> t.outcome() == PrinterView.Outcome.UNCONFIRMED)
                    .isPresent();
            over |= safe || lost || failure.get().until(now) > longest();
        }
    }

    /** Nothing that comes later changes the result. */
    boolean over() {
        return over;
    }

    /** The result of a drill that is over. */
    DrillResult result() {
        FailureMoment moment = failure.orElseThrow(() -> new OwnBug("a drill without a failure has no result"));
        OptionalDouble tripped = OptionalDouble.empty();
        OptionalDouble safe = OptionalDouble.empty();
        List<Step> steps = new ArrayList<>();
        if (trip.isPresent()) {
            TripView seen = trip.get();
            tripped = OptionalDouble.of(moment.until(seen.trippedAt()));
            if (seen.safeAt().isPresent()) {
                safe = OptionalDouble.of(moment.until(seen.safeAt().getAsLong()));
            }
            for (ActionView action : seen.actions()) {
                step(moment, action).ifPresent(steps::add);
            }
        }
        Optional<DrillForecast> expected =
                kind == DrillKind.LOW_SUPPLY ? forecast(kind, subject, healthy, lowest / healthy, working) : forecast;
        Deadline deadline = working ? subject.workingDeadline() : subject.idleDeadline();
        return new DrillResult(
                kind,
                moment.by(),
                moment.uncertain(),
                working,
                healthy,
                lowest,
                signalLater(moment),
                tripped,
                steps,
                safe,
                expected,
                deadline,
                DrillResult.judge(kind, moment.uncertain(), tripped, safe, expected, deadline));
    }

    /** What the model expects of a drill; a lowered supply leads to the lowest speed that was seen. */
    static Optional<DrillForecast> forecast(
            DrillKind kind, DrillSubject subject, double healthy, double lowered, boolean working) {
        return DrillForecast.of(
                kind, subject.build(), subject.trip(), healthy, Math.clamp(lowered, 0, 1), working, subject.look());
    }

    private static Optional<Step> step(FailureMoment moment, ActionView view) {
        Action action = view.action();
        if (view.sentAt().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Step(
                action,
                moment.until(view.sentAt().getAsLong()),
                view.confirmedAt().isPresent()
                        ? OptionalDouble.of(moment.until(view.confirmedAt().getAsLong()))
                        : OptionalDouble.empty()));
    }

    private OptionalDouble signalLater(FailureMoment moment) {
        return fallen.flatMap(f -> FailureMoment.beforeSeen(
                                kind, subject.build(), f.rpm() / healthy, lowest / healthy, subject.look())
                        .map(before -> moment.until(f.seenAt()) - before))
                .map(OptionalDouble::of)
                .orElse(OptionalDouble.empty());
    }

    /** s since it began. */
    double age(long now) {
        return (now - begunAt) / NS;
    }
}
