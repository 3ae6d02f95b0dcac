package coldward.model.verdict;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.heat.Standing;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTime;
import coldward.model.trip.StopTimes;
import coldward.model.trip.TripChoice;
import coldward.model.trip.Trips;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * The answer for one build.
 *
 * @param build the printer
 * @param standing steady state per regime
 * @param softens softening time per regime, s; empty if not within the horizon; absent where soft while healthy
 * @param deadlines every regime and reported response; empty where soft while healthy in either regime
 * @param unsafeSpeed larger unsafe speed of the regimes, share of rated speed
 * @param trip the sheet's trip, or the recommended one; empty where no speed tells healthy from unsafe
 * @param provisionalTrip true if the trip is not the sheet's
 * @param stopTime of the sheet's response; empty where there is no trip
 * @param worse the regime with the earlier deadline for the sheet's response
 * @param recommended the response with the largest margin
 * @param highestSafeAir K, with the recommended response; empty if there is none or nothing notices a failure
 * @param outcome what it comes to
 * @param advice single changes that help, cheapest first; empty where there is time enough
 * @param warnings about the range of validity
 */
public record Assessment(
        Build build,
        Map<Regime, Standing> standing,
        Map<Regime, OptionalDouble> softens,
        List<Row> deadlines,
        double unsafeSpeed,
        Optional<Trip> trip,
        boolean provisionalTrip,
        Optional<StopTime> stopTime,
        Regime worse,
        Set<Action> recommended,
        OptionalDouble highestSafeAir,
        Outcome outcome,
        List<Advice> advice,
        List<String> warnings) {

    /** One deadline. */
    public record Row(Regime from, Set<Action> actions, Deadline deadline) {}

    /** What it comes to. */
    public sealed interface Outcome {

        /** The cold side is softer than its limit with a healthy fan. */
        record SoftWhileHealthy(Regime from) implements Outcome {}

        /** The response is in time, or not, by this margin. */
        record Raced(Deadline deadline, double stopTime, Margin margin) implements Outcome {}

        /** Nothing reports the speed, so nothing notices. */
        record Unprotected(Deadline deadline) implements Outcome {}

        /** No trip speed tells a healthy fan from an unsafe one; rpm, as in {@link TripChoice.NoRoom}. */
        record NoTripSpeed(double unsafeBelow, double spuriousAbove) implements Outcome {}

        /** The sheet's trip speed is above what the healthy fan shows. */
        record TripsAtOnce(double tripSpeed, double shownSpeed) implements Outcome {}

        /** True if the machine is saved with time to spare. */
        default boolean safe() {
            return this instanceof Raced raced && raced.margin().saves();
        }
    }

    /** Assesses a build with nominal inputs. */
    public static Assessment of(Build build) {
        Race race = new Race(build.hotEnd());
        Map<Regime, Standing> standing = new EnumMap<>(Regime.class);
        Map<Regime, OptionalDouble> softens = new EnumMap<>(Regime.class);
        List<Row> rows = new ArrayList<>();
        for (Regime regime : Regime.values()) {
            standing.put(regime, race.standing(regime));
            if (!race.softWhileHealthy(regime)) {
                softens.put(regime, race.softens(regime));
            }
        }
        double unsafe = race.unsafeSpeed();
        // the choice takes many steady states: only where the sheet leaves the trip open
        Optional<TripChoice> choice = build.trip().isPresent() ? Optional.empty() : Optional.of(choice(build));
        Optional<Trip> trip = build.trip().or(() -> choice.flatMap(Assessment::chosen));
        Optional<StopTime> stop = build.reading() instanceof Reading.None
                ? Optional.of(new StopTime.NeverNoticed())
                : trip.map(t -> StopTimes.of(build, t));
        Set<Action> own = build.response().actions();
        if (race.softWhileHealthy()) {
            Regime soft = race.softWhileHealthy(Regime.HOT_IDLE) ? Regime.HOT_IDLE : Regime.PRINTING;
            return new Assessment(
                    build,
                    standing,
                    softens,
                    List.of(),
                    unsafe,
                    trip,
                    build.trip().isEmpty(),
                    stop,
                    soft,
                    own,
                    OptionalDouble.empty(),
                    new Outcome.SoftWhileHealthy(soft),
                    helps(build, new Margin.NothingSaves()),
                    race.warnings());
        }
        for (Regime regime : Regime.values()) {
            for (Set<Action> response : Race.RESPONSES) {
                rows.add(new Row(regime, response, race.deadline(regime, response)));
            }
        }
        Deadline deadline = race.deadline(own);
        Set<Action> recommended = recommended(build, race, trip);
        OptionalDouble air = stopSeconds(build, trip, recommended).stream()
                .mapToObj(s -> race.highestSafeAir(recommended, s))
                .findFirst()
                .orElse(OptionalDouble.empty());
        Outcome outcome = outcome(choice, stop, deadline);
        List<Advice> advice = switch (outcome) {
            case Outcome.Raced raced when !raced.safe() -> helps(build, raced.margin());
            case Outcome.NoTripSpeed none -> helps(build, new Margin.NothingSaves());
            default -> List.of();
        };
        return new Assessment(
                build,
                standing,
                softens,
                rows,
                unsafe,
                trip,
                build.trip().isEmpty(),
                stop,
                worse(race, own),
                recommended,
                air,
                outcome,
                advice,
                race.warnings());
    }

    /** The trip recommended for a build from its sheet alone: {@link UnsafeSpeeds} and {@link HealthyFan#ofSheet}. */
    public static TripChoice choice(Build build) {
        return Trips.recommended(build, HealthyFan.ofSheet(build), UnsafeSpeeds.quantile95(build));
    }

    static Optional<Trip> chosen(TripChoice choice) {
        return choice instanceof TripChoice.Chosen c ? Optional.of(c.trip()) : Optional.empty();
    }

    private static List<Advice> helps(Build build, Margin present) {
        return new Helps(build, present).cheapest();
    }

    /**
     * The single changes that help, cheapest first, also where the nominal margin is positive: for an answer that is not
     * safe only over its draws.
     */
    public List<Advice> changes() {
        return switch (outcome) {
            // where the nominal answer is not safe either they are known already
            case Outcome.Raced raced when raced.safe() -> helps(build, raced.margin());
            default -> advice;
        };
    }

    /** The deadline of one of the reported responses in a regime; empty where there is no race, or it is not reported. */
    public Optional<Deadline> deadline(Regime from, Set<Action> response) {
        return deadlines.stream()
                .filter(r -> r.from() == from && r.actions().equals(response))
                .map(Row::deadline)
                .findFirst();
    }

    /** The same in the worse regime. */
    public Optional<Deadline> deadline(Set<Action> response) {
        return Arrays.stream(Regime.values())
                .flatMap(r -> deadline(r, response).stream())
                .min(Deadline::compareTo);
    }

    private static Regime worse(Race race, Set<Action> response) {
        int order = race.deadline(Regime.PRINTING, response).compareTo(race.deadline(Regime.HOT_IDLE, response));
        if (order == 0) {
            order = Double.compare(
                    race.softens(Regime.PRINTING).orElse(Double.POSITIVE_INFINITY),
                    race.softens(Regime.HOT_IDLE).orElse(Double.POSITIVE_INFINITY));
        }
        return order < 0 ? Regime.PRINTING : Regime.HOT_IDLE;
    }

    private static Outcome outcome(Optional<TripChoice> choice, Optional<StopTime> stop, Deadline deadline) {
        if (choice.isPresent() && choice.get() instanceof TripChoice.NoRoom(double unsafeBelow, double spuriousAbove)) {
            return new Outcome.NoTripSpeed(unsafeBelow, spuriousAbove);
        }
        return switch (stop.orElseThrow()) {
            case StopTime.NeverNoticed n -> new Outcome.Unprotected(deadline);
            case StopTime.AlwaysLow(double tripSpeed, double shown) -> new Outcome.TripsAtOnce(tripSpeed, shown);
            case StopTime.Noticed noticed -> {
                double seconds = noticed.p99().total();
                yield new Outcome.Raced(deadline, seconds, Margin.of(deadline, seconds));
            }
        };
    }

    /** The stop time, 99 % over the phase, of any response with this trip, s; empty if nothing notices. */
    public static OptionalDouble stopSeconds(Build build, Optional<Trip> trip, Set<Action> actions) {
        if (trip.isPresent()
                && StopTimes.of(build.withResponse(build.response().withActions(actions)), trip.get())
                        instanceof StopTime.Noticed noticed) {
            return OptionalDouble.of(noticed.p99().total());
        }
        return OptionalDouble.empty();
    }

    private static Set<Action> recommended(Build build, Race race, Optional<Trip> trip) {
        List<Set<Action>> whole = wholeResponses();
        Set<Action> own = build.response().actions();
        // where nothing saves it the sheet's own response stands, if it is one to recommend at all
        Set<Action> best = stopsBoth(own) ? own : whole.getFirst();
        double bestMargin = Double.NEGATIVE_INFINITY;
        for (Set<Action> response : whole) {
            double margin = race.deadline(response).order()
                    - stopSeconds(build, trip, response).orElse(0);
            if (margin > bestMargin + 0.5) {
                best = response;
                bestMargin = margin;
            }
        }
        return best;
    }

    /** The reported responses that are ever recommended. */
    public static List<Set<Action>> wholeResponses() {
        return Race.RESPONSES.stream().filter(Assessment::stopsBoth).toList();
    }

    /** [hold] lets the block heat on, [heater-off] alone lets the job go on: reported, never recommended. */
    public static boolean stopsBoth(Set<Action> actions) {
        return actions.contains(Action.POWER_OFF)
                || (actions.contains(Action.HOLD) && actions.contains(Action.HEATER_OFF));
    }
}
