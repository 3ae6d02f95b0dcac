package coldward.model.wiring.analysis;

import static coldward.quantity.Checks.number;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.OperatingPoint;
import coldward.model.wiring.OpenCollector;
import coldward.model.wiring.Part;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.StateSolver.Solved;
import coldward.model.wiring.analysis.WiringState.Fan;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Levels, margins and currents at the inputs, the stage and the diodes, from the solved states. */
final class SignalChecks {

    private final Wiring wiring;
    private final StateSolver solver;
    private final FindingList findings;
    private final Set<String> diodes;

    SignalChecks(Wiring wiring, StateSolver solver, FindingList findings) {
        this.wiring = wiring;
        this.solver = solver;
        this.findings = findings;
        diodes = wiring.parts().stream()
                .filter(Part.SeriesDiode.class::isInstance)
                .map(Part::name)
                .collect(Collectors.toSet());
    }

    /** The pair of one corner with the fan on: the input's lower level is its low, whichever way a level shift turns it. */
    void levels(Signal signal, Solved low, Solved open) {
        if (!(low.result() instanceof Converged a) || !(open.result() instanceof Converged b)) {
            return;
        }
        double withLow = a.point().voltage(signal.at());
        double withOpen = b.point().voltage(signal.at());
        double lower = Math.min(withLow, withOpen);
        double upper = Math.max(withLow, withOpen);
        Solved lowerState = withLow <= withOpen ? low : open;
        Solved upperState = withLow <= withOpen ? open : low;
        double lowLimit = signal.input().lowBelow();
        double highLimit = signal.input().highAbove();
        if (lower > lowLimit) {
            lowTooHigh(signal, lowerState, lower);
        } else if (lower > lowLimit - Limits.MARGIN_V) {
            thin(signal, lower, lowLimit - Limits.MARGIN_V, lowerState, "low");
        }
        if (upper < highLimit) {
            highTooLow(signal, upperState, upper);
        } else if (upper < highLimit + Limits.MARGIN_V) {
            thin(signal, upper, highLimit + Limits.MARGIN_V, upperState, "high");
        }
    }

    private void thin(Signal signal, double value, double limit, Solved solved, String which) {
        findings.add(
                FindingCode.MARGIN_THIN,
                signal.at(),
                value,
                limit,
                "V",
                solved.state().words(),
                "the " + which + " level leaves less than " + number(Limits.MARGIN_V)
                        + " V for noise from motor and heater wires",
                which.equals("low")
                        ? "a diode with less forward voltage, or a weaker pull-up"
                        : "a stronger pull-up, or less load on the signal");
    }

    private void lowTooHigh(Signal signal, Solved solved, double value) {
        Optional<String> reversed = reversed(signal, solved);
        if (reversed.isPresent()) {
            findings.add(
                    FindingCode.DIODE_REVERSED,
                    reversed.get(),
                    value,
                    signal.input().lowBelow(),
                    "V",
                    solved.state().words(),
                    "the fan cannot pull the input low through it; turned round, it can",
                    "turn it: the end with the band to the fan, the other end to the input and its pull-up");
            return;
        }
        findings.add(
                FindingCode.LOW_LEVEL_TOO_HIGH,
                signal.at(),
                value,
                signal.input().lowBelow(),
                "V",
                solved.state().words(),
                "the input need not see the fan's pulses: the level may count as neither low nor high",
                diodes.isEmpty()
                        ? "a weaker pull-up, so that the stage has less current to sink"
                        : "a small-signal Schottky diode instead, or a weaker pull-up");
    }

    /** The one diode that, turned round, gives a right low level. */
    private Optional<String> reversed(Signal signal, Solved solved) {
        for (String diode : diodes) {
            Solved twin = solver.solve(solved.state(), Set.of(diode), Set.of());
            if (twin.result() instanceof Converged c
                    && c.point().voltage(signal.at()) <= signal.input().lowBelow()) {
                return Optional.of(diode);
            }
        }
        return Optional.empty();
    }

    private void highTooLow(Signal signal, Solved solved, double value) {
        boolean floats = value < signal.supply() * 0.1;
        if (floats && !findings.has(FindingCode.DIODE_REVERSED)) {
            findings.add(
                    FindingCode.NOTHING_PULLS_UP,
                    signal.at(),
                    value,
                    signal.input().highAbove(),
                    "V",
                    solved.state().words(),
                    "an open collector only pulls down; without a pull-up the input floats and reads noise",
                    "switch on the input's pull-up, or fit 4.7 to 22 kohm to the input's own supply");
        } else {
            findings.add(
                    FindingCode.HIGH_LEVEL_TOO_LOW,
                    signal.at(),
                    value,
                    signal.input().highAbove(),
                    "V",
                    solved.state().words(),
                    "the input need not see the fan's pulses: the level may count as neither low nor high",
                    "a stronger pull-up, or a pull-up to the input's own supply");
        }
    }

    /** Voltage at the input and current into it, in any state. */
    void harm(Signal signal, Solved solved) {
        if (solved.result() instanceof Converged c && harmed(signal, c.point())) {
            if (leaks(signal, solved, c.point())) {
                return;
            }
            report(signal, solved, c.point());
        }
    }

    private boolean harmed(Signal signal, OperatingPoint point) {
        return tooMuchCurrent(signal, point) || tooMuchVoltage(signal, point) || pullUpOn(signal, point);
    }

    private static double into(Signal signal, OperatingPoint point) {
        return signal.clamped() ? point.current(CircuitOfWiring.upperClamp(signal.board(), signal.input())) : 0;
    }

    private static double currentLimit(Signal signal) {
        return Math.max(signal.input().injectionUp(), Limits.NOTHING_A);
    }

    private static boolean tooMuchCurrent(Signal signal, OperatingPoint point) {
        return into(signal, point) > currentLimit(signal);
    }

    private static boolean tooMuchVoltage(Signal signal, OperatingPoint point) {
        return point.voltage(signal.at()) > signal.input().toleratedUpTo() + Limits.ROUNDING_V
                && (!signal.clamped() || into(signal, point) > Limits.NOTHING_A);
    }

    private static boolean pullUpOn(Signal signal, OperatingPoint point) {
        double supply = point.voltage(
                CircuitOfWiring.rail(signal.board(), signal.input().rail()));
        return signal.input().pullUp().isPresent()
                && !signal.clamped()
                && point.voltage(signal.at()) > supply + Limits.ABOVE_SUPPLY_WITH_PULL_UP_V;
    }

    private void report(Signal signal, Solved solved, OperatingPoint point) {
        String words = solved.state().words();
        double volts = point.voltage(signal.at());
        if (tooMuchCurrent(signal, point)) {
            findings.add(
                    FindingCode.CURRENT_INTO_INPUT,
                    signal.at(),
                    into(signal, point) * 1e3,
                    currentLimit(signal) * 1e3,
                    "mA",
                    words,
                    "the current flows through the input's clamp into its supply and destroys the pin in time",
                    "pull the signal up to the input's own supply, and let a diode block what comes from the fan");
        }
        if (pullUpOn(signal, point)) {
            findings.add(
                    FindingCode.TOLERANT_INPUT_WITH_PULL_UP,
                    signal.at(),
                    volts,
                    point.voltage(CircuitOfWiring.rail(
                                    signal.board(), signal.input().rail()))
                            + Limits.ABOVE_SUPPLY_WITH_PULL_UP_V,
                    "V",
                    words,
                    "a tolerant pin stands more than its supply only while its internal pull-up is off",
                    "switch the internal pull-up off in the settings, or pull the signal up to the pin's own supply");
        }
        if (tooMuchVoltage(signal, point)) {
            findings.add(
                    FindingCode.INPUT_VOLTAGE_TOO_HIGH,
                    signal.at(),
                    volts,
                    signal.input().toleratedUpTo(),
                    "V",
                    words,
                    "above this voltage the pin may be destroyed at once",
                    "pull the signal up to the input's own supply, and let a diode block what comes from the fan");
        }
    }

    /** True if a diode's leakage is the cause: with tight diodes the input comes to no harm. */
    private boolean leaks(Signal signal, Solved solved, OperatingPoint point) {
        if (diodes.isEmpty()) {
            return false;
        }
        if (!(solver.solve(solved.state(), Set.of(), diodes).result() instanceof Converged tight)
                || harmed(signal, tight.point())) {
            return false;
        }
        boolean current = tooMuchCurrent(signal, point);
        double supply = point.voltage(
                CircuitOfWiring.rail(signal.board(), signal.input().rail()));
        double stands = pullUpOn(signal, point)
                ? supply + Limits.ABOVE_SUPPLY_WITH_PULL_UP_V
                : signal.input().toleratedUpTo();
        String diode = diodes.stream()
                .max((a, b) -> Double.compare(-point.current("part " + a), -point.current("part " + b)))
                .orElseThrow();
        findings.add(
                FindingCode.DIODE_LEAKS,
                diode,
                current ? into(signal, point) * 1e3 : point.voltage(signal.at()),
                current ? currentLimit(signal) * 1e3 : stands,
                current ? "mA" : "V",
                solved.state().words(),
                "%s uA leak back through it and %s %s"
                        .formatted(
                                number(Math.rint(-point.current("part " + diode) * 1e6)),
                                current ? "flow into" : "lift",
                                signal.at() + ", beyond what that input stands"),
                "a small-signal diode of 30 V or more that leaks little when hot, or a stronger pull-up");
        return true;
    }

    /** The stage and the diodes against their own limits, in any state. */
    void parts(Solved solved) {
        if (!(solved.result() instanceof Converged c)) {
            return;
        }
        String words = solved.state().words();
        wiring.fan().stage().ifPresent(stage -> stage(stage, c.point(), words));
        for (Part part : wiring.parts()) {
            if (part instanceof Part.SeriesDiode diode) {
                diode(diode, c.point(), words);
            }
        }
    }

    private void stage(OpenCollector stage, OperatingPoint point, String words) {
        double amperes = point.current(CircuitOfWiring.STAGE);
        double volts = point.voltage(WiredFan.THIRD.toString(), WiredFan.MINUS.toString());
        if (amperes > stage.currentLimit()) {
            findings.add(
                    FindingCode.STAGE_CURRENT_TOO_HIGH,
                    WiredFan.THIRD.toString(),
                    amperes * 1e3,
                    stage.currentLimit() * 1e3,
                    "mA",
                    words,
                    "the transistor behind the third wire sinks more than it may",
                    "a larger pull-up resistor");
        }
        if (volts > stage.voltageLimit()) {
            findings.add(
                    FindingCode.STAGE_VOLTAGE_TOO_HIGH,
                    WiredFan.THIRD.toString(),
                    volts,
                    stage.voltageLimit(),
                    "V",
                    words,
                    "the open transistor behind the third wire stands less than it is pulled to",
                    "pull the signal up to the input's own supply");
        }
    }

    private void diode(Part.SeriesDiode diode, OperatingPoint point, String words) {
        double reverse = point.voltage(CircuitOfWiring.end(diode, "cathode"), CircuitOfWiring.end(diode, "anode"));
        double amperes = point.current(CircuitOfWiring.part(diode));
        if (reverse > diode.kind().reverseLimit()) {
            findings.add(
                    FindingCode.DIODE_VOLTAGE_TOO_HIGH,
                    diode.name(),
                    reverse,
                    diode.kind().reverseLimit(),
                    "V",
                    words,
                    "beyond its reverse voltage the diode breaks down and no longer blocks",
                    "a diode with at least 1.2 times this reverse voltage");
        }
        if (amperes > diode.kind().forwardLimit()) {
            findings.add(
                    FindingCode.DIODE_CURRENT_TOO_HIGH,
                    diode.name(),
                    amperes,
                    diode.kind().forwardLimit(),
                    "A",
                    words,
                    "the diode overheats",
                    "find what drives the current; a tachometer signal needs a milliampere");
        }
    }

    /** What the switched-off fan does, and what flows back from it. */
    void off(Solved solved, List<Signal> signals) {
        if (solved.state().fan() != Fan.OFF || !(solved.result() instanceof Converged c)) {
            return;
        }
        OperatingPoint point = c.point();
        String words = solved.state().words();
        WiredFan fan = wiring.fan();
        double left = point.voltage(WiredFan.PLUS.toString(), WiredFan.MINUS.toString());
        if (left >= fan.startVoltage()) {
            findings.add(
                    FindingCode.FAN_KEEPS_TURNING,
                    "fan",
                    left,
                    fan.startVoltage(),
                    "V",
                    words,
                    "the fan runs on current that finds its way back through other wires",
                    "a diode in the signal wire, band to the fan");
        } else if (left >= Limits.CREEP_SHARE * fan.ratedVoltage()) {
            findings.add(
                    FindingCode.FAN_CREEPS,
                    "fan",
                    left,
                    Limits.CREEP_SHARE * fan.ratedVoltage(),
                    "V",
                    words,
                    "switched off, the fan still has enough voltage to creep, hum or tick",
                    "a diode in the signal wire, band to the fan");
        }
        if (fan.stage().isEmpty() || signals.isEmpty()) {
            return;
        }
        double back = Math.min(-point.current(CircuitOfWiring.STAGE), intoRails(point));
        if (back > Limits.NOTHING_A && !findings.has(FindingCode.DIODE_LEAKS)) {
            findings.add(
                    FindingCode.BACK_FEED,
                    WiredFan.THIRD.toString(),
                    back * 1e3,
                    Limits.NOTHING_A * 1e3,
                    "mA",
                    words,
                    "with the minus opened the whole fan floats up to its rail and feeds the board through the signal wire",
                    "a small-signal Schottky diode in the signal wire, the end with the band to the fan");
        }
    }

    private double intoRails(OperatingPoint point) {
        return wiring.boards().stream()
                .flatMap(b -> b.rails().stream().map(r -> CircuitOfWiring.rail(b, r.name())))
                .mapToDouble(point::current)
                .filter(i -> i > 0)
                .sum();
    }

    /** True if the half-plugged fan drives the input beyond what it stands. */
    boolean harmful(List<Signal> signals, OperatingPoint point) {
        return signals.stream().anyMatch(s -> harmed(s, point));
    }
}
