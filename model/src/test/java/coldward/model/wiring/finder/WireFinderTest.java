package coldward.model.wiring.finder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.finder.Measurement.Fed;
import coldward.model.wiring.finder.Measurement.Ohms;
import coldward.model.wiring.finder.Measurement.Rotor;
import coldward.model.wiring.finder.Measurement.Third;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class WireFinderTest {

    private static final List<String> WIRES = List.of("left", "middle", "right");

    /** All six ohms and all six ways to feed two of the wires, as a meter would show them, each some per cent off. */
    private static List<Measurement> measured(Hypothesis truth, double ohm, SplittableRandom random) {
        List<Measurement> readings = new ArrayList<>();
        for (String a : WIRES) {
            for (String b : WIRES) {
                if (!a.equals(b)) {
                    Ohms m = new Ohms(a, b, OptionalDouble.empty());
                    double shown = Predictor.reading(m, truth, ohm, false) * (1 + 0.3 * random.nextDouble(-1, 1));
                    readings.add(new Ohms(a, b, shown > 1e7 ? OptionalDouble.empty() : OptionalDouble.of(shown)));
                    Fed f = new Fed(a, b, 12, 1000, a, 0);
                    readings.add(new Fed(a, b, 12, 1000, a, off(Predictor.reading(f, truth, ohm, false), random)));
                }
            }
        }
        return readings;
    }

    private static double off(double volts, SplittableRandom random) {
        return volts * (1 + 0.05 * random.nextDouble(-1, 1)) + 0.05 * random.nextDouble(-1, 1);
    }

    @Test
    void eachAssignmentIsFoundFromItsReadings() {
        SplittableRandom random = new SplittableRandom(7);
        for (String plus : WIRES) {
            for (String minus : WIRES) {
                if (plus.equals(minus)) {
                    continue;
                }
                String third = WIRES.stream()
                        .filter(w -> !w.equals(plus) && !w.equals(minus))
                        .findFirst()
                        .orElseThrow();
                for (ThirdWire tells : List.of(ThirdWire.PULSES, ThirdWire.LOCKED_ROTOR, ThirdWire.LOW_SPEED)) {
                    Hypothesis truth = new Hypothesis(plus, minus, third, tells);
                    double ohm = random.nextDouble(40, 700);
                    List<Measurement> readings = measured(truth, ohm, random);
                    FinderAnswer wiresOnly = WireFinder.find(WIRES, readings);
                    assertThat(wiresOnly.wires()).as("%s", truth).isPresent();
                    assertThat(wiresOnly.wires().get().sameWires(truth)).isTrue();
                    assertThat(wiresOnly.tells()).isEmpty();
                    assertThat(wiresOnly.next().orElseThrow().words()).contains("rotor");
                    for (Rotor rotor : Rotor.values()) {
                        Third m = new Third(plus, minus, third, 12, 10e3, rotor, 0);
                        double volts = off(Predictor.reading(m, truth, ohm, false), random);
                        readings.add(new Third(plus, minus, third, 12, 10e3, rotor, volts));
                    }
                    FinderAnswer answer = WireFinder.find(WIRES, readings);
                    assertThat(answer.tells()).as("%s", answer.ranked()).contains(truth);
                    assertThat(answer.next()).isEmpty();
                }
            }
        }
    }

    @Test
    void withoutReadingsNothingIsSettledAndATestIsProposed() {
        FinderAnswer answer = WireFinder.find(WIRES, List.of());
        assertThat(answer.wires()).isEmpty();
        assertThat(answer.ranked()).hasSize(18);
        assertThat(answer.ranked().stream()
                        .mapToDouble(FinderAnswer.Ranked::probability)
                        .sum())
                .isBetween(1 - 1e-9, 1 + 1e-9);
        assertThat(answer.next()).isPresent();
    }

    @Test
    void oneSlipDoesNotTurnTheAnswer() {
        Hypothesis truth = new Hypothesis("left", "middle", "right", ThirdWire.PULSES);
        List<Measurement> readings = measured(truth, 250, new SplittableRandom(1));
        readings.set(1, new Fed("left", "middle", 12, 1000, "left", 11.9));
        assertThat(WireFinder.find(WIRES, readings).wires().orElseThrow().sameWires(truth))
                .isTrue();
    }

    @Test
    void threeDifferentWires() {
        assertThatThrownBy(() -> WireFinder.find(List.of("a", "a", "b"), List.of()))
                .isInstanceOf(InputError.class);
    }
}
