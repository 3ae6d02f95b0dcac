package coldward.app.command;

import coldward.model.wiring.finder.Measurement;
import coldward.model.wiring.finder.Measurement.Fed;
import coldward.model.wiring.finder.Measurement.Ohms;
import coldward.model.wiring.finder.Measurement.Rotor;
import coldward.model.wiring.finder.Measurement.Third;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Units;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * Readings of a multimeter as typed: wires with commas between, an equals sign, what the meter showed.
 *
 * @param wires the three wires
 * @param supply V, the fan's rated voltage
 * @param resistor ohm, in the plus while two wires are fed
 * @param pullUp ohm, from plus to the third wire
 */
record WireReadings(List<String> wires, double supply, double resistor, double pullUp) {

    /** What a meter shows where nothing flows. */
    static final String OVER_RANGE = "over";

    /** {@code RED,BLACK=OHMS}. */
    Ohms ohms(String text) {
        Typed t = typed("--ohms", text, 2, "--ohms 1,2=47kohm or --ohms 1,2=over");
        return new Ohms(wire("--ohms", t.word(0)), wire("--ohms", t.word(1)), ohmsShown(t.shown()));
    }

    /** {@code PLUS,MINUS,AT=VOLTS}. */
    Fed fed(String text) {
        Typed t = typed("--fed", text, 3, "--fed 1,2,1=3.2V");
        return new Fed(
                wire("--fed", t.word(0)),
                wire("--fed", t.word(1)),
                supply,
                resistor,
                wire("--fed", t.word(2)),
                voltsShown(t.shown()));
    }

    /** {@code PLUS,MINUS,THIRD,ROTOR=VOLTS}. */
    Third third(String text) {
        Typed t = typed("--third", text, 4, "--third 1,2,3,held=11.9V");
        Rotor rotor = rotor(t.word(3));
        return new Third(
                wire("--third", t.word(0)),
                wire("--third", t.word(1)),
                wire("--third", t.word(2)),
                rotor.fed(supply),
                pullUp,
                rotor,
                voltsShown(t.shown()));
    }

    /** A proposed test with what it showed. */
    static Measurement read(Measurement test, String shown) {
        return switch (test) {
            case Ohms m -> m.reads(ohmsShown(shown));
            case Fed m -> m.reads(voltsShown(shown));
            case Third m -> m.reads(voltsShown(shown));
        };
    }

    private static OptionalDouble ohmsShown(String text) {
        return text.equalsIgnoreCase(OVER_RANGE)
                ? OptionalDouble.empty()
                : OptionalDouble.of(quantity(Dimension.RESISTANCE, "ohms", text, "ohm"));
    }

    private static double voltsShown(String text) {
        return quantity(Dimension.VOLTAGE, "volts", text, "V");
    }

    private static double quantity(Dimension dimension, String name, String text, String unit) {
        return Units.parse(dimension, name, text.matches("[-+0-9.eE]+") ? text + " " + unit : text);
    }

    /** Three names from one text with commas. */
    static List<String> names(String text) {
        List<String> names =
                Arrays.stream(text.split(",", -1)).map(String::strip).toList();
        if (names.size() != 3
                || names.stream().distinct().count() != 3
                || names.stream().anyMatch(n -> n.isEmpty() || n.contains("="))) {
            throw new InputError(
                    "wires",
                    "wires are '" + text + "' but must be three different names, for example left,middle,right");
        }
        return names;
    }

    private String wire(String option, String name) {
        if (!wires.contains(name)) {
            throw new InputError(
                    option,
                    "%s names the wire '%s' but the wires are %s (--wires gives them other names)"
                            .formatted(option, name, String.join(", ", wires)));
        }
        return name;
    }

    private static Rotor rotor(String word) {
        return Arrays.stream(Rotor.values())
                .filter(r -> r.name().equalsIgnoreCase(word))
                .findFirst()
                .orElseThrow(() -> new InputError(
                        "--third",
                        "--third says the rotor is '%s' but must say %s"
                                .formatted(
                                        word,
                                        String.join(
                                                ", ",
                                                Arrays.stream(Rotor.values())
                                                        .map(r -> r.name().toLowerCase(Locale.ROOT))
                                                        .toList()))));
    }

    private static Typed typed(String option, String text, int words, String example) {
        int equals = text.indexOf('=');
        List<String> before = equals < 0
                ? List.of()
                : Arrays.stream(text.substring(0, equals).split(",", -1))
                        .map(String::strip)
                        .toList();
        String shown = equals < 0 ? "" : text.substring(equals + 1).strip();
        if (before.size() != words || shown.isEmpty()) {
            throw new InputError(option, "%s is '%s'; write it like %s".formatted(option, text, example));
        }
        return new Typed(before, shown);
    }

    private record Typed(List<String> words, String shown) {
        String word(int i) {
            return words.get(i);
        }
    }
}
