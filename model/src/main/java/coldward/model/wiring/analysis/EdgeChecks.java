package coldward.model.wiring.analysis;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.Netlist;
import coldward.model.circuit.TransientResult;
import coldward.model.circuit.TransientSettings;
import coldward.model.circuit.TransientSolver;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.StateSolver.Solved;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** How long the input takes to see an edge of the fan's stage, against the shortest half-pulse at top speed. */
final class EdgeChecks {

    /** Half-pulses to wait for a crossing. */
    private static final double PATIENCE = 4;

    /** Share of a half-pulse at which the stage moves. */
    private static final double AT = 0.01;

    private final Wiring wiring;
    private final FindingList findings;
    private final List<EdgeTime> edges = new ArrayList<>();

    EdgeChecks(Wiring wiring, FindingList findings) {
        this.wiring = wiring;
        this.findings = findings;
    }

    List<EdgeTime> edges() {
        return List.copyOf(edges);
    }

    /** Both edges in one corner. Not timed where a level never gets there at rest: that is another finding. */
    void check(List<Signal> signals, Solved low, Solved open, Pulses pulses) {
        if (!(low.result() instanceof Converged a) || !(open.result() instanceof Converged b)) {
            return;
        }
        double half = pulses.shortestHalf();
        for (boolean opens : new boolean[] {true, false}) {
            Solved from = opens ? low : open;
            Solved to = opens ? open : low;
            double at = AT * half;
            double end = at + PATIENCE * half;
            Netlist netlist = CircuitOfWiring.moving(wiring, from.state(), opens, at, from.known(), to.known());
            TransientResult result = TransientSolver.follow(netlist, TransientSettings.until(end));
            if (result instanceof TransientResult.Stopped stopped) {
                findings.add(
                        FindingCode.NOT_SOLVED,
                        "edge, " + from.state().words(),
                        "the edge was followed to " + stopped.at() + " s only: " + stopped.why(),
                        "check the values of capacitors and wires in the description");
                continue;
            }
            TransientResult.Followed followed = (TransientResult.Followed) result;
            for (Signal signal : signals) {
                boolean rises = (opens ? a : b).point().voltage(signal.at())
                        < (opens ? b : a).point().voltage(signal.at());
                double threshold =
                        rises ? signal.input().highAbove() : signal.input().lowBelow();
                double rest = (opens ? b : a).point().voltage(signal.at());
                if (rises ? rest <= threshold : rest >= threshold) {
                    continue;
                }
                OptionalDouble crossing = followed.trace().crossing(signal.at(), threshold, at);
                double start = followed.trace().voltage(signal.at(), at);
                boolean already = rises ? start >= threshold : start <= threshold;
                double time = already ? 0 : crossing.orElse(end) - at;
                edges.add(new EdgeTime(signal.at(), from.state().words(), rises, time, half));
                if (time > half) {
                    slow(signal, from, rises, time, half, crossing.isEmpty() && !already);
                }
            }
        }
    }

    private void slow(Signal signal, Solved from, boolean rises, double time, double half, boolean more) {
        findings.add(
                FindingCode.EDGE_TOO_SLOW,
                signal.at(),
                time * 1e3,
                half * 1e3,
                "ms",
                from.state().words(),
                "the %s edge needs %sall of the shortest half-pulse at top speed: the input misses pulses just when they count"
                        .formatted(rises ? "rising" : "falling", more ? "far more than " : ""),
                "a smaller capacitor in the filter (1 to 10 nF is plenty), or a stronger pull-up");
    }
}
