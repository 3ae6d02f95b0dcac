package coldward.model.verdict;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.trip.Margin;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/** Looks for the single {@link Changes} that help where there is not time enough, cheapest first. */
public final class Helps {

    private static final int NAMED = 3;
    private static final double WORTH_SAYING = 1.0;

    private final Build build;
    private final Margin present;

    /** With the sheet's trip; where there is none each change gets the one recommended for it. */
    Helps(Build build, Margin present) {
        this.build = build;
        this.present = present;
    }

    List<Advice> cheapest() {
        return Changes.of(build).stream()
                .flatMap(change -> advice(change).stream())
                .filter(advice -> helps(present, advice.margin()))
                .limit(NAMED)
                .toList();
    }

    /** True if a margin is better than before by what is worth saying. */
    public static boolean helps(Margin present, Margin then) {
        return switch (present) {
            case Margin.Seconds(double now) ->
                then instanceof Margin.Seconds(double seconds)
                        ? seconds - now >= WORTH_SAYING
                        : then instanceof Margin.Unlimited;
            case Margin.NothingSaves() -> !(then instanceof Margin.NothingSaves);
            case Margin.Unlimited() -> false;
        };
    }

    private static Optional<Advice> advice(Changes.Change change) {
        Build other = change.build();
        Race race = new Race(other.hotEnd());
        if (race.softWhileHealthy()) {
            return Optional.empty();
        }
        Set<Action> actions = other.response().actions();
        Optional<Trip> trip = other.trip().or(() -> Assessment.chosen(Assessment.choice(other)));
        OptionalDouble stop = Assessment.stopSeconds(other, trip, actions);
        if (stop.isEmpty()) {
            return Optional.empty();
        }
        Deadline deadline = race.deadline(actions);
        return Optional.of(
                new Advice(change.words(), deadline, stop.getAsDouble(), Margin.of(deadline, stop.getAsDouble())));
    }
}
