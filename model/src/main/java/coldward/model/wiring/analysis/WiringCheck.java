package coldward.model.wiring.analysis;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.DcResult.Failed;
import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.StateSolver.Solved;
import coldward.model.wiring.analysis.WiringReport.StatePoint;
import coldward.model.wiring.analysis.WiringState.Fan;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The full check of one wiring: rules, every state in every corner, edges, starting, half plugged in. Assumptions, limits
 * and sources: docs/wiring.md.
 */
public final class WiringCheck {

    private final Wiring wiring;
    private final StateSolver solver;
    private final FindingList findings = new FindingList();
    private final List<StatePoint> states = new ArrayList<>();
    private final List<Signal> signals;
    private final SignalChecks signalChecks;
    private final SupplyChecks supply;
    private final RuleChecks rules;
    private final EdgeChecks edges;

    private WiringCheck(Wiring wiring) {
        this.wiring = wiring;
        solver = new StateSolver(wiring);
        signals = Signal.of(wiring);
        signalChecks = new SignalChecks(wiring, solver, findings);
        supply = new SupplyChecks(wiring, findings);
        rules = new RuleChecks(wiring, findings);
        edges = new EdgeChecks(wiring, findings);
    }

    /**
     * Checks a wiring.
     *
     * @param wiring as described
     * @param pulses the fastest pulses to expect; empty if the speed is not read, and then no edge is timed
     */
    public static WiringReport check(Wiring wiring, Optional<Pulses> pulses) {
        WiringCheck check = new WiringCheck(wiring);
        check.run(pulses);
        return new WiringReport(check.findings.worstFirst(), check.states, check.edges.edges(), check.solver.solves());
    }

    private void run(Optional<Pulses> pulses) {
        rules.check(signals);
        boolean third = wiring.fan().stage().isPresent();
        boolean tells = third && wiring.fan().third() == ThirdWire.PULSES;
        boolean switched = rules.switched();
        for (Corner corner : Corner.all(wiring.coldest(), wiring.hottest())) {
            Solved open = solve(Fan.ON, false, corner);
            supply.check(open);
            if (third) {
                Solved low = solve(Fan.ON, true, corner);
                supply.check(low);
                signals.forEach(s -> signalChecks.levels(s, low, open));
                // the slowest edges: the lowest supply, a weak pull-up for rising, a strong one for falling, wires hot
                boolean slowest = corner.supply() == -1 && corner.kelvin() == wiring.hottest();
                if (tells && pulses.isPresent() && !signals.isEmpty() && slowest) {
                    edges.check(signals, low, open, pulses.get());
                }
            }
            if (switched) {
                if (third) {
                    solve(Fan.OFF, true, corner);
                }
                solve(Fan.OFF, false, corner);
            }
            if (corner.pull() == 1) {
                supply.check(solve(Fan.STARTING, false, corner));
            }
        }
        plugging();
        attribute();
    }

    private Solved solve(Fan fan, boolean low, Corner corner) {
        Solved solved = solver.solve(new WiringState(fan, low, corner));
        switch (solved.result()) {
            case Converged c -> {
                states.add(new StatePoint(solved.state().words(), solved.state(), c.point(), c.residual()));
                signals.forEach(s -> signalChecks.harm(s, solved));
                signalChecks.parts(solved);
                signalChecks.off(solved, signals);
            }
            case Failed f ->
                findings.add(
                        FindingCode.NOT_SOLVED,
                        solved.state().words(),
                        "no voltages and currents were found for this state (%s, %s A left over after %d steps)"
                                .formatted(f.reason(), f.residual(), f.iterations()),
                        "check the description for rails joined to each other or to ground");
        }
        return solved;
    }

    /** The plug half in: only reported where the finished wiring is sound, since it says nothing new otherwise. */
    private void plugging() {
        boolean already = findings.has(FindingCode.CURRENT_INTO_INPUT) || findings.has(FindingCode.BACK_FEED);
        if (signals.isEmpty() || !rules.minusMayComeLast()) {
            return;
        }
        Corner corner = new Corner(wiring.coldest(), 1, 1);
        Solved solved = solver.solve(new WiringState(Fan.NO_MINUS, false, corner));
        if (!(solved.result() instanceof Converged c) || !signalChecks.harmful(signals, c.point())) {
            return;
        }
        states.add(new StatePoint(solved.state().words(), solved.state(), c.point(), c.residual()));
        Signal signal = signals.getFirst();
        double volts = c.point().voltage(signal.at());
        findings.add(
                FindingCode.PLUG_ORDER,
                signal.at(),
                volts,
                signal.input().toleratedUpTo(),
                "V",
                solved.state().words(),
                "plugged in with the supply on, plus and signal may touch before the minus and drive the rail into the input"
                        + (already ? "; switched off, the same current flows all the time" : ""),
                "plug and unplug only with the supply off; a longer minus contact or a diode in the signal makes it safe");
    }

    /** A reversed diode also spoils what follows from it; the cause alone is shown. */
    private void attribute() {
        if (findings.has(FindingCode.DIODE_REVERSED)) {
            for (Signal signal : signals) {
                findings.drop(FindingCode.MARGIN_THIN, signal.at());
                findings.drop(FindingCode.LOW_LEVEL_TOO_HIGH, signal.at());
            }
        }
    }
}
