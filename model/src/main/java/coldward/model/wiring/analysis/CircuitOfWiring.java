package coldward.model.wiring.analysis;

import coldward.model.circuit.DiodeModel;
import coldward.model.circuit.Drive;
import coldward.model.circuit.Element;
import coldward.model.circuit.Element.Capacitor;
import coldward.model.circuit.Element.CurrentSource;
import coldward.model.circuit.Element.Diode;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.Stage;
import coldward.model.circuit.Element.StageModel;
import coldward.model.circuit.Element.VoltageSource;
import coldward.model.circuit.Netlist;
import coldward.model.wiring.Board;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Input;
import coldward.model.wiring.OpenCollector;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Rail;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The circuit of a description in one state. A node is a contact, by its name; element names are given by the functions
 * below, so that currents can be asked for. Assumptions: docs/wiring.md.
 */
final class CircuitOfWiring {

    static final String MOTOR = "fan motor";
    static final String STAGE = "fan stage";

    /**
     * What a plain two-terminal circuit cannot say of itself, from a solution before it: base currents of level shifts and
     * what converters find at their input.
     *
     * @param shifts A that a level shift's collector may pass, by part name
     * @param converterVolts V at a converter's output
     * @param converterAmperes A it draws at its input
     */
    record Known(Map<String, Double> shifts, Map<String, Double> converterVolts, Map<String, Double> converterAmperes) {
        static final Known NOTHING = new Known(Map.of(), Map.of(), Map.of());
    }

    private final Wiring wiring;
    private final List<Element> elements = new ArrayList<>();
    private final WiringState state;
    private final Known known;
    private final Set<String> turned;
    private final Set<String> tight;

    private CircuitOfWiring(Wiring wiring, WiringState state, Known known, Set<String> turned, Set<String> tight) {
        this.wiring = wiring;
        this.state = state;
        this.known = known;
        this.turned = turned;
        this.tight = tight;
    }

    static String wire(Wire wire) {
        return "wire " + wire.name();
    }

    static String part(Part part) {
        return "part " + part.name();
    }

    static String rail(Board board, String rail) {
        return "rail " + board.name() + "." + rail;
    }

    static String node(Board board, String contact) {
        return new ContactId(board.name(), contact).toString();
    }

    static String upperClamp(Board board, Input input) {
        return "upper clamp " + board.name() + "." + input.name();
    }

    static String lowerClamp(Board board, Input input) {
        return "lower clamp " + board.name() + "." + input.name();
    }

    static String portSwitch(Board board, Port port) {
        return "port " + board.name() + "." + port.name();
    }

    /**
     * The circuit at rest.
     *
     * @param turned diodes to take the other way round than described
     * @param tight diodes to take without leakage
     */
    static Netlist atRest(Wiring wiring, WiringState state, Known known, Set<String> turned, Set<String> tight) {
        CircuitOfWiring circuit = new CircuitOfWiring(wiring, state, known, turned, tight);
        circuit.build(Drive.steady(state.low() ? 1 : 0), Map.of());
        return new Netlist(state.corner().celsius(), circuit.elements);
    }

    /**
     * The circuit while the tachometer stage opens or closes at {@code at}, with capacitances.
     *
     * @param opens true if the stage lets go
     * @param before what is known with the stage as it was
     * @param after what is known with the stage as it becomes
     */
    static Netlist moving(Wiring wiring, WiringState state, boolean opens, double at, Known before, Known after) {
        CircuitOfWiring circuit = new CircuitOfWiring(wiring, state, before, Set.of(), Set.of());
        circuit.build(new Drive(opens ? 1 : 0, opens ? 0 : 1, at), after.shifts());
        circuit.capacitances();
        return new Netlist(state.corner().celsius(), circuit.elements);
    }

    private void build(Drive stage, Map<String, Double> shiftsAfter) {
        wiring.boards().forEach(this::board);
        fan(stage);
        for (Part part : wiring.parts()) {
            part(part, stage, shiftsAfter);
        }
        double kelvin = state.corner().kelvin();
        for (Wire wire : wiring.wires()) {
            boolean cut = state.fan() == WiringState.Fan.NO_MINUS
                    && (wire.from().equals(WiredFan.MINUS) || wire.to().equals(WiredFan.MINUS));
            if (!cut) {
                double contacts = wiring.contactResistance(wire.from()) + wiring.contactResistance(wire.to());
                add(new Resistor(
                        wire(wire), wire.from().toString(), wire.to().toString(), wire.resistance(kelvin) + contacts));
            }
        }
    }

    private void add(Element element) {
        elements.add(element);
    }

    private void joint(String a, String b) {
        add(new Resistor("joint " + a + " to " + b + " " + elements.size(), a, b, Limits.JOINT_OHM));
    }

    private void board(Board board) {
        for (Rail rail : board.rails()) {
            String node = rail(board, rail.name());
            double volts = rail.voltage() * (1 + state.corner().supply() * rail.tolerance());
            add(new VoltageSource(node, node, Netlist.GROUND, volts));
            rail.contacts().forEach(c -> joint(node, node(board, c)));
        }
        board.ground().forEach(c -> joint(node(board, c), Netlist.GROUND));
        board.ports().forEach(p -> port(board, p));
        board.inputs().forEach(i -> input(board, i));
    }

    private void port(Board board, Port port) {
        boolean on = state.fan() != WiringState.Fan.OFF || port.switching() == Port.Switching.FIXED;
        double ohm = on ? Math.max(port.onResistance(), Limits.JOINT_OHM) : Limits.OPEN_OHM;
        String rail = rail(board, port.rail());
        String plus = node(board, port.plus());
        String minus = node(board, port.minus());
        if (port.switching() == Port.Switching.LOW_SIDE) {
            joint(rail, plus);
            add(new Resistor(portSwitch(board, port), minus, Netlist.GROUND, ohm));
        } else {
            add(new Resistor(portSwitch(board, port), rail, plus, ohm));
            joint(minus, Netlist.GROUND);
        }
    }

    private void input(Board board, Input input) {
        Rail supply = board.railOf(input.rail());
        String rail = rail(board, input.rail());
        String node = node(board, input.contact());
        String name = board.name() + "." + input.name();
        if (input.pullUp().isPresent()) {
            double ohm = input.pullUp().getAsDouble() * (1 + state.corner().pull() * input.pullUpTolerance());
            add(new Resistor("internal pull-up " + name, rail, node, ohm));
        }
        if (!input.isTolerant(supply.voltage())) {
            add(new Diode(upperClamp(board, input), node, rail, Limits.CLAMP));
        }
        add(new Diode(lowerClamp(board, input), Netlist.GROUND, node, Limits.CLAMP));
        if (input.leakage() > 0) {
            // against the level: up while the stage pulls, down while it is open
            add(new Resistor(
                    "leakage " + name, state.low() ? rail : Netlist.GROUND, node, supply.voltage() / input.leakage()));
        }
    }

    private void fan(Drive stage) {
        WiredFan fan = wiring.fan();
        double amperes = state.fan() == WiringState.Fan.STARTING ? fan.startingCurrent() : fan.runningCurrent();
        add(Element.motor(MOTOR, WiredFan.PLUS.toString(), WiredFan.MINUS.toString(), fan.ratedVoltage(), amperes));
        if (fan.stage().isEmpty()) {
            return;
        }
        OpenCollector given = fan.stage().get();
        String third = WiredFan.THIRD.toString();
        String minus = WiredFan.MINUS.toString();
        StageModel model = StageModel.through(
                given.offset(),
                given.saturation(),
                given.saturationAt(),
                Math.max(given.currentLimit(), given.saturationAt()) * Limits.STAGE_GIVES_UP);
        add(new Stage(STAGE, third, minus, model, stage, Optional.of(Limits.BACK)));
        if (given.leakage() > 0) {
            add(new Resistor("fan stage leakage", third, minus, given.voltageLimit() / given.leakage()));
        }
    }

    private void part(Part part, Drive stage, Map<String, Double> shiftsAfter) {
        String name = part(part);
        switch (part) {
            case Part.SeriesDiode diode -> {
                boolean turn = turned.contains(part.name());
                String anode = end(part, turn ? "cathode" : "anode");
                String cathode = end(part, turn ? "anode" : "cathode");
                add(new Diode(name, anode, cathode, model(diode.kind(), tight.contains(part.name()))));
            }
            case Part.PullUp pullUp ->
                add(new Resistor(
                        name,
                        end(part, "rail"),
                        end(part, "signal"),
                        pullUp.resistance() * (1 + state.corner().pull() * pullUp.tolerance())));
            case Part.Filter filter -> add(new Resistor(name, end(part, "in"), end(part, "out"), filter.resistance()));
            case Part.LevelShift shift -> levelShift(shift, stage, shiftsAfter);
            case Part.Converter converter -> {
                double volts = known.converterVolts().getOrDefault(part.name(), 0.0);
                add(new VoltageSource(name, end(part, "out"), end(part, "ground"), volts));
                add(new CurrentSource(
                        name + " input",
                        end(part, "in"),
                        end(part, "ground"),
                        known.converterAmperes().getOrDefault(converter.name(), 0.0)));
            }
        }
    }

    /** A base resistor and base diode; the collector passes what the base current of the solution before allows. */
    private void levelShift(Part.LevelShift shift, Drive stage, Map<String, Double> shiftsAfter) {
        String name = part(shift);
        String base = shift.name() + " base";
        double thermal = DiodeModel.VOLT_PER_KELVIN * DiodeModel.T0;
        double saturation = Limits.BASE_AT_A / Math.expm1(shift.onAbove() / thermal);
        add(new Resistor(baseResistor(shift), end(shift, "in"), base, shift.baseResistance()));
        add(new Diode(name + " base", base, end(shift, "ground"), new DiodeModel(saturation, 1, 1, 1.11, 3, 0, 1, 10)));
        double before = known.shifts().getOrDefault(shift.name(), 0.0);
        double after = stage.steady() ? before : shiftsAfter.getOrDefault(shift.name(), 0.0);
        double limit = Math.max(before, after);
        if (limit > 0) {
            StageModel model = new StageModel(0, shift.saturation() / shift.currentLimit(), limit);
            Drive on = stage.steady() ? Drive.steady(1) : new Drive(before / limit, after / limit, stage.at());
            add(new Stage(name, end(shift, "out"), end(shift, "ground"), model, on, Optional.empty()));
        }
    }

    static String baseResistor(Part.LevelShift shift) {
        return part(shift) + " base resistor";
    }

    private void capacitances() {
        for (Board board : wiring.boards()) {
            for (Input input : board.inputs()) {
                toGround(
                        "input " + board.name() + "." + input.name(),
                        node(board, input.contact()),
                        input.capacitance());
            }
        }
        for (Wire wire : wiring.wires()) {
            double half = wire.capacitance() * wire.length() / 2;
            toGround(wire(wire) + " from", wire.from().toString(), half);
            toGround(wire(wire) + " to", wire.to().toString(), half);
        }
        for (Part part : wiring.parts()) {
            if (part instanceof Part.Filter filter) {
                add(new Capacitor(part(part) + " C", end(part, "out"), end(part, "ground"), filter.capacitance()));
            }
        }
    }

    private void toGround(String name, String node, double farad) {
        if (farad > 0) {
            add(new Capacitor(name + " C", node, Netlist.GROUND, farad));
        }
    }

    static String end(Part part, String end) {
        return new ContactId(part.name(), end).toString();
    }

    static DiodeModel model(DiodeClass kind, boolean tight) {
        return new DiodeModel(
                kind.saturation(),
                kind.emission(),
                kind.seriesResistance(),
                kind.gap(),
                kind.exponent(),
                tight ? 0 : kind.leakage(),
                kind.leakageKnee(),
                kind.leakageDoubling());
    }
}
