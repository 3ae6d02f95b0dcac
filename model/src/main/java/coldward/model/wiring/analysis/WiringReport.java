package coldward.model.wiring.analysis;

import coldward.model.circuit.OperatingPoint;
import java.util.List;

/**
 * What came of checking one wiring.
 *
 * @param findings worst first
 * @param states every state solved, with its numbers
 * @param edges every edge timed; empty without a signal or a known top speed
 * @param solves circuits solved at rest
 */
public record WiringReport(List<Finding> findings, List<StatePoint> states, List<EdgeTime> edges, int solves) {

    /**
     * One state.
     *
     * @param name in words
     * @param state itself
     * @param point node voltages by contact, currents by element
     * @param residual A left over
     */
    public record StatePoint(String name, WiringState state, OperatingPoint point, double residual) {}

    public WiringReport {
        findings = List.copyOf(findings);
        states = List.copyOf(states);
        edges = List.copyOf(edges);
    }

    /** True if something does not work or harms a part. */
    public boolean hasErrors() {
        return findings.stream().anyMatch(f -> f.severity() == Severity.ERROR);
    }
}
