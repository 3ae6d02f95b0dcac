package coldward.sheet;

import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Neck;
import coldward.model.build.Origin;
import coldward.model.build.Plastic;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import coldward.model.build.Trip;
import coldward.model.wiring.Wiring;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import coldward.quantity.OwnBug;
import coldward.sheet.keys.SheetKeys;
import coldward.sheet.keys.Walk;
import coldward.sheet.keys.WiringClasses;
import coldward.sheet.yaml.Tree;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/** Makes records of a merged sheet; what a record refuses is told at the key it came from. */
final class BuildReader {

    /** Where a heat break's upper end is kept for the plausibility check, K: a sink that is warm to the hand. */
    private static final double WARM_SINK_K = 273.15 + 45;

    /** Metals that conduct better than this are no heat break unless thin and long: copper, aluminium, brass. W/(m K). */
    private static final double GOOD_CONDUCTOR = 60;

    /** Share of the heater that such a neck may take at most; a sound one takes 3 to 15 %. Common practice, no source. */
    private static final double MOST_OF_HEATER_GOOD = 0.25;

    /** The same for poor conductors, where only a nozzle that could not be heated is refused. */
    private static final double MOST_OF_HEATER_POOR = 0.80;

    /**
     * What came out.
     *
     * @param build there if nothing is wrong
     * @param problems in the file's order
     * @param facts what was read
     */
    record Outcome(Optional<Build> build, List<DataError> problems, Facts facts) {}

    private final Facts facts;

    private BuildReader(Facts facts) {
        this.facts = facts;
    }

    static Outcome read(String file, Tree.Dict merged) {
        Facts facts = new Facts(file, Walk.through(SheetKeys.SHEET, WiringClasses.filled(merged)));
        Map<String, Origin> origins = facts.settle();
        Optional<Build> build = facts.problems().isEmpty() ? new BuildReader(facts).build(origins) : Optional.empty();
        return new Outcome(build, List.copyOf(facts.problems()), facts);
    }

    /** Makes one part; a refusal is noted at its key. */
    private <T> Optional<T> part(String group, Supplier<T> maker) {
        try {
            return Optional.of(maker.get());
        } catch (InputError e) {
            facts.problem(key(group, e.name()), String.valueOf(e.getMessage()));
            return Optional.empty();
        }
    }

    /** Records name their arguments in their own words; here these become keys. */
    private String key(String group, String name) {
        String last = name.substring(name.lastIndexOf(' ') + 1);
        List<String> candidates = new ArrayList<>(List.of(
                name,
                name.replace(' ', '.'),
                group + "." + name,
                group + "." + last,
                group + "." + name.replace(' ', '.')));
        candidates.add(name.contains(" ") ? name.substring(0, name.indexOf(' ')) : group);
        return candidates.stream()
                .filter(facts::isGiven)
                .findFirst()
                .orElse(group.isEmpty() ? name.replace(' ', '.') : group);
    }

    private Optional<Build> build(Map<String, Origin> origins) {
        Optional<Surroundings> air = part("surroundings", this::surroundings);
        Optional<Plastic> plastic = part("plastic", this::plastic);
        Optional<Filament> filament = part("filament", this::filament);
        Optional<HotSide> hotSide = part("hot_side", this::hotSide);
        Optional<Neck> neck = part("neck", this::neck);
        Optional<Shank> shank = neck.flatMap(n -> part("shank", () -> shank(n)));
        Optional<Sink> sink = part("sink", this::sink);
        Optional<Fan> fan = part("fan", this::fan);
        Optional<Reading> reading = part("reading", this::reading);
        Optional<Optional<Trip>> trip = part("trip", this::trip);
        Optional<Response> response = part("response", this::response);
        Optional<Wiring> wiring = new WiringReader(facts).wiring();
        if (neck.isPresent() && hotSide.isPresent()) {
            checkNeck(neck.get(), hotSide.get());
        }
        if (!facts.problems().isEmpty()) {
            return Optional.empty();
        }
        return part(
                "",
                () -> new Build(
                        facts.text("printer"),
                        new HotEnd(
                                there(air),
                                there(plastic),
                                facts.quantity("nozzle"),
                                facts.quantity("feed"),
                                there(filament),
                                there(hotSide),
                                there(neck),
                                there(shank),
                                there(sink),
                                there(fan),
                                facts.quantity("duct.loss"),
                                facts.quantity("limits.softened_depth")),
                        there(reading),
                        there(trip),
                        there(response),
                        facts.quantity("limits.spurious_trips"),
                        Spreads.of(facts),
                        new LinkedHashMap<>(origins),
                        facts.quantity("limits.hours_per_year") / 3600,
                        wiring));
    }

    private static <T> T there(Optional<T> part) {
        return part.orElseThrow(() -> new OwnBug("a part is missing although nothing was refused"));
    }

    private Surroundings surroundings() {
        return new Surroundings(facts.quantity("surroundings.air"), facts.quantity("surroundings.pressure"));
    }

    private Plastic plastic() {
        return new Plastic(
                facts.text("plastic.name"),
                facts.quantity("plastic.conductivity"),
                facts.quantity("plastic.density"),
                facts.quantity("plastic.specific_heat"),
                facts.quantity("plastic.softens_at"),
                facts.quantity("plastic.feeds_above"),
                facts.ifThere("plastic.melt_specific_heat"));
    }

    private Filament filament() {
        return new Filament(facts.quantity("filament.diameter"), facts.quantity("filament.offset"));
    }

    private HotSide hotSide() {
        return new HotSide(
                facts.quantity("hot_side.heater"),
                facts.quantity("hot_side.block_heat_capacity"),
                facts.quantity("hot_side.block_loss"),
                facts.quantity("hot_side.block_loss_blown"),
                facts.quantity("hot_side.block_to_sink"));
    }

    private Neck neck() {
        List<Neck.Segment> segments = new ArrayList<>();
        int rows = facts.rows("neck.segments");
        for (int i = 0; i < rows; i++) {
            segments.add(segment("neck.segments[" + i + "]"));
        }
        if (rows == 0) {
            segments.add(segment("neck"));
        }
        Optional<Neck.Liner> liner = facts.ifThere("neck.liner.outer_diameter").isPresent()
                ? Optional.of(new Neck.Liner(
                        facts.quantity("neck.liner.outer_diameter"), facts.quantity("neck.liner.conductivity")))
                : Optional.empty();
        return new Neck(segments, facts.quantity("neck.bore"), liner);
    }

    private Neck.Segment segment(String path) {
        return new Neck.Segment(
                facts.material(path + ".material"),
                facts.quantity(path + ".length"),
                facts.quantity(path + ".diameter"));
    }

    private Shank shank(Neck neck) {
        Material material = facts.hasMaterial("shank.material")
                ? facts.material("shank.material")
                : neck.segments().getLast().material();
        return new Shank(
                material,
                facts.quantity("shank.diameter"),
                facts.quantity("shank.length"),
                facts.quantity("shank.contact"));
    }

    private Sink sink() {
        Optional<Sink.Measured> measured = facts.isGiven("sink.measured")
                ? Optional.of(
                        new Sink.Measured(facts.quantity("sink.measured.on"), facts.quantity("sink.measured.still")))
                : Optional.empty();
        return new Sink(
                facts.material("sink.material"),
                facts.quantity("sink.length"),
                facts.count("sink.fins"),
                facts.quantity("sink.fin_thickness"),
                facts.quantity("sink.fin_diameter"),
                facts.quantity("sink.core_diameter"),
                facts.quantity("sink.emissivity"),
                facts.quantity("sink.still_air_share"),
                facts.quantity("sink.mount_conductance"),
                measured);
    }

    private Fan fan() {
        return new Fan(
                facts.quantity("fan.rated_voltage"),
                facts.quantity("fan.rated_speed"),
                facts.quantity("fan.speed_tolerance"),
                curve(),
                facts.quantity("fan.tip_diameter"),
                facts.quantity("fan.hub_diameter"),
                facts.quantity("fan.through_share"),
                facts.quantity("fan.coast_down"),
                facts.quantity("fan.runs_above"));
    }

    private Fan.Curve curve() {
        int rows = facts.rows("fan.curve");
        if (rows == 0) {
            return new Fan.Straight(facts.quantity("fan.free_flow"), facts.quantity("fan.shutoff_pressure"));
        }
        List<Fan.Points.Point> points = new ArrayList<>();
        for (int i = 0; i < rows; i++) {
            String path = "fan.curve[" + i + "]";
            points.add(new Fan.Points.Point(facts.quantity(path + ".flow"), facts.quantity(path + ".pressure")));
        }
        return new Fan.Points(points, facts.yes("fan.curve_with_duct"));
    }

    private Reading reading() {
        String counter = facts.text("reading.counter");
        if (counter.equals("none")) {
            return new Reading.None();
        }
        Reading.Counter counts = switch (counter) {
            case "sampled" -> new Reading.Sampled(facts.quantity("reading.sampled_every"));
            case "edge" ->
                new Reading.Edge(facts.quantity("reading.shortest_level"), facts.quantity("reading.lock_out"));
            case "period-timer" -> new Reading.PeriodTimer(facts.quantity("reading.clock"));
            default -> throw new OwnBug("unknown counter " + counter);
        };
        return new Reading.Tachometer(
                facts.count("reading.pulses_per_turn"),
                facts.quantity("reading.duty"),
                counts,
                facts.quantity("reading.report_interval"));
    }

    private Optional<Trip> trip() {
        return facts.isGiven("trip")
                ? Optional.of(new Trip(
                        facts.quantity("trip.speed"), facts.count("trip.confirmations"), facts.quantity("trip.grace")))
                : Optional.empty();
    }

    private Response response() {
        return new Response(
                EnumSet.copyOf(facts.actions()),
                facts.quantity("response.hold_latency"),
                facts.quantity("response.heater_latency"),
                facts.quantity("response.block_fan_latency"),
                facts.quantity("response.power_latency"),
                facts.quantity("response.link_latency"));
    }

    /** Conduction through the neck's metal alone: segments in series, each k A / L. */
    private void checkNeck(Neck neck, HotSide hotSide) {
        double resistance = 0;
        double bore = neck.metalInnerDiameter();
        for (Neck.Segment s : neck.segments()) {
            double area = Math.PI / 4 * (s.diameter() * s.diameter() - bore * bore);
            resistance += s.length() / (s.material().conductivity() * area);
        }
        double nozzle = facts.quantity("nozzle");
        double watts = (nozzle - WARM_SINK_K) / resistance;
        double conductivity = neck.length()
                / neck.segments().stream()
                        .mapToDouble(s -> s.length() / s.material().conductivity())
                        .sum();
        double most = conductivity > GOOD_CONDUCTOR ? MOST_OF_HEATER_GOOD : MOST_OF_HEATER_POOR;
        if (watts > most * hotSide.heaterPower()) {
            String path = facts.rows("neck.segments") > 0 ? "neck.segments[0].material" : "neck.material";
            facts.problem(
                    path,
                    "a one-piece %s neck like this would pass %.0f W from %.0f degC to 45 degC, more than a heater of %s can spare; what is sold as a copper heat break is a thin neck of another metal with shank: {material: copper}"
                            .formatted(
                                    neck.segments().getFirst().material().name(),
                                    watts,
                                    nozzle - 273.15,
                                    facts.text("hot_side.heater")));
        }
    }
}
