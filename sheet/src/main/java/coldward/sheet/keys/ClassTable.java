package coldward.sheet.keys;

import coldward.model.build.Uncertain;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The named classes of parts: generic kinds with the values they stand for, where these come from, and by how much
 * such parts scatter. Spreads add in squares to the usual spread of the uncertain input they feed.
 */
public final class ClassTable {

    /** What a class is a class of; its key in the sheet is the word. */
    public enum Kind {
        NECK("neck"),
        SINK("sink"),
        FAN("fan"),
        DUCT("duct"),
        HOT_SIDE("hot_side");

        private final String group;

        Kind(String group) {
            this.group = group;
        }

        /** The sheet's group that takes classes of this kind. */
        public String group() {
            return group;
        }
    }

    /**
     * One class.
     *
     * @param name as on the sheet
     * @param values texts by dotted path from the sheet's root
     * @param spreads added spread, by what it feeds
     * @param source of the values that feed an uncertain input, or that there is none
     * @param meaning one line
     */
    public record Entry(
            Kind kind,
            String name,
            Map<String, String> values,
            Map<Uncertain, Double> spreads,
            String source,
            String meaning) {
        public Entry {
            values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
            spreads = Map.copyOf(spreads);
        }

        /** Where one of the values comes from: a data sheet gives a fan's flow and pressure, not its dimensions. */
        public String source(String path) {
            return kind == Kind.FAN && !feeding(kind, Uncertain.SINK_ON).contains(path) ? PRACTICE : source;
        }
    }

    private static final String PRACTICE = Key.COMMON_PRACTICE;
    private static final Map<Kind, Map<String, Entry>> ALL = new EnumMap<>(Kind.class);

    static {
        NeckAndSinkClasses.all().forEach(ClassTable::add);
        fan(
                "25x10 axial",
                "10000 rpm",
                "1.11 l/s",
                "36.5 Pa",
                "23 mm",
                "14 mm",
                "0.5 s",
                "typical of makers' catalogues, 1.8-3.2 CFM and 2.5-6 mmH2O at 8000-13000 rpm (from memory)",
                "25 mm square, 10 mm deep");
        fan(
                "30x10 axial",
                "8000 rpm",
                "1.70 l/s",
                "33.3 Pa",
                "28 mm",
                "16 mm",
                "0.8 s",
                "typical of makers' catalogues, 3.0-4.8 CFM and 2.5-5.5 mmH2O at 7000-10000 rpm (from memory)",
                "30 mm square, 10 mm deep");
        fan(
                "40x10 axial",
                "7000 rpm",
                "8.0 CFM",
                "0.19 inH2O",
                "37 mm",
                "20 mm",
                "1.5 s",
                "maker's data sheet, 40x40x10 axial, 7000 rpm, measured per AMCA 210",
                "40 mm square, 10 mm deep");
        fan(
                "40x15 axial",
                "13100 rpm",
                "0.36 m^3/min",
                "192 Pa",
                "37 mm",
                "20 mm",
                "1.5 s",
                "maker's data sheet, 40x40x15 axial, 12 V, 13100 rpm",
                "40 mm square, 15 mm deep");
        fan(
                "40x20 axial",
                "8300 rpm",
                "0.233 m^3/min",
                "69.6 Pa",
                "37 mm",
                "21 mm",
                "1.5 s",
                "maker's data sheet, 40x40x20 axial, 24 V, 8300 rpm",
                "40 mm square, 20 mm deep");
        fan(
                "40x28 axial",
                "12500 rpm",
                "0.46 m^3/min",
                "258 Pa",
                "38 mm",
                "22 mm",
                "2 s",
                "maker's data sheet, 40x40x28 axial, 24 V, 12500 rpm",
                "40 mm square, 28 mm deep");
        duct("direct", "1.0", "the fan blows straight at the fins: one exit loss (White, Fluid Mechanics, 6.9)");
        duct("short duct", "2.0", "a hood or short duct with one turn");
        duct("long duct", "4.0", "a longer duct with two turns or a grille");
        hotSide("small", "40 W", "8 J/K", "0.045 W/K", "0.13 W/K", "small block, about 7 g of aluminium");
        hotSide("usual", "50 W", "12 J/K", "0.06 W/K", "0.18 W/K", "usual block, about 12 g of aluminium, with sock");
        hotSide("high-flow", "60 W", "18 J/K", "0.08 W/K", "0.24 W/K", "long block or copper block for high feed");
    }

    private ClassTable() {}

    private static void add(Entry entry) {
        ALL.computeIfAbsent(entry.kind(), k -> new LinkedHashMap<>()).put(entry.name(), entry);
    }

    private static void fan(
            String name,
            String speed,
            String flow,
            String pressure,
            String tip,
            String hub,
            String coast,
            String source,
            String meaning) {
        add(new Entry(
                Kind.FAN,
                name,
                Map.ofEntries(
                        Map.entry("fan.rated_speed", speed),
                        Map.entry("fan.free_flow", flow),
                        Map.entry("fan.shutoff_pressure", pressure),
                        Map.entry("fan.tip_diameter", tip),
                        Map.entry("fan.hub_diameter", hub),
                        Map.entry("fan.coast_down", coast)),
                Map.of(Uncertain.SINK_ON, 0.20),
                source + ", scaled to the rated speed by the fan laws (AMCA 210, ISO 5801)",
                meaning));
    }

    private static void duct(String name, String loss, String meaning) {
        add(new Entry(Kind.DUCT, name, Map.of("duct.loss", loss), Map.of(Uncertain.SINK_ON, 0.10), PRACTICE, meaning));
    }

    private static void hotSide(
            String name, String heater, String capacity, String loss, String blown, String meaning) {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("hot_side.heater", heater);
        values.put("hot_side.block_heat_capacity", capacity);
        values.put("hot_side.block_loss", loss);
        values.put("hot_side.block_loss_blown", blown);
        values.put("hot_side.block_to_sink", "0.005 W/K");
        add(new Entry(
                Kind.HOT_SIDE,
                name,
                values,
                Map.of(
                        Uncertain.BLOCK_LOSS, 0.25,
                        Uncertain.BLOCK_TO_SINK, 0.40,
                        Uncertain.BLOCK_HEAT_CAPACITY, 0.25),
                PRACTICE,
                meaning));
    }

    /** Which values of a class feed which uncertain input: a class widens it only while one of them is its own. */
    public static List<String> feeding(Kind kind, Uncertain input) {
        return switch (kind) {
            case NECK -> List.of("neck.material", "neck.length", "neck.diameter");
            case SINK ->
                input == Uncertain.SINK_HEAT_CAPACITY
                        ? List.of("sink.length", "sink.fins", "sink.fin_thickness", "sink.fin_diameter")
                        : List.of("sink.length", "sink.fins", "sink.fin_diameter", "sink.core_diameter");
            case FAN -> List.of("fan.free_flow", "fan.shutoff_pressure");
            case DUCT -> List.of("duct.loss");
            case HOT_SIDE ->
                switch (input) {
                    case BLOCK_TO_SINK -> List.of("hot_side.block_to_sink");
                    case BLOCK_HEAT_CAPACITY -> List.of("hot_side.block_heat_capacity");
                    default -> List.of("hot_side.block_loss");
                };
        };
    }

    /** All classes of a kind, by name. */
    public static Map<String, Entry> of(Kind kind) {
        return Collections.unmodifiableMap(ALL.getOrDefault(kind, Map.of()));
    }

    /** One class, if there is one of this name. */
    public static Optional<Entry> named(Kind kind, String name) {
        return Optional.ofNullable(of(kind).get(name));
    }

    /** The names of a kind's classes. */
    public static List<String> names(Kind kind) {
        return List.copyOf(of(kind).keySet());
    }

    /** The kind whose classes this group takes, if any. */
    public static Optional<Kind> kindOf(String group) {
        for (Kind kind : Kind.values()) {
            if (kind.group().equals(group)) {
                return Optional.of(kind);
            }
        }
        return Optional.empty();
    }
}
