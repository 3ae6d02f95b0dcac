package coldward.model;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Plastic;
import coldward.model.build.Plastics;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import coldward.model.build.Trip;
import coldward.model.heat.Race;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;

/**
 * Plausible printers by number: the same number is the same printer, for property tests anywhere. Ranges are common
 * practice, no source: slim and stout heat breaks of every metal, generous and tight sinks, rooms and warm chambers.
 */
public final class RandomBuilds {

    private static final double ZERO_CELSIUS = 273.15;

    private RandomBuilds() {}

    /** The printer of this number. */
    public static Build build(int number) {
        RandomGenerator random = generator(number);
        HotEnd hotEnd = hotEnd(random);
        Optional<Trip> trip = chance(random, 0.5)
                ? Optional.of(new Trip(
                        hotEnd.fan().ratedSpeed() * between(random, 0.3, 0.85),
                        1 + random.nextInt(5),
                        between(random, 1, 10)))
                : Optional.empty();
        return new Build(
                "printer " + number,
                hotEnd,
                reading(random),
                trip,
                response(random),
                between(random, 0.2, 5),
                Map.of(),
                Map.of());
    }

    /** Its hot end alone. */
    public static HotEnd hotEnd(int number) {
        return hotEnd(generator(number));
    }

    private static RandomGenerator generator(int number) {
        return new SplittableRandom(0x5EED_C01DL + 1_000_003L * number);
    }

    private static HotEnd hotEnd(RandomGenerator random) {
        boolean wide = chance(random, 0.2);
        double rod = wide ? 2.85e-3 : 1.75e-3;
        double bore = rod + between(random, 0.1e-3, 0.35e-3);
        Plastic plastic = pick(random, List.copyOf(Plastics.all().values()).reversed());
        double nozzle = plastic.feedsAbove() + between(random, 15, 60);
        double roomOrChamber =
                chance(random, 0.8) || plastic.softensAt() < 360 ? between(random, 12, 34) : between(random, 34, 60);
        Optional<Neck.Liner> liner = chance(random, 0.15)
                ? Optional.of(new Neck.Liner(bore + between(random, 0.8e-3, 2e-3), 0.25))
                : Optional.empty();
        double metalFrom = liner.map(Neck.Liner::outerDiameter).orElse(bore);
        Material metal = metal(random.nextInt(10) < 5 ? "titanium" : "stainless steel");
        Neck.Segment first =
                new Neck.Segment(metal, between(random, 1.5e-3, 4e-3), metalFrom + between(random, 0.4e-3, 1.4e-3));
        List<Neck.Segment> segments = chance(random, 0.2)
                ? List.of(
                        first,
                        new Neck.Segment(
                                metal, between(random, 0.5e-3, 2e-3), metalFrom + between(random, 0.4e-3, 1.4e-3)))
                : List.of(first);
        Material shankMetal = chance(random, 0.25) ? metal("copper") : metal;
        double shankDiameter = metalFrom + between(random, 3e-3, 4.5e-3);
        double shankLength = between(random, 4e-3, 10e-3);
        Shank shank = new Shank(shankMetal, shankDiameter, shankLength, between(random, 800, 8000));
        return new HotEnd(
                new Surroundings(roomOrChamber + ZERO_CELSIUS, between(random, 80_000, 103_000)),
                plastic,
                nozzle,
                between(random, 1e-9, 12e-9),
                new Filament(rod, between(random, 0, 0.95)),
                hotSide(random),
                new Neck(segments, bore, liner),
                shank,
                sink(random, shank),
                fan(random),
                between(random, 0, 3),
                between(random, 1e-3, 5e-3));
    }

    private static HotSide hotSide(RandomGenerator random) {
        double loss = between(random, 0.03, 0.1);
        return new HotSide(
                between(random, 30, 70),
                between(random, 6, 25),
                loss,
                loss * between(random, 1.5, 4),
                between(random, 0, 0.01));
    }

    private static Sink sink(RandomGenerator random, Shank shank) {
        double core = shank.diameter() + between(random, 1e-3, 4e-3);
        double length = shank.length() + between(random, 4e-3, 20e-3);
        double thickness = between(random, 0.7e-3, 1.3e-3);
        int fins = Math.max(1, (int) (length / (thickness + between(random, 1e-3, 2e-3))));
        double still = between(random, 0.03, 0.10);
        Optional<Sink.Measured> measured = chance(random, 0.2)
                ? Optional.of(new Sink.Measured(still + between(random, 0.05, 0.6), still))
                : Optional.empty();
        return new Sink(
                metal("aluminium"),
                length,
                fins,
                thickness,
                core + between(random, 6e-3, 16e-3),
                core,
                between(random, 0.05, 0.9),
                between(random, 0.5, 1),
                between(random, 0, 0.04),
                measured);
    }

    private static Fan fan(RandomGenerator random) {
        double freeFlow = between(random, 0.8e-3, 4e-3);
        double shutoff = between(random, 20, 70);
        Fan.Curve curve = chance(random, 0.7)
                ? new Fan.Straight(freeFlow, shutoff)
                : new Fan.Points(
                        List.of(
                                new Fan.Points.Point(0, shutoff),
                                new Fan.Points.Point(freeFlow * 0.4, shutoff * between(random, 0.4, 0.7)),
                                new Fan.Points.Point(freeFlow * 0.8, shutoff * between(random, 0.1, 0.35)),
                                new Fan.Points.Point(freeFlow, 0)),
                        chance(random, 0.5));
        double tip = between(random, 22e-3, 38e-3);
        return new Fan(
                chance(random, 0.5) ? 24 : 12,
                Math.rint(between(random, 40, 130)) * 100,
                between(random, 0.05, 0.15),
                curve,
                tip,
                tip * between(random, 0.4, 0.65),
                between(random, 0.3, 0.9),
                chance(random, 0.1) ? 0 : between(random, 0.2, 3),
                50 + ZERO_CELSIUS);
    }

    private static Reading reading(RandomGenerator random) {
        if (chance(random, 0.1)) {
            return new Reading.None();
        }
        Reading.Counter counter = switch (random.nextInt(3)) {
            case 0 -> new Reading.Sampled(between(random, 0.5e-3, 3e-3));
            case 1 -> new Reading.Edge(0, chance(random, 0.5) ? 0.2e-3 : 0);
            default -> new Reading.PeriodTimer(1e6);
        };
        return new Reading.Tachometer(2, between(random, 0.4, 0.6), counter, between(random, 0.2, 5));
    }

    private static Response response(RandomGenerator random) {
        Set<Action> actions = pick(random, Race.RESPONSES);
        return new Response(
                actions,
                between(random, 0, 6),
                between(random, 0, 2),
                between(random, 0, 2),
                between(random, 0, 3),
                between(random, 0, 1));
    }

    private static Material metal(String name) {
        return Materials.named(name).orElseThrow();
    }

    private static <T> T pick(RandomGenerator random, List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private static boolean chance(RandomGenerator random, double share) {
        return random.nextDouble() < share;
    }

    private static double between(RandomGenerator random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }
}
