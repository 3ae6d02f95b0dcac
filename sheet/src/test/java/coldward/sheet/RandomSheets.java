package coldward.sheet;

import coldward.quantity.Dimension;
import coldward.quantity.Units;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Shape;
import coldward.sheet.keys.SheetKeys;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Seeded sheets that can be read: in block and in flow style, with comments, classes, lists and own metals. */
final class RandomSheets {

    private final Random random;

    RandomSheets(long seed) {
        this.random = new Random(seed);
    }

    private String pick(List<String> of) {
        return of.get(random.nextInt(of.size()));
    }

    private String length(double fromMm, double toMm) {
        double mm = fromMm + (toMm - fromMm) * random.nextDouble();
        return random.nextInt(4) == 0 ? Units.format(Dimension.LENGTH, mm * 1e-3, 12) : "%.3f mm".formatted(mm);
    }

    private String number(double from, double to, String unit) {
        return "%.4f %s"
                .formatted(from + (to - from) * random.nextDouble(), unit)
                .strip();
    }

    /** A value that the key's range holds. */
    static String within(Random random, Key key) {
        if (!(key.shape() instanceof Shape.Quantity q)) {
            return key.example();
        }
        double low = Units.parse(q.dimension(), q.low());
        double high = Units.parse(q.dimension(), q.high());
        return Units.format(q.dimension(), low + (high - low) * random.nextDouble(0.1, 0.9), 5);
    }

    /** Keys that a random patch may set without contradicting others. */
    static final List<String> FREE = List.of(
            "printer",
            "feed",
            "surroundings.pressure",
            "filament.offset",
            "hot_side.heater",
            "shank.contact",
            "sink.emissivity",
            "sink.still_air_share",
            "sink.mount_conductance",
            "fan.rated_voltage",
            "fan.through_share",
            "fan.coast_down",
            "limits.spurious_trips",
            "response.hold_latency",
            "response.link_latency",
            "spreads.neck",
            "plastic.density",
            "limits.hours_per_year");

    private Map<String, String> groups() {
        Map<String, String> g = new LinkedHashMap<>();
        g.put("printer", pick(List.of("heron", "\"robin 2\"", "\"12\"", "'wren: west'", "plover \u00e9")));
        g.put("nozzle", number(200, 300, "degC"));
        g.put(
                "plastic",
                pick(List.of(
                        "PLA",
                        "PETG",
                        "ABS",
                        "{name: PA, softens_at: 70 degC}",
                        "{name: PLA, softens_at: 331.5 K}",
                        "{name: PC, melt_specific_heat: 1.9 kJ/(kg K)}")));
        g.put("neck", neck());
        g.put("fan", fan());
        if (random.nextBoolean()) {
            g.put("surroundings", "{air: " + number(15, 45, "degC") + "}");
        }
        if (random.nextBoolean()) {
            g.put("feed", number(0, 30, "mm^3/s"));
        }
        if (random.nextBoolean()) {
            g.put(
                    "sink",
                    pick(
                            List.of(
                                    "compact",
                                    "round 25 mm",
                                    "{class: round 22 mm, emissivity: 10 %}",
                                    "{class: compact, measured: {on: " + number(0.2, 0.5, "W/K") + ", still: "
                                            + number(20, 40, "K/W") + "}}",
                                    "{length: 24 mm, fins: 10, fin_thickness: 40 mil, fin_diameter: 0.8 in, core_diameter: 9 mm}")));
        }
        if (random.nextBoolean()) {
            g.put(
                    "hot_side",
                    pick(List.of(
                            "usual",
                            "high-flow",
                            "{heater: 60 W, block_heat_capacity: " + number(8, 20, "J/K") + "}",
                            "{block_cooldown: {from: 200 degC, to: 100 degC, time: " + number(100, 300, "s")
                                    + ", air: 22 degC}, block_loss_blown: 0.5 W/K}")));
        }
        if (random.nextBoolean()) {
            g.put("duct", pick(List.of("direct", "{class: long duct}", "{loss: " + number(0, 5, "") + "}")));
        }
        if (random.nextBoolean()) {
            g.put(
                    "shank",
                    pick(List.of("{contact: 1000 W/(m^2 K)}", "{material: copper, diameter: " + length(5.5, 7) + "}")));
        }
        if (random.nextBoolean()) {
            g.put(
                    "reading",
                    pick(List.of(
                            "none",
                            "{counter: sampled, sampled_every: " + number(0.2, 3, "ms") + "}",
                            "{counter: edge, lock_out: 100 us}",
                            "{counter: period-timer, clock: 2 MHz, pulses_per_turn: 3}",
                            "{duty: 0.4}")));
        }
        if (random.nextBoolean()) {
            g.put("trip", "{speed: " + number(1000, 6000, "rpm") + ", confirmations: " + (1 + random.nextInt(9)) + "}");
        }
        if (random.nextBoolean()) {
            g.put(
                    "response",
                    pick(List.of(
                            "{actions: [hold]}",
                            "{actions: [power-off, hold], link_latency: 20 ms}",
                            "{heater_latency: 0 s}")));
        }
        if (random.nextInt(3) == 0) {
            g.put("spreads", "{sink_on: " + number(1, 60, "%") + ", softens_at: " + number(1, 6, "K") + "}");
        }
        return g;
    }

    private String neck() {
        String own = "{name: Inco, conductivity: " + number(9, 14, "W/(m K)")
                + ", density: 8.2 g/cm^3, specific_heat: 430 J/(kg K)}";
        return pick(List.of(
                "thin titanium",
                "lined steel",
                "{class: thin two-metal, length: " + length(2, 4) + "}",
                "{material: titanium, length: " + length(2, 4) + ", diameter: " + length(2.6, 3.1) + ", bore: 2.0 mm}",
                "{material: " + own + ", length: 2.1 mm, diameter: 3.0 mm}",
                "{material: {name: titanium, conductivity: 7 W/(m K)}, length: 2.1 mm, diameter: 10 AWG}",
                "[{material: stainless steel, length: " + length(0.5, 2) + ", diameter: 2.5 mm}, {material: " + own
                        + ", length: 1 mm, diameter: 3 mm}]"));
    }

    private String fan() {
        return pick(List.of(
                "{class: 40x10 axial, rated_speed: " + number(4000, 9000, "rpm") + "}",
                "{class: 30x10 axial, rated_speed: 9000 1/min, speed_tolerance: 0.15, runs_above: 120 degF}",
                "{rated_speed: 8000 rpm, free_flow: 3.6 CFM, shutoff_pressure: 3.4 mmH2O, tip_diameter: 28 mm, hub_diameter: 16 mm}",
                "{class: 40x20 axial, rated_speed: 8000 rpm, curve: [{flow: 0 l/s, pressure: 60 Pa}, {flow: "
                        + number(1, 2, "l/s")
                        + ", pressure: 20 Pa}, {flow: 3.5 l/s, pressure: 0 Pa}], curve_with_duct: "
                        + pick(List.of("yes", "no", "true"))
                        + "}"));
    }

    /** A whole sheet. */
    String sheet() {
        StringBuilder out = new StringBuilder(random.nextBoolean() ? "# a sheet\n\n" : "");
        List<Map.Entry<String, String>> groups = new ArrayList<>(groups().entrySet());
        java.util.Collections.shuffle(groups, random);
        groups.forEach(e -> {
            String value = e.getValue();
            boolean simpleMap = value.startsWith("{") && !value.substring(1).contains("{") && !value.contains("[");
            out.append(e.getKey()).append(':');
            if (simpleMap && random.nextBoolean()) {
                out.append(random.nextBoolean() ? "   # as a block\n" : "\n");
                for (String part : value.substring(1, value.length() - 1).split(", ", -1)) {
                    out.append("  ").append(part).append(random.nextInt(3) == 0 ? "  # why\n" : "\n");
                }
            } else {
                out.append(' ').append(value).append(random.nextInt(3) == 0 ? "  # why not\n" : "\n");
            }
            out.append(random.nextInt(5) == 0 ? "\n# a word between\n" : "");
        });
        String text = out.toString();
        return random.nextInt(4) == 0 ? text.stripTrailing() : text;
    }

    /** The catalogue's key at a dotted path without lists. */
    static Key key(String path) {
        Shape.Group group = SheetKeys.SHEET;
        Key key = null;
        for (String name : path.split("\\.", -1)) {
            key = group.key(name).orElseThrow();
            group = key.shape() instanceof Shape.Group inner ? inner : group;
        }
        return java.util.Objects.requireNonNull(key);
    }
}
