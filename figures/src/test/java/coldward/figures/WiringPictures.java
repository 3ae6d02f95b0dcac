package coldward.figures;

import coldward.figures.WiringPicture.Pin;
import coldward.model.wiring.Board;
import coldward.model.wiring.Connector;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.ContactNames;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Input;
import coldward.model.wiring.OpenCollector;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Rail;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Severity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.random.RandomGenerator;

/** Wirings for the tests of figures. */
final class WiringPictures {

    static final DiodeClass DIODE =
            new DiodeClass("small-signal Schottky", 1.2e-8, 1.05, 3.7, 0.69, 2, 2e-6, 0.5, 10, 30, 0.2, "test");

    private WiringPictures() {}

    static Board board(String name) {
        return new Board(
                name,
                List.of(
                        new Rail("24V", 24, 0.05, 10, 3, List.of()),
                        new Rail("5V", 5, 0.05, 1, 0.3, List.of("5V")),
                        new Rail("3V3", 3.3, 0.05, 0.3, 0.1, List.of("3V3"))),
                List.of(new Port("fan", Port.Switching.LOW_SIDE, "24V", "1", "2", 1, 0.05, OptionalDouble.empty())),
                List.of(new Input(
                        "tach",
                        "3",
                        "3V3",
                        0.8,
                        2,
                        OptionalDouble.of(40e3),
                        0.25,
                        3.6,
                        0,
                        0,
                        1e-6,
                        1e-11,
                        Optional.empty())),
                List.of("GND"));
    }

    static WiredFan fan() {
        return new WiredFan(
                24,
                20.4,
                27.6,
                0.05,
                0.13,
                12,
                WiredFan.Leads.THREE,
                WiredFan.ThirdWire.PULSES,
                Optional.of(new OpenCollector(0.6, 5e-3, 0.1, 5e-3, 30, 1e-6)));
    }

    static Wire wire(String name, String from, String to, String colour) {
        return new Wire(
                name,
                ContactId.parse(from),
                ContactId.parse(to),
                Wire.diameterOfGauge(24),
                0.8,
                8e-11,
                colour.isEmpty() ? Optional.empty() : Optional.of(colour));
    }

    /** One board, a diode turned round, a pull-up to 5 V; errors, a warning and a note. */
    static WiringPicture usual() {
        ContactId three = ContactId.parse("main.3");
        Wiring wiring = new Wiring(
                273.15,
                333.15,
                List.of(board("main")),
                fan(),
                List.of(new Part.SeriesDiode("d1", DIODE), new Part.PullUp("r1", 10e3, 0.05)),
                List.of(
                        wire("plus", "main.1", "fan.plus", "red"),
                        wire("minus", "main.2", "fan.minus", "black"),
                        wire("signal", "main.3", "d1.anode", "blue"),
                        wire("third", "d1.cathode", "fan.third", "yellow"),
                        wire("lift", "main.5V", "r1.rail", ""),
                        wire("lifted", "r1.signal", "main.3", "")),
                List.of(new Connector(
                        "x1",
                        2.5e-3,
                        3,
                        0.02,
                        List.of(ContactId.parse("main.1"), ContactId.parse("main.2"), three),
                        Optional.empty())),
                List.of(new ContactNames(
                        three, Optional.of("FAN 0"), Optional.of("K4-3"), Optional.of("fan_b"), Optional.empty())));
        return new WiringPicture(
                "heron",
                wiring,
                List.of(
                        new Pin(
                                Severity.ERROR,
                                "W104",
                                "main.tach",
                                "input above its highest voltage, 4.9 V against 3.6 V",
                                "The pin breaks down sooner or later. Lift the signal to 3.3 V instead of 5 V."),
                        new Pin(
                                Severity.ERROR,
                                "W401",
                                "main.3",
                                "contact used twice, 2 against 1",
                                "Two wires in one contact work loose. Join them before it."),
                        new Pin(
                                Severity.WARNING,
                                "W405",
                                "x1",
                                "plus and signal touch first",
                                "Plugged in live, the rail reaches the input. Switch off before plugging."),
                        new Pin(
                                Severity.WARNING,
                                "W304",
                                "plus",
                                "voltage drop too large, 20.1 V against 20.4 V",
                                "The fan may not start. Use a thicker wire."),
                        new Pin(Severity.NOTE, "W403", "d1", "names disagree, settled by test", "Nothing to do.")),
                "Two errors: do not plug this in before they are mended.",
                List.of(
                        "Disconnect the supply before touching wiring.",
                        "Mains parts are for licensed people and local codes.",
                        "A fan trip is not fire protection."));
    }

    /** Several boards and parts, joined at random. */
    static WiringPicture random(RandomGenerator random) {
        List<Board> boards = new ArrayList<>();
        for (int i = 0; i <= random.nextInt(3); i++) {
            boards.add(board("board" + i));
        }
        List<Part> parts = new ArrayList<>();
        int count = random.nextInt(6);
        for (int i = 0; i < count; i++) {
            parts.add(
                    switch (random.nextInt(5)) {
                        case 0 -> new Part.SeriesDiode("p" + i, DIODE);
                        case 1 -> new Part.PullUp("p" + i, 4.7e3, 0.05);
                        case 2 -> new Part.Filter("p" + i, 1e3, 1e-8);
                        case 3 -> new Part.LevelShift("p" + i, 22e3, 0.65, 50, 0.2, 0.1);
                        default -> new Part.Converter("p" + i, 5, 0.03, 2, 1, 0.85);
                    });
        }
        Wiring bare = new Wiring(273.15, 333.15, boards, fan(), parts, List.of(), List.of(), List.of());
        List<ContactId> contacts = bare.contacts();
        List<Wire> wires = new ArrayList<>();
        int many = random.nextInt(14);
        for (int i = 0; i < many; i++) {
            ContactId a = contacts.get(random.nextInt(contacts.size()));
            ContactId b = contacts.get(random.nextInt(contacts.size()));
            if (!a.equals(b)) {
                wires.add(wire("w" + i, a.toString(), b.toString(), random.nextBoolean() ? "green" : ""));
            }
        }
        List<Pin> pins = new ArrayList<>();
        for (int i = 0; i < random.nextInt(6); i++) {
            pins.add(new Pin(
                    List.of(Severity.values()).get(random.nextInt(3)),
                    "W" + (100 + i),
                    contacts.get(random.nextInt(contacts.size())).toString(),
                    "something, 3 V against 2 V",
                    "Why and what mends it."));
        }
        return new WiringPicture(
                "plover", bare.withParts(parts, wires), pins, "A wiring at random.", List.of("Switch off first."));
    }
}
