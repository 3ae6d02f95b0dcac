package coldward.model.wiring.analysis;

import coldward.model.circuit.DcResult;
import coldward.model.circuit.DcSolver;
import coldward.model.circuit.OperatingPoint;
import coldward.model.wiring.Part;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.CircuitOfWiring.Known;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;

/** Solves states. Level shifts and converters take a few passes, since each acts on what the pass before found. */
final class StateSolver {

    /** Passes where level shifts or converters are there: base and input first, then what follows from them. */
    private static final int PASSES = 4;

    /** A solved or failed state, and what the last pass went by. */
    record Solved(WiringState state, DcResult result, Known known) {}

    private final Wiring wiring;
    private final boolean follows;
    private int solves;

    StateSolver(Wiring wiring) {
        this.wiring = wiring;
        follows = wiring.parts().stream().anyMatch(p -> p instanceof Part.LevelShift || p instanceof Part.Converter);
    }

    int solves() {
        return solves;
    }

    Solved solve(WiringState state) {
        return solve(state, Set.of(), Set.of());
    }

    Solved solve(WiringState state, Set<String> turned, Set<String> tight) {
        Known known = Known.NOTHING;
        DcResult result = once(state, known, turned, tight);
        for (int pass = 1; follows && pass < PASSES && result instanceof DcResult.Converged c; pass++) {
            known = found(c.point());
            result = once(state, known, turned, tight);
        }
        return new Solved(state, result, known);
    }

    private DcResult once(WiringState state, Known known, Set<String> turned, Set<String> tight) {
        solves++;
        return DcSolver.solve(CircuitOfWiring.atRest(wiring, state, known, turned, tight));
    }

    private Known found(OperatingPoint point) {
        Map<String, Double> shifts = new HashMap<>();
        Map<String, Double> volts = new HashMap<>();
        Map<String, Double> amperes = new HashMap<>();
        for (Part part : wiring.parts()) {
            if (part instanceof Part.LevelShift shift) {
                double base = point.current(CircuitOfWiring.baseResistor(shift));
                shifts.put(shift.name(), base > 0 ? Math.min(shift.currentLimit(), base * shift.gain()) : 0);
            } else if (part instanceof Part.Converter converter) {
                double in = point.voltage(CircuitOfWiring.end(part, "in"), CircuitOfWiring.end(part, "ground"));
                double out = Math.max(0, Math.min(converter.voltage(), in - converter.headroom()));
                volts.put(part.name(), out);
                double load = Math.max(0, -point.current(CircuitOfWiring.part(part)));
                double lastOut = point.voltage(CircuitOfWiring.end(part, "out"), CircuitOfWiring.end(part, "ground"));
                amperes.put(part.name(), in > 0 ? lastOut * load / (converter.efficiency() * in) : 0);
            }
        }
        return new Known(shifts, volts, amperes);
    }
}
