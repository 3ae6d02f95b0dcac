package coldward.model.wiring.finder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.finder.FinderAnswer.Ranked;
import coldward.model.wiring.finder.Measurement.Fed;
import coldward.model.wiring.finder.Measurement.Ohms;
import coldward.model.wiring.finder.Measurement.Rotor;
import coldward.model.wiring.finder.Measurement.Third;
import coldward.model.wiring.finder.WireFinder.Level;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
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
                    assertThat(wiresOnly.next().orElseThrow().test().words()).contains("rotor");
                    for (Rotor rotor : Rotor.values()) {
                        Third m = new Third(plus, minus, third, rotor.fed(12), 10e3, rotor, 0);
                        double volts = off(Predictor.reading(m, truth, ohm, false), random);
                        readings.add(new Third(plus, minus, third, rotor.fed(12), 10e3, rotor, volts));
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

    /** Measuring only what is proposed settles every assignment, at 5, 12 and 24 V. */
    @Test
    void theProposedTestsSettleEveryAssignment() {
        SplittableRandom random = new SplittableRandom(11);
        int most = 0;
        for (double supply : new double[] {5, 12, 24}) {
            for (Ranked start : WireFinder.find(WIRES, List.of()).ranked()) {
                Hypothesis truth = start.hypothesis();
                double ohm = random.nextDouble(40, 700);
                List<Measurement> readings = new ArrayList<>();
                FinderAnswer answer = WireFinder.find(WIRES, readings, supply, Set.of());
                while (answer.next().isPresent()) {
                    readings.add(shown(answer.next().get().test(), truth, ohm, random));
                    answer = WireFinder.find(WIRES, readings, supply, Set.of());
                }
                assertThat(answer.tells())
                        .as("%s at %s V: %s", truth, supply, readings)
                        .contains(truth);
                most = Math.max(most, readings.size());
            }
        }
        assertThat(most).isLessThanOrEqualTo(12);
    }

    private static Measurement shown(Measurement test, Hypothesis truth, double ohm, SplittableRandom random) {
        double value = Predictor.reading(test, truth, ohm, false);
        return switch (test) {
            case Ohms m ->
                m.reads(value > 1e7 ? OptionalDouble.empty() : OptionalDouble.of(value * random.nextDouble(0.8, 1.2)));
            case Fed m -> m.reads(off(value, random));
            case Third m -> m.reads(off(value, random));
        };
    }

    @Test
    void aSkippedOrMadeTestIsNotProposedAgain() {
        Measurement first =
                WireFinder.find(WIRES, List.of()).next().orElseThrow().test();
        FinderAnswer skipped = WireFinder.find(WIRES, List.of(), 12, Set.of(first.words()));
        assertThat(skipped.next().orElseThrow().test().words()).isNotEqualTo(first.words());
    }

    /** By hand: open, 10 kohm against a 10 Mohm meter leaves 99.9 % of the supply; pulling, less than half a volt is left. */
    @Test
    void theKindsOfThirdWireDifferInWhatChanges() {
        Map<String, Double> levels = WireFinder.levels(12).stream()
                .collect(Collectors.toMap(l -> l.tells().word() + " " + l.rotor(), Level::volts));
        assertThat(levels).hasSize(9);
        double high = 12 * 10e6 / (10e6 + 10e3);
        assertThat(levels.get("locked-rotor level FREE")).isBetween(0.0, 0.5);
        assertThat(levels.get("locked-rotor level SLOW")).isBetween(0.0, 0.5);
        assertThat(levels.get("locked-rotor level HELD")).isCloseTo(high, within(0.01));
        assertThat(levels.get("low-speed level FREE")).isBetween(0.0, 0.5);
        assertThat(levels.get("low-speed level SLOW")).isCloseTo(high / 2, within(0.01));
        assertThat(levels.get("low-speed level HELD")).isCloseTo(high, within(0.01));
        assertThat(levels.get("pulses FREE")).isCloseTo(high / 2, within(0.25));
        assertThat(levels.get("pulses SLOW")).isCloseTo(high / 4, within(0.25));
    }
}
