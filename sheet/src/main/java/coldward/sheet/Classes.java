package coldward.sheet;

import coldward.model.build.Fan;
import coldward.model.build.HotEnd;
import coldward.model.build.Sink;
import coldward.model.build.Uncertain;
import coldward.model.wiring.DiodeClass;
import coldward.quantity.Dimension;
import coldward.quantity.OwnBug;
import coldward.quantity.Units;
import coldward.sheet.keys.ClassTable;
import coldward.sheet.keys.Index;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Shape;
import coldward.sheet.keys.WiringClasses;
import coldward.sheet.yaml.Tree;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The named classes of parts that a sheet may use, with their facts. */
public final class Classes {

    /**
     * One class.
     *
     * @param group the sheet's key that takes it: neck, sink, fan, duct or hot_side
     * @param name as on the sheet
     * @param meaning one line
     * @param values texts by dotted path; a fan's at its own reference speed
     * @param addedSpreads what it adds, in squares, to the spread of what it feeds
     * @param source of the values, or that there is none
     */
    public record Part(
            String group,
            String name,
            String meaning,
            Map<String, String> values,
            Map<Uncertain, Double> addedSpreads,
            String source) {}

    private Classes() {}

    private static List<Part> of(ClassTable.Kind kind) {
        return ClassTable.of(kind).values().stream()
                .map(e -> new Part(kind.group(), e.name(), e.meaning(), e.values(), e.spreads(), e.source()))
                .toList();
    }

    /** Heat breaks. */
    public static List<Part> necks() {
        return of(ClassTable.Kind.NECK);
    }

    /** Finned bodies. */
    public static List<Part> sinks() {
        return of(ClassTable.Kind.SINK);
    }

    /** Fans by size. */
    public static List<Part> fans() {
        return of(ClassTable.Kind.FAN);
    }

    /** Ducts. */
    public static List<Part> ducts() {
        return of(ClassTable.Kind.DUCT);
    }

    /** Blocks with their heaters. */
    public static List<Part> hotSides() {
        return of(ClassTable.Kind.HOT_SIDE);
    }

    /** Diodes, as a wiring may name them. */
    public static List<DiodeClass> diodes() {
        return WiringClasses.of("diodes").values().stream().map(Classes::diode).toList();
    }

    private static DiodeClass diode(WiringClasses.Entry e) {
        return new DiodeClass(
                e.name(),
                value(e, "saturation"),
                value(e, "emission"),
                value(e, "series_resistance"),
                value(e, "gap"),
                value(e, "exponent"),
                value(e, "leakage"),
                value(e, "leakage_knee"),
                value(e, "leakage_doubling"),
                value(e, "reverse_limit"),
                value(e, "forward_limit"),
                e.name() + ": " + e.source());
    }

    private static double value(WiringClasses.Entry e, String key) {
        String text = e.values().get(key).orElse(e.values()) instanceof Tree.Scalar s ? s.text() : "";
        String path = "wiring." + e.kind() + "[]." + key;
        Key of = Index.SHEET.at(path).orElseThrow(() -> new OwnBug("no key " + path));
        return of.shape() instanceof Shape.Quantity q
                ? Units.parse(q.dimension(), key, text, of.example())
                : Double.parseDouble(text);
    }

    /**
     * A heat break of this class in the place of another.
     *
     * @param like whose filament, nozzle and shank dimensions it takes
     * @throws coldward.quantity.InputError if there is no such class
     */
    public static HeatBreak neck(String name, HotEnd like) {
        return Candidates.heatBreak(name, like);
    }

    /**
     * A fan of this size at a rated speed, by the fan laws.
     *
     * @param ratedSpeed rpm
     * @throws coldward.quantity.InputError if there is no such class or the speed is far from what it is known at
     */
    public static Fan fan(String name, double ratedSpeed) {
        return Candidates.fan(name, ratedSpeed);
    }

    /** The speed at which a fan class's figures are known, rpm, if there is such a class. */
    public static Optional<Double> fanSpeed(String name) {
        return ClassTable.named(ClassTable.Kind.FAN, name)
                .map(e -> e.values().get("fan.rated_speed"))
                .map(text -> Units.parse(Dimension.SPEED_OF_TURN, text));
    }

    /**
     * A sink of this class.
     *
     * @throws coldward.quantity.InputError if there is no such class
     */
    public static Sink sink(String name) {
        return Candidates.sink(name);
    }
}
