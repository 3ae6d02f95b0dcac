package coldward.model.verdict;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.HotEnd;
import coldward.model.build.Material;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Shank;
import coldward.quantity.Checks;
import coldward.quantity.OwnBug;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The single changes that are looked at where there is not time enough, in the order of what they cost a workshop:
 * settings first, then what the machine already has, then parts. The order is common practice, no source.
 */
public final class Changes {

    /**
     * One change.
     *
     * @param words what is changed
     * @param build the printer with it; its trip is the one before
     */
    public record Change(String words, Build build) {}

    private static final double COOLER_NOZZLE = 10;
    private static final double COOLER_AIR = 5;
    private static final double FASTER_FAN = 1.25;
    private static final double THIN_WALL = 0.25e-3;
    private static final double SHORTEST_REPORT = 0.25;
    private static final double FASTER_LINK = 0.25;
    private static final double FASTEST_LINK = 0.2;

    private final Build build;

    private Changes(Build build) {
        this.build = build;
    }

    /** Those that apply to a build, cheapest first; block-fan goes with hold and heater-off. */
    public static List<Change> of(Build build) {
        return new Changes(build).all();
    }

    private List<Change> all() {
        List<Change> found = new ArrayList<>();
        HotEnd hotEnd = build.hotEnd();
        fasterReading().ifPresent(found::add);
        fasterLink().ifPresent(found::add);
        blockFan().ifPresent(found::add);
        if (hotEnd.nozzle() - COOLER_NOZZLE > hotEnd.plastic().feedsAbove()) {
            found.add(heat(
                    "a nozzle 10 K cooler", hotEnd.withPlastic(hotEnd.plastic(), hotEnd.nozzle() - COOLER_NOZZLE)));
        }
        if (hotEnd.surroundings().air() - COOLER_AIR > 273.15 - 20) {
            found.add(
                    heat("air 5 K cooler", hotEnd.withAir(hotEnd.surroundings().air() - COOLER_AIR)));
        }
        if (hotEnd.sink().measured().isEmpty()) {
            found.add(heat(
                    "a fan a quarter faster (%.0f rpm)".formatted(hotEnd.fan().ratedSpeed() * FASTER_FAN),
                    faster(hotEnd)));
        }
        otherNeck(
                        "titanium",
                        "titanium",
                        build.hotEnd().neck().segments().getFirst().diameter())
                .map(other -> heat("a titanium heat break of the same size", other))
                .ifPresent(found::add);
        otherNeck("stainless steel", "copper", build.hotEnd().neck().metalInnerDiameter() + 2 * THIN_WALL)
                .map(other -> heat("a thin two-metal heat break", other))
                .ifPresent(found::add);
        return List.copyOf(found);
    }

    private Optional<Change> fasterReading() {
        if (!(build.reading() instanceof Reading.Tachometer reading) || reading.reportInterval() <= SHORTEST_REPORT) {
            return Optional.empty();
        }
        double interval = Math.max(SHORTEST_REPORT, reading.reportInterval() / 2);
        Reading faster = new Reading.Tachometer(reading.pulsesPerTurn(), reading.duty(), reading.counter(), interval);
        return Optional.of(new Change(
                "reports every %s s instead of %s s"
                        .formatted(Checks.number(interval), Checks.number(reading.reportInterval())),
                build.withReading(faster)));
    }

    private Optional<Change> fasterLink() {
        Response response = build.response();
        if (response.linkLatency() <= FASTEST_LINK) {
            return Optional.empty();
        }
        double latency = Math.max(FASTEST_LINK, response.linkLatency() * FASTER_LINK);
        return Optional.of(new Change(
                "a link of %s s instead of %s s"
                        .formatted(Checks.number(latency), Checks.number(response.linkLatency())),
                build.withResponse(response.withLinkLatency(latency))));
    }

    private Optional<Change> blockFan() {
        Response response = build.response();
        if (response.actions().contains(Action.BLOCK_FAN) || response.actions().contains(Action.POWER_OFF)) {
            return Optional.empty();
        }
        EnumSet<Action> more = EnumSet.copyOf(response.actions());
        more.addAll(Set.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN));
        return Optional.of(new Change("block-fan with the response", build.withResponse(response.withActions(more))));
    }

    private Change heat(String change, HotEnd other) {
        return new Change(change, build.withHotEnd(other));
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
