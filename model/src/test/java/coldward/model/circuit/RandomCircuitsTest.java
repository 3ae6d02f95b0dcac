package coldward.model.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.DcResult.Failed;
import coldward.model.circuit.DcResult.Reason;
import coldward.model.circuit.Element.VoltageSource;
import java.time.Duration;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** A hundred thousand circuits thrown together: an answer whose currents cancel, or the sealed failure; always an end. */
class RandomCircuitsTest {

    @Test
    void everyCircuitEndsOneWayOrTheOther() {
        AtomicInteger settled = new AtomicInteger();
        Map<Reason, Integer> failed = Collections.synchronizedMap(new EnumMap<>(Reason.class));
        org.junit.jupiter.api.Assertions.assertTimeoutPreemptively(Duration.ofSeconds(60), () -> {
            SplittableRandom random = new SplittableRandom(4);
            for (int i = 0; i < 100_000; i++) {
                Netlist netlist = RandomCircuits.anything(random.split());
                switch (DcSolver.solve(netlist)) {
                    case Converged c -> {
                        settled.incrementAndGet();
                        assertThat(c.residual()).isLessThan(1e-9);
                        if (i % 50 == 0 && highest(c.point()) < 1e4) {
                            currentsCancel(netlist, c.point());
                        }
                    }
                    case Failed f -> failed.merge(f.reason(), 1, Integer::sum);
                }
            }
        });
        assertThat(settled.get()).isGreaterThan(70_000);
        // the rest has a cause: sources that short each other, or a current source that only leakage holds
        assertThat(failed.getOrDefault(Reason.NOT_SETTLED, 0)).as("%s", failed).isLessThan(200);
    }

    /** A current source into nothing but leakage makes gigavolts, whose rounding alone is more than a nanoampere. */
    private static double highest(OperatingPoint point) {
        return point.voltages().values().stream().mapToDouble(Math::abs).max().orElseThrow();
    }

    /** Kirchhoff's laws from the reported currents alone, not from the solver's own sums. */
    private static void currentsCancel(Netlist netlist, OperatingPoint point) {
        for (String node : point.voltages().keySet()) {
            if (node.equals(Netlist.GROUND)) {
                continue;
            }
            double sum = Netlist.LEAK * point.voltage(node);
            double largest = 0;
            for (Element e : netlist.elements()) {
                double amperes = point.current(e.name());
                if (e.from().equals(node)) {
                    sum += amperes;
                    largest = Math.max(largest, Math.abs(amperes));
                }
                if (e.to().equals(node)) {
                    sum -= amperes;
                    largest = Math.max(largest, Math.abs(amperes));
                }
            }
            assertThat(sum).as(node).isCloseTo(0, within(1e-9 + 1e-12 * largest));
        }
        for (Element e : netlist.elements()) {
            if (e instanceof VoltageSource s) {
                assertThat(point.voltage(s.from(), s.to())).isCloseTo(s.volts().before(), within(1e-9));
            }
        }
    }
}
