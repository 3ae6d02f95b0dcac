package coldward.model.verdict;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.HotEnd;
import coldward.model.build.Material;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Reading;
import coldward.model.build.Shank;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.trip.Margin;
import coldward.model.trip.TripChoice;
import coldward.model.trip.Trips;
import coldward.quantity.OwnBug;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * Looks for the single changes that help where there is not time enough, in the order of what they cost a workshop:
 * settings first, then what the machine already has, then parts. The order is common practice, no source.
 */
final class Helps {

    private static final int NAMED = 3;
    private static final double WORTH_SAYING = 1.0;
    private static final double COOLER_NOZZLE = 10;
    private static final double COOLER_AIR = 5;
    private static final double FASTER_FAN = 1.25;
    private static final double THIN_WALL = 0.25e-3;
    private static final double SHORTEST_REPORT = 0.25;

    private final Build build;
    private final Optional<Trip> own;
    private final Set<Action> response;
    private final Margin present;

    /**
     * @param own the sheet's trip; where there is none each change gets a provisional one of its own
     */
    Helps(Build build, Optional<Trip> own, Set<Action> response, Margin present) {
        this.build = build;
        this.own = own;
        this.response = response;
        this.present = present;
    }

    List<Advice> cheapest() {
        List<Advice> found = new ArrayList<>();
        fasterReading().ifPresent(found::add);
        blockFan().ifPresent(found::add);
        HotEnd hotEnd = build.hotEnd();
        if (hotEnd.nozzle() - COOLER_NOZZLE > hotEnd.plastic().feedsAbove()) {
            heat("a nozzle 10 K cooler", hotEnd.withPlastic(hotEnd.plastic(), hotEnd.nozzle() - COOLER_NOZZLE))
                    .ifPresent(found::add);
        }
        if (hotEnd.surroundings().air() - COOLER_AIR > 273.15 - 20) {
            heat("air 5 K cooler", hotEnd.withAir(hotEnd.surroundings().air() - COOLER_AIR))
                    .ifPresent(found::add);
        }
        if (hotEnd.sink().measured().isEmpty()) {
            heat("a fan a quarter faster (%.0f rpm)".formatted(hotEnd.fan().ratedSpeed() * FASTER_FAN), faster(hotEnd))
                    .ifPresent(found::add);
        }
        otherNeck(
                        "titanium",
                        "titanium",
                        build.hotEnd().neck().segments().getFirst().diameter())
                .flatMap(other -> heat("a titanium heat break of the same size", other))
                .ifPresent(found::add);
        otherNeck("stainless steel", "copper", build.hotEnd().neck().metalInnerDiameter() + 2 * THIN_WALL)
                .flatMap(other -> heat("a thin two-metal heat break", other))
                .ifPresent(found::add);
        return found.stream().filter(this::helps).limit(NAMED).toList();
    }

    private boolean helps(Advice advice) {
        return switch (present) {
            case Margin.Seconds(double now) ->
                advice.margin() instanceof Margin.Seconds(double then)
                        ? then - now >= WORTH_SAYING
                        : advice.margin() instanceof Margin.Unlimited;
            case Margin.NothingSaves() -> !(advice.margin() instanceof Margin.NothingSaves);
            case Margin.Unlimited() -> false;
        };
    }

    private Optional<Advice> fasterReading() {
        if (!(build.reading() instanceof Reading.Tachometer reading) || reading.reportInterval() <= SHORTEST_REPORT) {
            return Optional.empty();
        }
        double interval = Math.max(SHORTEST_REPORT, reading.reportInterval() / 2);
        Reading faster = new Reading.Tachometer(reading.pulsesPerTurn(), reading.duty(), reading.counter(), interval);
        Build other = build.withReading(faster);
        return advice(
                "reports every %s s instead of %s s"
                        .formatted(
                                coldward.quantity.Checks.number(interval),
                                coldward.quantity.Checks.number(reading.reportInterval())),
                other,
                response);
    }

    private Optional<Advice> blockFan() {
        if (response.contains(Action.BLOCK_FAN) || response.contains(Action.POWER_OFF)) {
            return Optional.empty();
        }
        EnumSet<Action> more = EnumSet.copyOf(response);
        more.addAll(Set.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN));
        return advice("block-fan with the response", build, more);
    }

    private Optional<Advice> heat(String change, HotEnd other) {
        return advice(change, build.withHotEnd(other), response);
    }

    private Optional<Advice> advice(String change, Build other, Set<Action> actions) {
        Race race = new Race(other.hotEnd());
        if (race.softWhileHealthy()) {
            return Optional.empty();
        }
        Optional<Trip> trip = own.or(() -> Trips.usual(other, race.unsafeSpeed())
                        instanceof TripChoice.Provisional(Trip chosen, double u, double h)
                ? Optional.of(chosen)
                : Optional.empty());
        OptionalDouble stop = Assessment.stopSeconds(other, trip, actions);
        if (stop.isEmpty()) {
            return Optional.empty();
        }
        Deadline deadline = race.deadline(actions);
        return Optional.of(new Advice(change, deadline, stop.getAsDouble(), Margin.of(deadline, stop.getAsDouble())));
    }

    private static HotEnd faster(HotEnd hotEnd) {
        Fan fan = hotEnd.fan();
        // the trip speed stays: the same speed is then a smaller share of the faster fan's
        return hotEnd.withFan(new Fan(
                fan.ratedVoltage(),
                fan.ratedSpeed() * FASTER_FAN,
                fan.speedTolerance(),
                fan.curve().atSpeed(FASTER_FAN),
                fan.tipDiameter(),
                fan.hubDiameter(),
                fan.throughShare(),
                fan.coastDown(),
                fan.runsAbove()));
    }

    private Optional<HotEnd> otherNeck(String neckMetal, String shankMetal, double diameter) {
        HotEnd hotEnd = build.hotEnd();
        Material neck = metal(neckMetal);
        Material shank = metal(shankMetal);
        Shank before = hotEnd.shank();
        boolean same = hotEnd.neck().segments().stream()
                        .allMatch(s ->
                                s.material().conductivity() <= neck.conductivity() && s.diameter() <= diameter + 1e-9)
                && before.material().equals(shank);
        if (same || diameter >= before.diameter()) {
            return Optional.empty();
        }
        Neck other = new Neck(
                List.of(new Neck.Segment(neck, hotEnd.neck().length(), diameter)),
                hotEnd.neck().bore(),
                hotEnd.neck().liner());
        return Optional.of(
                hotEnd.withHeatBreak(other, new Shank(shank, before.diameter(), before.length(), before.contact())));
    }

    private static Material metal(String name) {
        return Materials.named(name).orElseThrow(() -> new OwnBug("metal " + name + " is missing"));
    }
}
