package coldward.app.race;

import coldward.model.build.Build;
import coldward.model.build.Response;
import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.Assessment.Outcome;
import coldward.model.verdict.Uncertainty;
import coldward.quantity.Checks;
import java.util.Optional;

/** The verdict in words; the same sentence in terminal, figure and JSON. */
public final class Sentences {

    private Sentences() {}

    /**
     * The margin to judge by: of the nominal deadline, or of its 5 % quantile where there are draws.
     */
    public static Optional<Margin> margin(Assessment assessment, Optional<Uncertainty> uncertainty) {
        if (!(assessment.outcome() instanceof Outcome.Raced raced)) {
            return Optional.empty();
        }
        return Optional.of(Margin.of(judged(assessment, uncertainty, raced), raced.stopTime()));
    }

    /** The deadline to judge by, likewise. */
    private static Deadline judged(Assessment assessment, Optional<Uncertainty> uncertainty, Outcome.Raced raced) {
        return uncertainty.map(u -> own(u, assessment).p05()).orElse(raced.deadline());
    }

    private static Uncertainty.Band own(Uncertainty uncertainty, Assessment assessment) {
        return uncertainty.worse(assessment.build().response().actions());
    }

    /** True if the verdict is safe: with draws, in at least 95 % of them. */
    public static boolean safe(Assessment assessment, Optional<Uncertainty> uncertainty) {
        return margin(assessment, uncertainty).map(Margin::saves).orElse(false);
    }

    /** One sentence, two at most. */
    public static String verdict(Assessment assessment, Optional<Uncertainty> uncertainty) {
        Build build = assessment.build();
        String who = build.printer() + " with " + build.hotEnd().plastic().name();
        String actions = Response.words(build.response().actions());
        return switch (assessment.outcome()) {
            case Outcome.SoftWhileHealthy(var from) ->
                "%s cannot run: %s, its cold side is soft %s mm up with a healthy fan; %s mm is the limit."
                        .formatted(
                                who,
                                from.word(),
                                number(1e3 * softened(assessment)),
                                number(1e3 * build.hotEnd().softenedDepthLimit()));
            case Outcome.Unprotected(Deadline deadline) ->
                "%s is unprotected: no speed is read, so nothing notices a stopped fan. %s.%s"
                        .formatted(who, softening(assessment), couldBe(actions, deadline));
            case Outcome.NoTripSpeed(double unsafe, double spurious) ->
                ("%s is not safe: no trip speed tells a healthy fan from an unsafe one (a fast one is unsafe below %.0f"
                                + " rpm, a slow healthy one trips too often for nothing above %.0f rpm).")
                        .formatted(who, unsafe, spurious);
            case Outcome.TripsAtOnce(double trip, double shown) ->
                "%s would trip at once: the trip speed is %.0f rpm but the healthy fan shows %.0f rpm."
                        .formatted(who, trip, shown);
            case Outcome.Raced raced -> raced(assessment, uncertainty, who, actions, raced);
        };
    }

    private static String raced(
            Assessment assessment, Optional<Uncertainty> uncertainty, String who, String actions, Outcome.Raced raced) {
        Margin margin = margin(assessment, uncertainty).orElseThrow();
        Deadline deadline = judged(assessment, uncertainty, raced);
        String regime = assessment.worse().word();
        // over draws the sentence speaks of the worst twentieth
        String sure = uncertainty.isPresent() ? " in 95 of 100 draws" : "";
        String doubt = uncertainty.isPresent() ? "in the worst 5 of 100 draws " : "";
        return switch (margin) {
            case Margin.Unlimited() ->
                "%s is safe%s: with %s the cold side stays firm whenever the response comes."
                        .formatted(who, sure, actions);
            case Margin.NothingSaves() ->
                "%s is not safe: %s%s comes too late even at the moment the fan stops (%s). Softening is then likely, a jam not certain.%s %s."
                        .formatted(
                                who,
                                uncertainty.map(u -> never(u, assessment)).orElse(""),
                                actions,
                                regime,
                                uncertainty.map(u -> median(u, assessment)).orElse(""),
                                softening(assessment));
            case Margin.Seconds(double s) ->
                "%s %s%s: %s%s. %s is %sin time until %s s after the fan stops (%s), and the machine is safe after %s s.%s"
                        .formatted(
                                who,
                                s > 0 ? "is safe" : "is not safe",
                                s > 0 ? sure : "",
                                s > 0 ? "" : doubt,
                                margin.words(),
                                actions,
                                s > 0 && uncertainty.isPresent() ? "then " : "",
                                until(((Deadline.Until) deadline).seconds()),
                                regime,
                                number(raced.stopTime()),
                                s > 0 ? "" : " Softening is then likely, a jam not certain.");
        };
    }

    private static String never(Uncertainty uncertainty, Assessment assessment) {
        return "in %.0f of 100 draws "
                .formatted(100 * own(uncertainty, assessment).never());
    }

    private static String median(Uncertainty uncertainty, Assessment assessment) {
        Deadline middle = own(uncertainty, assessment).p50();
        return switch (middle) {
            case Deadline.Never n -> "";
            case Deadline.Until(double s) -> " In the median it is in time until " + until(s) + " s.";
            case Deadline.Always a -> " In the median it is always in time.";
        };
    }

    private static String couldBe(String actions, Deadline deadline) {
        return switch (deadline) {
            case Deadline.Never n -> " Even " + actions + " at once would be too late";
            case Deadline.Until u -> " " + actions + " would be in time until " + until(u.seconds()) + " s";
            case Deadline.Always a -> " " + actions + " would always be in time";
        };
    }

    /** When it softens with nothing done. */
    public static String softening(Assessment assessment) {
        var seconds = assessment.softens().get(assessment.worse());
        return seconds == null || seconds.isEmpty()
                ? "With nothing done it does not soften within half an hour"
                : "With nothing done it softens after " + number(seconds.getAsDouble()) + " s";
    }

    private static double softened(Assessment assessment) {
        var standing = assessment.standing().get(assessment.worse());
        return standing == null ? 0 : standing.softenedDepth();
    }

    /** A deadline for reading, rounded down: the words never promise more than the number. */
    public static String until(double seconds) {
        return seconds < 10 ? Checks.number(Math.floor(seconds * 10) / 10) : Checks.number(Math.floor(seconds));
    }

    /** A number for reading: one decimal below ten, none above. */
    public static String number(double value) {
        return Math.abs(value) < 10 ? Checks.number(Math.rint(value * 10) / 10) : Checks.number(Math.rint(value));
    }
}
