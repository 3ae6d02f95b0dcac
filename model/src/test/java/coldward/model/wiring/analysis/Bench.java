package coldward.model.wiring.analysis;

import coldward.model.wiring.Board;
import coldward.model.wiring.Connector;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.ContactNames;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Input;
import coldward.model.wiring.OpenCollector;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Port.Switching;
import coldward.model.wiring.Rail;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.WiredFan.Leads;
import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** A sound wiring whose pieces a test replaces one by one. */
public final class Bench {

    /** Fitted to the highest forward voltages of a BAT85 data sheet (1996); leakage 2 uA at 25 degC. */
    public static final DiodeClass SMALL_SCHOTTKY = new DiodeClass(
            "small-signal Schottky", 1.185e-8, 1.052, 3.69, 0.69, 2, 2e-6, 0.5, 10, 30, 0.2, "BAT85 data sheet, 1996");

    /** 1 A, 40 V kind; leakage 20 uA at 25 degC (common practice, no source). */
    public static final DiodeClass POWER_SCHOTTKY =
            new DiodeClass("power Schottky", 7.6e-7, 1.05, 0.22, 0.69, 2, 20e-6, 0.5, 10, 40, 1, "common practice");

    /** 0.55 to 0.7 V (common practice, no source). */
    public static final DiodeClass SILICON =
            new DiodeClass("silicon", 2.5e-9, 1.75, 0.6, 1.11, 3, 25e-9, 0.5, 10, 75, 0.2, "common practice");

    public static final OpenCollector STAGE = new OpenCollector(0.6, 5e-3, 0.1, 5e-3, 30, 1e-6);

    public double hottest = 60;
    double railVolts = 24;
    double railLimit = 10;
    double otherLoad = 3;
    OptionalDouble chopped = OptionalDouble.empty();
    Switching switching = Switching.LOW_SIDE;
    public Input input = new Input(
            "tach",
            "3",
            "3V3",
            1.155,
            2.145,
            OptionalDouble.of(40e3),
            0.25,
            3.6,
            5e-3,
            5e-3,
            1e-6,
            5e-12,
            Optional.empty());
    WiredFan fan = fan(24, 20.4, 27.6, 0.07, 0.18, 12);
    public Optional<DiodeClass> diode = Optional.of(SMALL_SCHOTTKY);
    boolean diodeTurned;
    public OptionalDouble pullUp = OptionalDouble.empty();
    String pullUpTo = "3V3";
    Optional<Part.Filter> filter = Optional.empty();
    double gauge = 26;
    double length = 1.5;
    double rating = 3;
    Optional<ContactId> first = Optional.of(new ContactId("fan", "minus"));
    List<ContactNames> names = new ArrayList<>();
    String thirdPlus = "1";

    static WiredFan fan(double rated, double lowest, double highest, double running, double starting, double start) {
        return new WiredFan(
                rated, lowest, highest, running, starting, start, Leads.THREE, ThirdWire.PULSES, Optional.of(STAGE));
    }

    /** Tolerant to 5.5 V, no injection upwards. */
    static Input tolerant(OptionalDouble pullUp) {
        return new Input("tach", "3", "3V3", 1.155, 2.145, pullUp, 0.25, 5.5, 0, 5e-3, 3e-6, 5e-12, Optional.empty());
    }

    /** TTL levels, 3.3 V supply. */
    public static Input ttl() {
        return new Input(
                "tach",
                "3",
                "3V3",
                0.8,
                2.0,
                OptionalDouble.empty(),
                0,
                3.6,
                5e-3,
                5e-3,
                1e-6,
                5e-12,
                Optional.empty());
    }

    public Wiring wiring() {
        Board board = new Board(
                "main",
                List.of(
                        new Rail("supply", railVolts, 0.05, railLimit, otherLoad, List.of("V")),
                        new Rail("5V", 5, 0.05, 1, 0.3, List.of("5V")),
                        new Rail("3V3", 3.3, 0.05, 0.3, 0.15, List.of("3V3"))),
                List.of(new Port("fan", switching, "supply", "1", "2", 2, 0.05, chopped)),
                List.of(input),
                List.of("GND"));
        List<Part> parts = new ArrayList<>();
        List<Wire> wires = new ArrayList<>();
        wires.add(wire("a", "main.1", "fan.plus", length));
        wires.add(wire("b", "main.2", "fan.minus", length));
        String towards = "main.3";
        if (filter.isPresent()) {
            parts.add(filter.get());
            wires.add(wire("f", towards, "rc.out", 0.1));
            wires.add(wire("g", "rc.ground", "main.GND", 0.1));
            towards = "rc.in";
        }
        if (pullUp.isPresent()) {
            parts.add(new Part.PullUp("r1", pullUp.getAsDouble(), 0.05));
            wires.add(wire("u", "r1.rail", "main." + pullUpTo, 0.1));
            wires.add(wire("v", "r1.signal", towards, 0.05));
            towards = "r1.signal";
        }
        if (diode.isPresent()) {
            parts.add(new Part.SeriesDiode("d1", diode.get()));
            wires.add(wire("c", towards, diodeTurned ? "d1.cathode" : "d1.anode", 0.1));
            wires.add(wire("d", diodeTurned ? "d1.anode" : "d1.cathode", "fan.third", length));
        } else {
            wires.add(wire("c", towards, "fan.third", length));
        }
        List<Connector> connectors = List.of(new Connector(
                "fan plug",
                2.5e-3,
                rating,
                0.02,
                List.of(new ContactId("fan", "plus"), new ContactId("fan", "minus"), new ContactId("fan", "third")),
                first));
        return new Wiring(273.15, hottest + 273.15, List.of(board), fan, parts, wires, connectors, names);
    }

    private Wire wire(String name, String from, String to, double metres) {
        return new Wire(
                name,
                ContactId.parse(from),
                ContactId.parse(to),
                Wire.diameterOfGauge(gauge),
                metres,
                60e-12,
                Optional.empty());
    }
}
