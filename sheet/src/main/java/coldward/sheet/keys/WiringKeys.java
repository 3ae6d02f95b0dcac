package coldward.sheet.keys;

import static coldward.quantity.Dimension.CAPACITANCE;
import static coldward.quantity.Dimension.CURRENT;
import static coldward.quantity.Dimension.FREQUENCY;
import static coldward.quantity.Dimension.LENGTH;
import static coldward.quantity.Dimension.RESISTANCE;
import static coldward.quantity.Dimension.SHARE;
import static coldward.quantity.Dimension.TEMPERATURE;
import static coldward.quantity.Dimension.TEMPERATURE_STEP;
import static coldward.quantity.Dimension.VOLTAGE;
import static coldward.sheet.keys.Key.COMMON_PRACTICE;
import static coldward.sheet.keys.Key.choice;
import static coldward.sheet.keys.Key.coefficient;
import static coldward.sheet.keys.Key.group;
import static coldward.sheet.keys.Key.keys;
import static coldward.sheet.keys.Key.quantity;
import static coldward.sheet.keys.Key.text;

import coldward.model.wiring.Port;
import coldward.model.wiring.WiredFan;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** The keys of a sheet that say what is wired to what. */
final class WiringKeys {

    private static final String OWNER = "[A-Za-z][A-Za-z0-9_-]{0,23}";
    private static final String LABEL = "[A-Za-z0-9][A-Za-z0-9_+-]{0,23}";
    private static final String CONTACT = OWNER + "\\." + LABEL;
    private static final Shape.Mark MARK = new Shape.Mark(LABEL, "a contact's number or word");
    private static final Shape.Text AT = new Shape.Text(CONTACT, "a contact such as main.3 or fan.plus");

    private WiringKeys() {}

    static List<Key> wiring() {
        return keys(
                quantity("coldest", TEMPERATURE, "-40 degC", "100 degC", "0 degC", "the colder corner")
                        .or("0 degC", COMMON_PRACTICE),
                quantity("hottest", TEMPERATURE, "0 degC", "150 degC", "60 degC", "the hotter corner; a chamber's own")
                        .or("60 degC", COMMON_PRACTICE),
                rows(
                                "boards",
                                1,
                                board(),
                                "[{name: main, class: \"24 V board, 3.3 V logic\"}]",
                                "what feeds and reads the fan")
                        .required(),
                group(
                                "fan",
                                Shape.Group.orWord("class", fan()),
                                "{class: 24 V 30x10 three-wire}",
                                "the fan as its wires show it; its contacts are fan.plus, fan.minus, fan.third, fan.control")
                        .required(),
                rows(
                                "diodes",
                                0,
                                diode(),
                                "[{name: d1, class: small-signal Schottky}]",
                                "contacts d1.anode, d1.cathode")
                        .optional(),
                rows("pull_ups", 0, pullUp(), "[{name: r1, resistance: 10 kohm}]", "contacts r1.rail, r1.signal")
                        .optional(),
                rows(
                                "filters",
                                0,
                                filter(),
                                "[{name: f1, resistance: 1 kohm, capacitance: 10 nF}]",
                                "resistor and capacitor; contacts f1.in, f1.out, f1.ground")
                        .optional(),
                rows(
                                "level_shifts",
                                0,
                                levelShift(),
                                "[{name: q1, base_resistance: 22 kohm}]",
                                "transistor; contacts q1.in (base), q1.out (collector), q1.ground")
                        .optional(),
                rows(
                                "converters",
                                0,
                                converter(),
                                "[{name: u1, voltage: 5 V, current_limit: 1 A}]",
                                "buck converter; contacts u1.in, u1.out, u1.ground")
                        .optional(),
                rows(
                                "wires",
                                0,
                                wire(),
                                "[{from: main.1, to: fan.plus, class: harness, length: 0.8 m, colour: red}]",
                                "each from contact to contact")
                        .optional(),
                rows(
                                "connectors",
                                0,
                                connector(),
                                "[{name: x1, class: 2.5 mm crimp, contacts: [main.1, main.2, main.3]}]",
                                "plugs; a contact in none has 20 mohm and no rating")
                        .optional(),
                rows(
                                "names",
                                0,
                                names(),
                                "[{contact: main.3, on_board: FAN, in_drawing: K4-3, in_settings: fan}]",
                                "the names of a board's contact, and the bench test that settled them")
                        .optional());
    }

    private static Key rows(String name, int least, List<Key> keys, String example, String meaning) {
        return Key.of(name, new Shape.Rows(Shape.Group.of(keys), least), example, meaning);
    }

    private static Key classKey(String kind, String meaning) {
        List<String> names = WiringClasses.names(kind);
        return choice("class", names, names.getFirst(), meaning).optional();
    }

    private static Key owner(String example, String meaning) {
        return text("name", OWNER, "a word of letters, digits, - and _", example, meaning)
                .required();
    }

    private static Key mark(String name, String example, String meaning) {
        return Key.of(name, MARK, example, meaning);
    }

    private static Key marks(String name, String example, String meaning) {
        return Key.of(name, new Shape.Marks(MARK), example, meaning).optional();
    }

    private static Key at(String name, String example, String meaning) {
        return Key.of(name, AT, example, meaning);
    }

    private static Key volts(String name, String low, String high, String example, String meaning) {
        return quantity(name, VOLTAGE, low, high, example, meaning);
    }

    private static Key amps(String name, String low, String high, String example, String meaning) {
        return quantity(name, CURRENT, low, high, example, meaning);
    }

    private static Key ohms(String name, String low, String high, String example, String meaning) {
        return quantity(name, RESISTANCE, low, high, example, meaning);
    }

    private static Key tolerance(String name, String text, String source, String meaning) {
        return quantity(name, SHARE, "0", "0.5", text, meaning).or(text, source);
    }

    private static List<Key> board() {
        return keys(
                owner("main", "the owner of its contacts"),
                classKey("boards", "a named class; its rails, ports and inputs hold, joined by name with those given"),
                rows("rails", 0, rail(), "[{name: 24V, voltage: 24 V, current_limit: 5 A}]", "its supplies")
                        .optional(),
                rows(
                                "ports",
                                0,
                                port(),
                                "[{name: fan, switched: low-side, rail: 24V, plus: 1, minus: 2, current_limit: 1 A}]",
                                "pairs of contacts that feed a fan")
                        .optional(),
                rows(
                                "inputs",
                                0,
                                input(),
                                "[{name: tach, contact: 3, rail: 3V3, low_below: 0.8 V, high_above: 2 V, tolerated_up_to: 3.6 V}]",
                                "logic inputs")
                        .optional(),
                marks("ground", "[GND]", "numbers of the contacts joined to ground"));
    }

    private static List<Key> rail() {
        return keys(
                mark("name", "24V", "unique on its board").required(),
                volts("voltage", "0.5 V", "60 V", "24 V", "between rail and ground"),
                tolerance("tolerance", "5 %", COMMON_PRACTICE, "one-sided"),
                amps("current_limit", "1 mA", "100 A", "5 A", "that it gives at most"),
                amps("other_load", "0 A", "100 A", "1 A", "all that is not described here")
                        .or("0 A", "nothing else"),
                marks("contacts", "[5V]", "on which it is brought out"));
    }

    private static List<Key> port() {
        return keys(
                mark("name", "fan", "unique on its board").required(),
                choice(
                        "switched",
                        Arrays.stream(Port.Switching.values())
                                .map(Port.Switching::word)
                                .toList(),
                        "low-side",
                        "which side is opened; fixed is always on"),
                mark("rail", "24V", "the rail that feeds it"),
                mark("plus", "1", "number of the plus contact"),
                mark("minus", "2", "number of the minus contact"),
                amps("current_limit", "1 mA", "50 A", "1 A", "that it carries at most"),
                ohms("on_resistance", "0 ohm", "100 ohm", "50 mohm", "of the switch while on")
                        .or("50 mohm", COMMON_PRACTICE),
                quantity(
                                "chopped_at",
                                FREQUENCY,
                                "1 Hz",
                                "1 MHz",
                                "25 kHz",
                                "the supply is chopped to slow the fan; absent: on or off only")
                        .optional());
    }

    private static List<Key> input() {
        return keys(
                mark("name", "tach", "unique on its board").required(),
                mark("contact", "3", "its contact's number"),
                mark("rail", "3V3", "the rail that supplies the logic behind it"),
                volts("low_below", "0.05 V", "30 V", "0.8 V", "surely low up to here (VIL)"),
                volts("high_above", "0.1 V", "30 V", "2 V", "surely high from here (VIH)"),
                ohms("pull_up", "100 ohm", "10 Mohm", "40 kohm", "internal pull-up to its rail; absent: none, or off")
                        .optional(),
                quantity("pull_up_tolerance", SHARE, "0", "0.9", "25 %", "one-sided")
                        .or("25 %", "32-bit microcontroller data sheet: 30, 40, 50 kohm"),
                volts("tolerated_up_to", "0.5 V", "60 V", "3.6 V", "that it stands"),
                amps("injection_up", "0 A", "0.1 A", "5 mA", "that may flow in and on into its rail")
                        .or("0 A", "none allowed unless a data sheet says so"),
                amps("injection_down", "0 A", "0.1 A", "5 mA", "that may flow out while below ground")
                        .or("0 A", "none allowed unless a data sheet says so"),
                amps("leakage", "0 A", "1 mA", "1 uA", "at most").or("1 uA", "microcontroller data sheets"),
                quantity("capacitance", CAPACITANCE, "0 F", "1 uF", "10 pF", "of the pin")
                        .or("10 pF", COMMON_PRACTICE),
                text("taken_by", "door switch", "what else uses it already; absent: it is free")
                        .optional());
    }

    private static List<Key> fan() {
        return keys(
                classKey("fan", "a named class; its values hold unless given"),
                choice("leads", words(WiredFan.Leads.values(), WiredFan.Leads::word), "three-wire", "how many wires"),
                choice(
                        "third_wire",
                        words(WiredFan.ThirdWire.values(), WiredFan.ThirdWire::word),
                        "pulses",
                        "what the third wire says, as found by test"),
                volts("lowest_voltage", "1 V", "60 V", "20.4 V", "at which it may run"),
                volts("highest_voltage", "1 V", "60 V", "27.6 V", "that it stands"),
                amps("running_current", "1 mA", "10 A", "50 mA", "at rated voltage"),
                amps("starting_current", "1 mA", "20 A", "130 mA", "at rated voltage from standstill"),
                volts("start_voltage", "0.5 V", "60 V", "12 V", "from which it starts"),
                group(
                                "stage",
                                Shape.Group.of(stage()),
                                "{saturation: 0.6 V, at: 5 mA}",
                                "the transistor behind the third wire")
                        .optional());
    }

    private static <T> List<String> words(T[] values, java.util.function.Function<T, String> word) {
        return Arrays.stream(values).map(word).toList();
    }

    private static List<Key> stage() {
        return keys(
                volts("saturation", "10 mV", "5 V", "0.6 V", "left across it at that current, at most")
                        .or("0.6 V", "makers' data sheets"),
                amps("at", "0.1 mA", "1 A", "5 mA", "the current of that").or("5 mA", "makers' data sheets"),
                volts("offset", "0 V", "2 V", "0.1 V", "left at hardly any current; 0 V for a field-effect transistor")
                        .or("0.1 V", COMMON_PRACTICE),
                amps("current_limit", "0.1 mA", "1 A", "5 mA", "that it may sink")
                        .or("5 mA", "makers' data sheets"),
                volts("voltage_limit", "1 V", "100 V", "30 V", "that it stands while open")
                        .or("13.8 V", "makers' data sheets: the lowest found"),
                amps("leakage", "0 A", "1 mA", "1 uA", "while open").or("1 uA", COMMON_PRACTICE));
    }

    private static List<Key> diode() {
        return keys(
                owner("d1", "the owner of its contacts"),
                classKey("diodes", "a named class; its values hold unless given"),
                amps("saturation", "0.000000001 uA", "1 mA", "0.01185 uA", "Is at 25 degC"),
                coefficient("emission", 1, 3, "1.05", "n"),
                ohms("series_resistance", "0 ohm", "1 kohm", "3.7 ohm", "Rs"),
                coefficient("gap", 0.1, 3, "0.69", "Eg in eV: 0.69 Schottky, 1.11 silicon"),
                coefficient("exponent", 0, 6, "2", "of temperature: 2 Schottky, 3 silicon"),
                amps("leakage", "0 A", "0.1 A", "2 uA", "at 25 degC well into reverse"),
                volts("leakage_knee", "10 mV", "10 V", "0.5 V", "above which it hardly grows")
                        .or("0.5 V", COMMON_PRACTICE),
                quantity("leakage_doubling", TEMPERATURE_STEP, "5 K", "30 K", "10 K", "that doubles it")
                        .or("10 K", COMMON_PRACTICE),
                volts("reverse_limit", "1 V", "2000 V", "30 V", "that it stands"),
                amps("forward_limit", "1 mA", "100 A", "200 mA", "that it stands"));
    }

    private static List<Key> pullUp() {
        return keys(
                owner("r1", "the owner of its contacts"),
                ohms("resistance", "10 ohm", "10 Mohm", "10 kohm", ""),
                tolerance("tolerance", "5 %", COMMON_PRACTICE, "one-sided"));
    }

    private static List<Key> filter() {
        return keys(
                owner("f1", "the owner of its contacts"),
                ohms("resistance", "1 ohm", "10 Mohm", "1 kohm", "from in to out"),
                quantity("capacitance", CAPACITANCE, "1 pF", "1000 uF", "10 nF", "from out to ground"));
    }

    private static List<Key> levelShift() {
        return keys(
                owner("q1", "the owner of its contacts"),
                ohms("base_resistance", "100 ohm", "10 Mohm", "22 kohm", "from in to the base"),
                volts("on_above", "0.1 V", "5 V", "0.65 V", "at the base").or("0.65 V", COMMON_PRACTICE),
                coefficient("gain", 1, 10_000, "50", "collector over base current, at least")
                        .or("50", COMMON_PRACTICE),
                volts("saturation", "10 mV", "5 V", "0.2 V", "left across it").or("0.2 V", COMMON_PRACTICE),
                amps("current_limit", "1 mA", "10 A", "100 mA", "").or("100 mA", COMMON_PRACTICE));
    }

    private static List<Key> converter() {
        return keys(
                owner("u1", "the owner of its contacts"),
                volts("voltage", "0.5 V", "60 V", "5 V", "at out"),
                tolerance("tolerance", "3 %", COMMON_PRACTICE, "one-sided"),
                volts("headroom", "0 V", "20 V", "2 V", "that in must stand above out")
                        .or("2 V", COMMON_PRACTICE),
                amps("current_limit", "1 mA", "50 A", "1 A", "at out"),
                quantity("efficiency", SHARE, "0.1", "1", "85 %", "power out over power in")
                        .or("85 %", COMMON_PRACTICE));
    }

    private static List<Key> wire() {
        return keys(
                text("name", "plus", "to tell it apart; absent: w1, w2 and so on")
                        .optional(),
                at("from", "main.1", "the contact where it begins").required(),
                at("to", "fan.plus", "the contact where it ends").required(),
                classKey("wires", "a named class; its values hold unless given"),
                quantity("gauge", LENGTH, "0.05 mm", "6 mm", "26 AWG", "or the copper's diameter"),
                quantity("length", LENGTH, "1 mm", "100 m", "0.8 m", "of this wire, one way"),
                quantity("capacitance_per_metre", CAPACITANCE, "0 F", "10 nF", "80 pF", "to the wires beside it")
                        .or("80 pF", COMMON_PRACTICE),
                text("colour", "yellow", "as found on this machine; absent: nobody has looked. Proves nothing")
                        .optional());
    }

    private static List<Key> connector() {
        return keys(
                text("name", "x1", "to tell it apart").required(),
                classKey("connectors", "a named class; its values hold unless given"),
                quantity("pitch", LENGTH, "0.3 mm", "20 mm", "2.5 mm", "from contact to contact"),
                amps("rated_current", "10 mA", "100 A", "3 A", "per contact"),
                ohms("contact_resistance", "0 ohm", "10 ohm", "20 mohm", "per contact")
                        .or("20 mohm", "connector catalogues: after ageing"),
                Key.of("contacts", new Shape.Texts(AT), "[main.1, main.2, main.3]", "in their order"),
                at("touches_first", "main.2", "the contact that is made longer, if one is")
                        .optional());
    }

    private static List<Key> names() {
        return keys(
                at("contact", "main.3", "of a board").required(),
                text("on_board", "FAN", "printed beside it").optional(),
                text("in_drawing", "K4-3", "in the board's drawing").optional(),
                text("in_settings", "fan", "in the machine's settings").optional(),
                group(
                                "settled_by",
                                new Shape.Group(
                                        keys(
                                                text(
                                                                "test",
                                                                "buzzed out from plug to pin",
                                                                "what was done at the bench")
                                                        .required(),
                                                mark("found", "tach", "the port, input or rail found on this contact")
                                                        .required(),
                                                text("date", "3 May", "when").optional()),
                                        Optional.empty(),
                                        List.of(),
                                        Optional.empty()),
                                "{test: buzzed out, found: tach}",
                                "the bench test that settled which contact it is")
                        .optional());
    }
}
