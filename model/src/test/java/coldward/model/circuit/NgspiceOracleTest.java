package coldward.model.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.RandomCircuits.Case;
import coldward.model.circuit.RandomCircuits.Crossing;
import coldward.model.circuit.TransientResult.Followed;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sixty circuits, ten cases of the wiring at six random sizes and corners, against ngspice. */
class NgspiceOracleTest {

    private static final double VOLTS = 1e-3;
    private static final double VOLTS_SHARE = 1e-3;
    private static final double AMPERES_SHARE = 1e-2;

    /** A below which a current is nothing in these circuits: the leakage of solvers is a hundredth of it. */
    private static final double NO_CURRENT = 1e-9;

    private static final double EDGE_SHARE = 2e-2;

    @Test
    void sixtyCircuitsAgree(@TempDir Path directory) throws IOException, InterruptedException {
        RandomGenerator random = new java.util.SplittableRandom(20261125);
        List<Case> cases = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            cases.add(RandomCircuits.wiring(i % 10, random));
        }
        List<Map<String, Double>> oracle = Ngspice.run(cases, directory, 60);
        int moving = 0;
        for (int i = 0; i < cases.size(); i++) {
            Case one = cases.get(i);
            Map<String, Double> its = oracle.get(i);
            DcResult result = DcSolver.solve(one.netlist());
            assertThat(result).as("%d %s", i, one.name()).isInstanceOf(Converged.class);
            OperatingPoint point = ((Converged) result).point();
            point.voltages().forEach((node, volts) -> {
                if (!node.equals(Netlist.GROUND)) {
                    double theirs = get(its, "v(" + node + ")");
                    assertThat(volts)
                            .as("%s, %s", one.name(), node)
                            .isCloseTo(theirs, within(Math.max(VOLTS, VOLTS_SHARE * Math.abs(theirs))));
                }
            });
            point.currents().forEach((element, amperes) -> {
                double theirs = get(its, "i(" + element + ")");
                assertThat(amperes)
                        .as("%s, %s", one.name(), element)
                        .isCloseTo(theirs, within(Math.max(NO_CURRENT, AMPERES_SHARE * Math.abs(theirs))));
            });
            if (one.crossing().isPresent()) {
                Crossing crossing = one.crossing().get();
                TransientResult followed =
                        TransientSolver.follow(one.netlist(), TransientSettings.until(crossing.end()));
                assertThat(followed).as("%d %s", i, one.name()).isInstanceOf(Followed.class);
                double ours = ((Followed) followed)
                        .trace()
                        .crossing(crossing.node(), crossing.threshold(), 0)
                        .orElseThrow();
                double jump = 1e-5;
                double theirs = get(its, "crossing") - jump;
                assertThat(ours - jump).as("%d %s edge", i, one.name()).isCloseTo(theirs, within(EDGE_SHARE * theirs));
                moving++;
            }
        }
        assertThat(moving).isEqualTo(18);
    }

    private static double get(Map<String, Double> values, String name) {
        return Objects.requireNonNull(values.get(name), () -> name + " in " + values);
    }
}
