package coldward.model.wiring.finder;

import coldward.model.circuit.DcResult;
import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.DcSolver;
import coldward.model.circuit.DiodeModel;
import coldward.model.circuit.Drive;
import coldward.model.circuit.Element;
import coldward.model.circuit.Element.Diode;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.Stage;
import coldward.model.circuit.Element.StageModel;
import coldward.model.circuit.Element.VoltageSource;
import coldward.model.circuit.Netlist;
import coldward.model.circuit.OperatingPoint;
import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.finder.Measurement.Fed;
import coldward.model.wiring.finder.Measurement.Ohms;
import coldward.model.wiring.finder.Measurement.Rotor;
import coldward.model.wiring.finder.Measurement.Third;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a multimeter would show, by solving the circuit of fan, meter and supply. Node names are the user's wires. */
final class Predictor {

    /** V and ohm of a meter's ohms range at its terminals (common practice, no source). */
    private static final double METER_V = 1.5;

    private static final double METER_OHM = 10e3;

    /** Ohm of a meter's volts range. */
    private static final double METER_INPUT_OHM = 10e6;

    /** Ohm over which a meter shows nothing. */
    static final double OVER_RANGE_OHM = 20e6;

    /** A silent fan's own electronics below the voltage at which they wake, ohm (common practice, no source). */
    private static final double ASLEEP_OHM = 50e3;

    /** V above which the fan draws like a motor (common practice, no source). */
    private static final double AWAKE_V = 2.5;

    private static final DiodeModel BODY = new DiodeModel(1e-10, 1.5, 1, 1.11, 3, 0, 1, 10);
    private static final StageModel STAGE = StageModel.through(0.1, 0.4, 5e-3, 20e-3);

    private Predictor() {}

    /**
     * A reading in V, or in ohm capped at the meter's range.
     *
     * @param fanOhm V/I of the running fan
     * @param inverted true if the third wire's levels are the other way round than usual
     */
    static double reading(Measurement measurement, Hypothesis hypothesis, double fanOhm, boolean inverted) {
        return switch (measurement) {
            case Ohms m -> ohms(m, hypothesis);
            case Fed m -> fed(m, hypothesis, fanOhm);
            case Third m -> third(m, hypothesis, fanOhm, inverted);
        };
    }

    private static double ohms(Ohms m, Hypothesis h) {
        List<Element> circuit = fan(h, ASLEEP_OHM, 0);
        circuit.add(new VoltageSource("meter", "meter", m.black(), METER_V));
        circuit.add(new Resistor("range", "meter", m.red(), METER_OHM));
        circuit.add(new Resistor("ground", m.black(), Netlist.GROUND, 1));
        OperatingPoint point = solve(circuit);
        double volts = point.voltage(m.red(), m.black());
        double amperes = point.current("range");
        return amperes * OVER_RANGE_OHM <= volts ? OVER_RANGE_OHM : volts / amperes;
    }

    private static double fed(Fed m, Hypothesis h, double fanOhm) {
        double asleep = fedAt(m, h, ASLEEP_OHM).voltage(h.plus(), h.minus());
        OperatingPoint point = fedAt(m, h, asleep > AWAKE_V ? fanOhm : ASLEEP_OHM);
        return point.voltage(m.at(), m.minus());
    }

    private static OperatingPoint fedAt(Fed m, Hypothesis h, double fanOhm) {
        List<Element> circuit = fan(h, fanOhm, 0);
        circuit.add(new VoltageSource("supply", "supply", m.minus(), m.supply()));
        circuit.add(new Resistor("resistor", "supply", m.plus(), m.resistor()));
        circuit.add(new Resistor("ground", m.minus(), Netlist.GROUND, 1));
        circuit.add(new Resistor("meter", m.at(), m.minus(), METER_INPUT_OHM));
        return solve(circuit);
    }

    private static double third(Third m, Hypothesis h, double fanOhm, boolean inverted) {
        double low = thirdAt(m, h, fanOhm, 1);
        double open = thirdAt(m, h, fanOhm, 0);
        double share = lowShare(h.tells(), m.rotor(), inverted);
        return share * low + (1 - share) * open;
    }

    /** Share of time at which the stage pulls: pulses half of it while it turns, a level always or never. */
    private static double lowShare(ThirdWire tells, Rotor rotor, boolean inverted) {
        boolean well = rotor == Rotor.FREE || (rotor == Rotor.SLOW && tells == ThirdWire.LOCKED_ROTOR);
        return switch (tells) {
            case PULSES -> rotor == Rotor.HELD ? (inverted ? 0 : 1) : 0.5;
            case LOCKED_ROTOR, LOW_SPEED -> well == inverted ? 0 : 1;
            case NONE -> 0;
        };
    }

    private static double thirdAt(Third m, Hypothesis h, double fanOhm, double on) {
        List<Element> circuit = fan(h, fanOhm, on);
        circuit.add(new VoltageSource("supply", m.plus(), Netlist.GROUND, m.supply()));
        circuit.add(new Resistor("ground", m.minus(), Netlist.GROUND, 1e-3));
        circuit.add(new Resistor("pull-up", m.plus(), m.third(), m.pullUp()));
        circuit.add(new Resistor("meter", m.third(), m.minus(), METER_INPUT_OHM));
        return solve(circuit).voltage(m.third(), m.minus());
    }

    /** Motor, the diodes of its bridge backwards, and the stage with its own. */
    private static List<Element> fan(Hypothesis h, double ohm, double on) {
        List<Element> circuit = new ArrayList<>();
        circuit.add(new Resistor("motor", h.plus(), h.minus(), ohm));
        circuit.add(new Diode("bridge", h.minus(), h.plus(), BODY));
        circuit.add(new Stage("stage", h.third(), h.minus(), STAGE, Drive.steady(on), Optional.of(BODY)));
        return circuit;
    }

    private static OperatingPoint solve(List<Element> circuit) {
        return switch (DcSolver.solve(new Netlist(25, circuit))) {
            case Converged c -> c.point();
            case DcResult.Failed f ->
                throw new coldward.quantity.NumericalFailure("the circuit of the readings was not solved: " + f.reason()
                        + ", " + f.residual() + " A left over after " + f.iterations() + " steps");
        };
    }
}
