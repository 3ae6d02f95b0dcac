package coldward.sheet.keys;

import static coldward.quantity.Dimension.AIR_FLOW;
import static coldward.quantity.Dimension.CONDUCTANCE;
import static coldward.quantity.Dimension.CONDUCTIVITY;
import static coldward.quantity.Dimension.DENSITY;
import static coldward.quantity.Dimension.FEED;
import static coldward.quantity.Dimension.HEAT_CAPACITY;
import static coldward.quantity.Dimension.HEAT_TRANSFER;
import static coldward.quantity.Dimension.LENGTH;
import static coldward.quantity.Dimension.POWER;
import static coldward.quantity.Dimension.PRESSURE;
import static coldward.quantity.Dimension.SHARE;
import static coldward.quantity.Dimension.SPECIFIC_HEAT;
import static coldward.quantity.Dimension.SPEED_OF_TURN;
import static coldward.quantity.Dimension.TEMPERATURE;
import static coldward.quantity.Dimension.TIME;
import static coldward.quantity.Dimension.VOLTAGE;
import static coldward.sheet.keys.Key.COMMON_PRACTICE;
import static coldward.sheet.keys.Key.choice;
import static coldward.sheet.keys.Key.coefficient;
import static coldward.sheet.keys.Key.count;
import static coldward.sheet.keys.Key.group;
import static coldward.sheet.keys.Key.keys;
import static coldward.sheet.keys.Key.quantity;
import static coldward.sheet.keys.Key.text;
import static coldward.sheet.keys.Key.yesNo;

import java.util.List;
import java.util.Optional;

/** Every key of a build sheet. */
public final class SheetKeys {

    /** Classes that are assumed where a group is absent have this source. */
    private static final String ASSUMED = "assumed where nothing is said";

    static final String REFERENCE_MODEL = "reference model of the project";

    /** The whole sheet. */
    public static final Shape.Group SHEET = Shape.Group.of(keys(
            text("based_on", "other.yaml", "another sheet, relative to this one, whose keys hold unless given here")
                    .optional(),
            text("printer", "heron", "the printer's name").required(),
            group("surroundings", surroundings(), "{air: 25 degC}", "the air that the fan draws in"),
            group(
                            "plastic",
                            Shape.Group.orWord("name", plastic()),
                            "PLA",
                            "what is printed: a known name, or a map; an unknown one must state softens_at")
                    .required(),
            quantity("nozzle", TEMPERATURE, "100 degC", "600 degC", "235 degC", "set temperature")
                    .required(),
            quantity("feed", FEED, "0 mm^3/s", "500 mm^3/s", "5 mm^3/s", "filament melted while printing")
                    .or("5 mm^3/s", COMMON_PRACTICE),
            group("filament", filament(), "{diameter: 1.75 mm}", "the plastic rod"),
            group("hot_side", hotSide(), "{class: usual}", "block and heater: values, or a class"),
            quantity("bore", LENGTH, "0.5 mm", "6 mm", "2.0 mm", "bore of the heat break; the same as neck.bore")
                    .optional(),
            group("neck", neck(), "{class: thin titanium}", "thin part of the heat break: values, segments, or a class")
                    .required(),
            group("shank", Shape.Group.of(shank()), "{material: copper}", "the heat break's part inside the sink"),
            group(
                    "sink",
                    Shape.Group.orWord("class", sink()),
                    "{class: round 22 mm}",
                    "the finned body that the fan cools"),
            group(
                            "fan",
                            Shape.Group.orWord("class", fan()),
                            "{class: 40x10 axial, rated_speed: 8000 rpm}",
                            "the cold side's fan: values, or a size class with a rated speed")
                    .required(),
            group("duct", Shape.Group.orWord("class", duct()), "{class: direct}", "between fan and fins"),
            group("limits", Shape.Group.of(GuardKeys.limits()), "{softened_depth: 3 mm}", "what is tolerated"),
            group("reading", GuardKeys.reading(), "{counter: edge}", "how the speed is reported; none where it is not"),
            group(
                            "trip",
                            Shape.Group.of(GuardKeys.trip()),
                            "{speed: 5200 rpm}",
                            "when the machine is stopped; open where absent")
                    .optional(),
            group(
                    "response",
                    Shape.Group.of(GuardKeys.response()),
                    "{actions: [hold, heater-off]}",
                    "what is done on a trip"),
            group(
                            "wiring",
                            Shape.Group.of(WiringKeys.wiring()),
                            "{boards: [{name: main, class: \"24 V board, 3.3 V logic\"}], fan: 24 V 30x10 three-wire}",
                            "boards, contacts, wires and the fan's leads")
                    .optional(),
            group(
                            "spreads",
                            Shape.Group.of(GuardKeys.spreads()),
                            "{sink_on: 20 %}",
                            "how sure the uncertain inputs are")
                    .optional()));

    /**
     * Two ways of saying one thing: where the first is given, the others are not wanted, and giving both is an error.
     *
     * @param instead dotted path
     * @param of dotted paths
     */
    public record Alternative(String instead, List<String> of) {}

    /** All of them. */
    public static final List<Alternative> ALTERNATIVES = List.of(
            new Alternative("neck.segments", List.of("neck.material", "neck.length", "neck.diameter")),
            new Alternative("fan.curve", List.of("fan.free_flow", "fan.shutoff_pressure")),
            new Alternative("hot_side.block_cooldown", List.of("hot_side.block_loss")));

    /** Groups whose assumed class holds only if none of its own geometry is given. */
    public static final List<String> ALL_OR_CLASS = List.of("sink");

    private SheetKeys() {}

    private static Shape.Group surroundings() {
        return Shape.Group.of(keys(
                quantity(
                                "air",
                                TEMPERATURE,
                                "-40 degC",
                                "150 degC",
                                "25 degC",
                                "air at the fan; in a chamber the chamber's")
                        .or("25 degC", COMMON_PRACTICE),
                quantity("pressure", PRESSURE, "40 kPa", "120 kPa", "101325 Pa", "air pressure; lower on high ground")
                        .or("101325 Pa", "standard atmosphere, ISO 2533")));
    }

    private static List<Key> plastic() {
        return keys(
                text("name", "PLA", "PLA, PETG, ABS, ASA, PC, or another with its own softens_at")
                        .required(),
                quantity(
                                "softens_at",
                                TEMPERATURE,
                                "0 degC",
                                "400 degC",
                                "60 degC",
                                "above it the rod cannot be pushed")
                        .or("", "table of plastics; an unknown plastic must state it"),
                quantity("conductivity", CONDUCTIVITY, "0.05 W/(m K)", "5 W/(m K)", "0.18 W/(m K)", "below melting")
                        .or("0.2 W/(m K)", COMMON_PRACTICE),
                quantity("density", DENSITY, "500 kg/m^3", "5000 kg/m^3", "1240 kg/m^3", "below melting")
                        .or("1150 kg/m^3", COMMON_PRACTICE),
                quantity(
                                "specific_heat",
                                SPECIFIC_HEAT,
                                "300 J/(kg K)",
                                "5000 J/(kg K)",
                                "1300 J/(kg K)",
                                "below melting")
                        .or("1500 J/(kg K)", COMMON_PRACTICE),
                quantity(
                                "feeds_above",
                                TEMPERATURE,
                                "50 degC",
                                "500 degC",
                                "170 degC",
                                "a colder block cannot be fed through")
                        .or("220 degC", COMMON_PRACTICE),
                quantity(
                                "melt_specific_heat",
                                SPECIFIC_HEAT,
                                "300 J/(kg K)",
                                "5000 J/(kg K)",
                                "1900 J/(kg K)",
                                "of the melt, for heater power only; absent: specific_heat")
                        .optional());
    }

    private static Shape.Group filament() {
        return Shape.Group.of(keys(
                quantity("diameter", LENGTH, "0.5 mm", "5 mm", "1.75 mm", "of the rod")
                        .or("1.75 mm", COMMON_PRACTICE),
                quantity("offset", SHARE, "0", "0.999", "0.8", "how far off-centre it lies: 0 centred, 1 touching")
                        .or("0.8", REFERENCE_MODEL)));
    }

    private static Shape.Group hotSide() {
        return Shape.Group.orWord(
                "class",
                keys(
                        classKey(ClassTable.Kind.HOT_SIDE).or("usual", ASSUMED),
                        quantity("heater", POWER, "1 W", "1 kW", "50 W", "the most the heater can give"),
                        quantity(
                                "block_heat_capacity",
                                HEAT_CAPACITY,
                                "0.5 J/K",
                                "500 J/K",
                                "12 J/K",
                                "block, nozzle, heater and sensor together"),
                        quantity("block_loss", CONDUCTANCE, "0.001 W/K", "5 W/K", "0.06 W/K", "block to still air")
                                .or("0.06 W/K", REFERENCE_MODEL + ": still air, with sock"),
                        quantity(
                                        "block_loss_blown",
                                        CONDUCTANCE,
                                        "0.001 W/K",
                                        "20 W/K",
                                        "0.18 W/K",
                                        "block to air with part-cooling air on it")
                                .or("0.18 W/K", REFERENCE_MODEL),
                        quantity(
                                        "block_to_sink",
                                        CONDUCTANCE,
                                        "0 W/K",
                                        "2 W/K",
                                        "0.005 W/K",
                                        "block to sink beside the neck: gap, screws; half with a sock")
                                .or("0.005 W/K", REFERENCE_MODEL),
                        group(
                                        "block_cooldown",
                                        Shape.Group.of(keys(
                                                quantity(
                                                                "from",
                                                                TEMPERATURE,
                                                                "0 degC",
                                                                "600 degC",
                                                                "200 degC",
                                                                "block at the start")
                                                        .required(),
                                                quantity(
                                                                "to",
                                                                TEMPERATURE,
                                                                "0 degC",
                                                                "600 degC",
                                                                "100 degC",
                                                                "block at the end")
                                                        .required(),
                                                quantity("time", TIME, "1 s", "2 h", "150 s", "between the two")
                                                        .required(),
                                                quantity(
                                                                "air",
                                                                TEMPERATURE,
                                                                "-40 degC",
                                                                "150 degC",
                                                                "22 degC",
                                                                "air meanwhile; absent: surroundings.air")
                                                        .optional())),
                                        "{from: 200 degC, to: 100 degC, time: 150 s}",
                                        "gives block_loss = block_heat_capacity ln((from-air)/(to-air))/time, heater off")
                                .optional()));
    }

    private static Shape.Group neck() {
        List<Key> keys = keys(
                classKey(ClassTable.Kind.NECK).optional(),
                material("neck"),
                quantity("length", LENGTH, "0.2 mm", "80 mm", "2.1 mm", "thin part only"),
                quantity("diameter", LENGTH, "0.6 mm", "20 mm", "3.0 mm", "outside of the thin part"),
                Key.of(
                                "segments",
                                new Shape.Rows(
                                        Shape.Group.of(keys(
                                                material("segment").required(),
                                                quantity(
                                                                "length",
                                                                LENGTH,
                                                                "0.05 mm",
                                                                "80 mm",
                                                                "1.5 mm",
                                                                "of the segment")
                                                        .required(),
                                                quantity(
                                                                "diameter",
                                                                LENGTH,
                                                                "0.6 mm",
                                                                "20 mm",
                                                                "2.8 mm",
                                                                "outside of the segment")
                                                        .required())),
                                        1),
                                "[{material: titanium, length: 1.5 mm, diameter: 2.8 mm}]",
                                "a stepped neck, from the block upwards; a list behind neck means the same")
                        .optional(),
                quantity("bore", LENGTH, "0.5 mm", "6 mm", "2.0 mm", "inner diameter throughout")
                        .or("", "filament.diameter + 0.25 mm; " + COMMON_PRACTICE),
                group(
                                "liner",
                                Shape.Group.of(keys(
                                        quantity(
                                                        "outer_diameter",
                                                        LENGTH,
                                                        "0.6 mm",
                                                        "15 mm",
                                                        "4 mm",
                                                        "outside of the liner")
                                                .required(),
                                        quantity(
                                                        "conductivity",
                                                        CONDUCTIVITY,
                                                        "0.02 W/(m K)",
                                                        "50 W/(m K)",
                                                        "0.25 W/(m K)",
                                                        "of the liner")
                                                .required())),
                                "{outer_diameter: 4 mm, conductivity: 0.25 W/(m K)}",
                                "a tube in the bore")
                        .optional());
        return new Shape.Group(keys, Optional.of("class"), List.of(), Optional.of("segments"));
    }

    private static List<Key> shank() {
        return keys(
                material("shank").optional(),
                quantity("diameter", LENGTH, "1 mm", "30 mm", "6 mm", "outside").or("6 mm", REFERENCE_MODEL),
                quantity("length", LENGTH, "0.5 mm", "80 mm", "8 mm", "inside the sink")
                        .or("8 mm", REFERENCE_MODEL),
                quantity(
                                "contact",
                                HEAT_TRANSFER,
                                "10 W/(m^2 K)",
                                "200000 W/(m^2 K)",
                                "5000 W/(m^2 K)",
                                "to the sink: 5000 with paste, about 1000 dry")
                        .or("5000 W/(m^2 K)", REFERENCE_MODEL + ": pasted threads"));
    }

    private static List<Key> sink() {
        return keys(
                classKey(ClassTable.Kind.SINK).or("round 22 mm", ASSUMED),
                material("sink").or("aluminium", COMMON_PRACTICE),
                quantity("length", LENGTH, "2 mm", "200 mm", "24 mm", "along the filament"),
                count("fins", 1, 200, "10", "how many"),
                quantity("fin_thickness", LENGTH, "0.1 mm", "10 mm", "1.0 mm", "of one fin"),
                quantity("fin_diameter", LENGTH, "3 mm", "150 mm", "20 mm", "over the fins"),
                quantity("core_diameter", LENGTH, "2 mm", "100 mm", "9 mm", "between the fins"),
                quantity("emissivity", SHARE, "0", "1", "0.8", "0.1 bare, 0.8 anodised")
                        .or("0.8", REFERENCE_MODEL + ": anodised"),
                quantity("still_air_share", SHARE, "0", "1", "0.8", "share of the outside that still air reaches")
                        .or("0.8", REFERENCE_MODEL),
                quantity("mount_conductance", CONDUCTANCE, "0 W/K", "2 W/K", "0.01 W/K", "into the carriage")
                        .or("0.01 W/K", REFERENCE_MODEL),
                group(
                                "measured",
                                Shape.Group.of(keys(
                                        quantity(
                                                        "on",
                                                        CONDUCTANCE,
                                                        "0.001 W/K",
                                                        "20 W/K",
                                                        "0.34 W/K",
                                                        "fan at rated speed")
                                                .required(),
                                        quantity("still", CONDUCTANCE, "0.0005 W/K", "5 W/K", "0.04 W/K", "fan stopped")
                                                .required())),
                                "{on: 0.34 W/K, still: 0.04 W/K}",
                                "conductance to air measured on this machine; replaces the computed one")
                        .optional());
    }

    static List<Key> fan() {
        return keys(
                classKey(ClassTable.Kind.FAN).optional(),
                quantity("rated_voltage", VOLTAGE, "1 V", "60 V", "24 V", "as printed on it")
                        .or("24 V", COMMON_PRACTICE),
                quantity(
                                "rated_speed",
                                SPEED_OF_TURN,
                                "100 rpm",
                                "100000 rpm",
                                "8000 rpm",
                                "at rated voltage in free air")
                        .required(),
                quantity("speed_tolerance", SHARE, "0", "0.5", "10 %", "one-sided, of the rated speed")
                        .or("10 %", "makers' data sheets"),
                quantity("free_flow", AIR_FLOW, "0.01 l/s", "200 l/s", "1.7 l/s", "at no pressure"),
                quantity("shutoff_pressure", PRESSURE, "1 Pa", "5 kPa", "35 Pa", "at no flow"),
                Key.of(
                                "curve",
                                new Shape.Rows(
                                        Shape.Group.of(keys(
                                                quantity("flow", AIR_FLOW, "0 l/s", "200 l/s", "0.8 l/s", "")
                                                        .required(),
                                                quantity("pressure", PRESSURE, "0 Pa", "5 kPa", "20 Pa", "")
                                                        .required())),
                                        2),
                                "[{flow: 0 l/s, pressure: 35 Pa}, {flow: 1.7 l/s, pressure: 0 Pa}]",
                                "measured points at rated speed, instead of free_flow and shutoff_pressure")
                        .optional(),
                yesNo("curve_with_duct", "no", "the curve was measured with the duct on: no hub loss is added")
                        .or("no", COMMON_PRACTICE),
                quantity("tip_diameter", LENGTH, "5 mm", "200 mm", "28 mm", "over the blades"),
                quantity("hub_diameter", LENGTH, "0 mm", "190 mm", "16 mm", "of the hub"),
                quantity("through_share", SHARE, "0.01", "1", "0.6", "share of the air that goes between the fins")
                        .or("0.6", REFERENCE_MODEL),
                quantity("coast_down", TIME, "0 s", "60 s", "0.8 s", "until half speed after the supply is cut")
                        .or("1 s", COMMON_PRACTICE),
                quantity(
                                "runs_above",
                                TEMPERATURE,
                                "0 degC",
                                "150 degC",
                                "50 degC",
                                "it must turn while the nozzle is hotter")
                        .or("50 degC", "trade convention"));
    }

    private static List<Key> duct() {
        return keys(
                classKey(ClassTable.Kind.DUCT).or("direct", ASSUMED),
                coefficient(
                        "loss", 0, 1000, "1.0", "pressure-loss coefficient on the velocity through the tip circle"));
    }

    private static Key classKey(ClassTable.Kind kind) {
        List<String> names = ClassTable.names(kind);
        return choice("class", names, names.getFirst(), "a named class; its values hold unless given");
    }

    private static Key material(String of) {
        return group(
                "material",
                Shape.Group.orWord(
                        "name",
                        keys(
                                text("name", "titanium", "a known metal, or any name with all three values")
                                        .required(),
                                quantity(
                                                "conductivity",
                                                CONDUCTIVITY,
                                                "0.02 W/(m K)",
                                                "3000 W/(m K)",
                                                "7.5 W/(m K)",
                                                "mean over the working range")
                                        .optional(),
                                quantity("density", DENSITY, "100 kg/m^3", "25000 kg/m^3", "4430 kg/m^3", "")
                                        .optional(),
                                quantity(
                                                "specific_heat",
                                                SPECIFIC_HEAT,
                                                "50 J/(kg K)",
                                                "5000 J/(kg K)",
                                                "550 J/(kg K)",
                                                "")
                                        .optional())),
                "titanium",
                "the " + of + "'s metal: " + String.join(", ", Metals.names())
                        + "; titanium is the alloy Ti-6Al-4V, pure titanium conducts twice as well");
    }
}
