package coldward.sheet.keys;

import static coldward.quantity.Dimension.FREQUENCY;
import static coldward.quantity.Dimension.LENGTH;
import static coldward.quantity.Dimension.RATE;
import static coldward.quantity.Dimension.SHARE;
import static coldward.quantity.Dimension.SPEED_OF_TURN;
import static coldward.quantity.Dimension.TEMPERATURE_STEP;
import static coldward.quantity.Dimension.TIME;
import static coldward.sheet.keys.Key.COMMON_PRACTICE;
import static coldward.sheet.keys.Key.choice;
import static coldward.sheet.keys.Key.count;
import static coldward.sheet.keys.Key.keys;
import static coldward.sheet.keys.Key.quantity;

import coldward.model.build.Action;
import coldward.model.build.Uncertain;
import coldward.quantity.Units;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The keys of a sheet that say how a failure is noticed and answered: limits, reading, trip, response, spreads. */
public final class GuardKeys {

    /** Keys of a reading that belong to one counter only. */
    public static final Map<String, List<String>> COUNTER_KEYS = counterKeys();

    private GuardKeys() {}

    private static Map<String, List<String>> counterKeys() {
        Map<String, List<String>> map = new LinkedHashMap<>();
        map.put("none", List.of());
        map.put("sampled", List.of("reading.sampled_every"));
        map.put("edge", List.of("reading.shortest_level", "reading.lock_out"));
        map.put("period-timer", List.of("reading.clock"));
        return map;
    }

    static List<Key> limits() {
        return keys(
                quantity("softened_depth", LENGTH, "0.1 mm", "50 mm", "3 mm", "how far up the filament may be soft")
                        .or("3 mm", COMMON_PRACTICE),
                quantity(
                                "spurious_trips",
                                RATE,
                                "0.000001 per year",
                                "10000 per year",
                                "1 per year",
                                "trips with a healthy fan")
                        .or("1 per year", COMMON_PRACTICE),
                quantity("hours_per_year", TIME, "1 h", "8784 h", "4000 h", "printing hours in a year")
                        .or("4000 h", COMMON_PRACTICE));
    }

    static Shape.Group reading() {
        List<Key> keys = keys(
                count("pulses_per_turn", 1, 12, "2", "pulses in one revolution").or("2", "makers' data sheets"),
                quantity("duty", SHARE, "0.01", "0.99", "50 %", "share of the pulse period that is high")
                        .or("50 %", "makers' data sheets"),
                choice("counter", List.copyOf(COUNTER_KEYS.keySet()), "sampled", "what makes a number of the pulses")
                        .or("edge", COMMON_PRACTICE),
                quantity(
                        "sampled_every",
                        TIME,
                        "1 us",
                        "1 s",
                        "1 ms",
                        "counter: sampled - the pin is looked at so often"),
                quantity("shortest_level", TIME, "0 s", "1 s", "20 us", "counter: edge - a shorter level is not seen")
                        .or("0 s", "no filter"),
                quantity("lock_out", TIME, "0 s", "1 s", "100 us", "counter: edge - edges ignored after an edge")
                        .or("0 s", "no lock-out"),
                quantity("clock", FREQUENCY, "1 Hz", "1000 MHz", "1 MHz", "counter: period-timer - its clock"),
                quantity("report_interval", TIME, "0.01 s", "600 s", "1 s", "between two reports")
                        .or("1 s", COMMON_PRACTICE));
        return new Shape.Group(keys, Optional.of("counter"), List.of("none"), Optional.empty());
    }

    static List<Key> trip() {
        return keys(
                quantity(
                                "speed",
                                SPEED_OF_TURN,
                                "1 rpm",
                                "100000 rpm",
                                "5200 rpm",
                                "a report below it counts against the fan")
                        .required(),
                count("confirmations", 1, 100, "3", "how many such reports in a row")
                        .or("3", COMMON_PRACTICE),
                quantity("grace", TIME, "0 s", "120 s", "5 s", "how long a starting fan is forgiven")
                        .or("5 s", "makers' data sheets: full speed within 5 s"));
    }

    static List<Key> response() {
        return keys(
                Key.of(
                                "actions",
                                new Shape.Choices(Arrays.stream(Action.values())
                                        .map(Action::word)
                                        .toList()),
                                "[hold, heater-off]",
                                "hold stops feeding, heater-off, block-fan blows on the block, power-off comes last")
                        .or("[hold, heater-off]", SheetKeys.REFERENCE_MODEL),
                latency("hold_latency", "2 s", "until feeding has stopped, queued moves first"),
                latency("heater_latency", "0.5 s", "until the heater is off"),
                latency("block_fan_latency", "1 s", "until the part-cooling air blows"),
                latency("power_latency", "1 s", "until the power is off"),
                latency("link_latency", "0.2 s", "until the machine has the request"));
    }

    private static Key latency(String name, String text, String meaning) {
        return quantity(name, TIME, "0 s", "600 s", text, meaning).or(text, COMMON_PRACTICE);
    }

    static List<Key> spreads() {
        return Arrays.stream(Uncertain.values()).map(GuardKeys::spread).toList();
    }

    private static Key spread(Uncertain input) {
        if (input.law() == Uncertain.Law.NORMAL_KELVIN) {
            String usual = Units.format(TEMPERATURE_STEP, input.usualSpread());
            return quantity(input.key(), TEMPERATURE_STEP, "0 K", "50 K", usual, input.words())
                    .optional();
        }
        String usual = Units.format(SHARE, input.usualSpread());
        return quantity(input.key(), SHARE, "0", "2", usual, input.words()).optional();
    }
}
