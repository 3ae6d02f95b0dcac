package coldward.model.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.RandomBuilds;
import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Uncertain;
import coldward.model.heat.Deadline;
import coldward.model.heat.Factors;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Seeded draws and what they say together. */
class DrawsTest {

    private static final Set<Action> STOP = Race.RESPONSES.get(2);

    private static Draws draws(long seed) {
        return new Draws(RandomBuilds.build(5), seed, Optional.empty());
    }

    @Test
    void theSameSeedGivesTheSameNumbersInAnyOrderOnAnyThread() {
        List<Draws.Draw> forwards =
                IntStream.range(0, 8).mapToObj(i -> draws(7).at(i)).toList();
        List<Draws.Draw> backwards = new ArrayList<>(
                IntStream.range(0, 8).mapToObj(i -> draws(7).at(7 - i)).toList());
        Collections.reverse(backwards);
        List<Draws.Draw> together =
                IntStream.range(0, 8).parallel().mapToObj(i -> draws(7).at(i)).toList();
        assertThat(backwards).isEqualTo(forwards);
        assertThat(together).isEqualTo(forwards);
        assertThat(Uncertainty.of(together, STOP)).isEqualTo(Uncertainty.of(forwards, STOP));
    }

    @Test
    void anotherSeedOrIndexGivesOtherNumbers() {
        List<Factors> all = Stream.concat(
                        IntStream.range(0, 10).mapToObj(i -> draws(7).at(i).factors()),
                        IntStream.range(0, 10).mapToObj(i -> draws(8).at(i).factors()))
                .toList();
        assertThat(all).doesNotHaveDuplicates();
    }

    /** Means and deviations of the drawn inputs, to four standard errors. */
    @Test
    void theInputsAreDrawnAfterTheirLaws() {
        int n = 1000;
        // in air this warm next to every draw is soft while healthy: no race to run
        Build build = RandomBuilds.build(5);
        Build soft =
                build.withHotEnd(build.hotEnd().withAir(build.hotEnd().plastic().softensAt() - 3));
        Draws draws = new Draws(soft, 1, Optional.empty());
        List<Factors> drawn =
                IntStream.range(0, n).mapToObj(i -> draws.at(i).factors()).toList();
        for (Uncertain input : Uncertain.values()) {
            double[] z = drawn.stream()
                    .mapToDouble(f -> input.law() == Uncertain.Law.LOG_NORMAL ? Math.log(f.of(input)) : f.of(input))
                    .toArray();
            double mean = IntStream.range(0, n).mapToDouble(i -> z[i]).sum() / n;
            double spread = Math.sqrt(IntStream.range(0, n)
                            .mapToDouble(i -> (z[i] - mean) * (z[i] - mean))
                            .sum()
                    / (n - 1));
            double sigma = input.usualSpread();
            assertThat(mean).as(input.words()).isCloseTo(0, within(4 * sigma / Math.sqrt(n) + 1e-15));
            assertThat(spread).as(input.words()).isCloseTo(sigma, within(4 * sigma / Math.sqrt(2.0 * n) + 1e-15));
        }
    }

    @Test
    void withoutSpreadEveryDrawIsTheNominalRace() {
        Map<Uncertain, Double> none = new EnumMap<>(Uncertain.class);
        for (Uncertain input : Uncertain.values()) {
            none.put(input, 0.0);
        }
        Build b = RandomBuilds.build(5);
        Build sure = new Build(
                b.printer(),
                b.hotEnd(),
                b.reading(),
                b.trip(),
                b.response(),
                b.spuriousTripsPerYear(),
                none,
                b.origins());
        Race race = new Race(b.hotEnd());
        List<Draws.Draw> draws = IntStream.range(0, 3)
                .mapToObj(i -> new Draws(sure, 3, Optional.empty()).at(i))
                .toList();
        for (Regime regime : Regime.values()) {
            for (Draws.Draw draw : draws) {
                assertThat(draw.softens()).containsEntry(regime, race.softens(regime));
            }
            Uncertainty.Band band = Uncertainty.of(draws, STOP).bandOf(regime, STOP);
            assertThat(List.of(band.p05(), band.p50(), band.p95())).containsOnly(race.deadline(regime, STOP));
        }
        assertThat(Uncertainty.of(draws, STOP).widest()).isEmpty();
    }

    @Test
    void keepsTheCurvesWishedFor() {
        Draws.CurveWish wish = new Draws.CurveWish(Regime.PRINTING, List.of(Set.of(), STOP), 20, 200);
        Draws draws = new Draws(RandomBuilds.build(5), 7, Optional.of(wish));
        Draws.Draw draw = draws.at(0);
        assertThat(draw.curves()).hasSize(2);
        assertThat(draw.curves().getFirst().seconds()).endsWith(200).startsWith(0);
        assertThat(draw.curves().getFirst().at(15))
                .isCloseTo(draw.curves().getLast().at(15), within(0.5));
        assertThat(draw.curves().getFirst().at(200))
                .isGreaterThan(draw.curves().getLast().at(200));
        // what is wished for changes no number
        assertThat(draw.deadlines()).isEqualTo(draws(7).at(0).deadlines());
    }

    /** Rank ceil(q n), NIST/SEMATECH handbook 7.2.6.2. */
    @Test
    void quantilesAreTheNearestRank() {
        List<Integer> ten = IntStream.rangeClosed(1, 10).boxed().toList();
        assertThat(Uncertainty.nearestRank(ten, 0.05)).isEqualTo(1);
        assertThat(Uncertainty.nearestRank(ten, 0.5)).isEqualTo(5);
        assertThat(Uncertainty.nearestRank(ten, 0.51)).isEqualTo(6);
        assertThat(Uncertainty.nearestRank(ten, 0.95)).isEqualTo(10);
        List<Integer> twenty = IntStream.rangeClosed(1, 20).boxed().toList();
        assertThat(Uncertainty.nearestRank(twenty, 0.05)).isEqualTo(1);
        assertThat(Uncertainty.nearestRank(twenty, 0.5)).isEqualTo(10);
        assertThat(Uncertainty.nearestRank(twenty, 0.95)).isEqualTo(19);
        List<Integer> hundred = IntStream.rangeClosed(1, 100).boxed().toList();
        assertThat(Uncertainty.nearestRank(hundred, 0.07)).isEqualTo(7);
        assertThat(Uncertainty.nearestRank(List.of(4), 0.05)).isEqualTo(4);
        assertThat(Uncertainty.nearestRank(List.of(4), 0.95)).isEqualTo(4);
    }

    @Test
    void aQuantileOfVerdictsIsAVerdict() {
        List<Draws.Draw> draws = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            Deadline deadline = i < 3 ? Deadline.never() : i < 18 ? Deadline.until(i) : Deadline.always();
            draws.add(drawn(Factors.NONE, deadline, i < 18 ? OptionalDouble.of(100 + i) : OptionalDouble.empty()));
        }
        Collections.shuffle(draws, new Random(4));
        Uncertainty all = Uncertainty.of(draws, STOP);
        Uncertainty.Band band = all.bandOf(Regime.PRINTING, STOP);
        assertThat(all.draws()).isEqualTo(20);
        assertThat(band)
                .isEqualTo(new Uncertainty.Band(
                        Deadline.never(), Deadline.until(9), Deadline.always(), 3 / 20.0, 2 / 20.0));
        assertThat(all.softens())
                .containsEntry(
                        Regime.PRINTING,
                        new Uncertainty.Band(Deadline.until(100), Deadline.until(109), Deadline.always(), 0, 0.1));
    }

    @Test
    void namesWhatWidensTheBand() {
        Random random = new Random(9);
        List<Draws.Draw> draws = new ArrayList<>();
        for (int i = 0; i < 400; i++) {
            Map<Uncertain, Double> values = new EnumMap<>(Uncertain.class);
            for (Uncertain input : Uncertain.values()) {
                values.put(input, 1 + 0.1 * random.nextGaussian());
            }
            Factors factors = new Factors(values);
            double seconds = 100
                    + 60 * (factors.of(Uncertain.SINK_STILL) - 1)
                    - 30 * (factors.of(Uncertain.CONTACT) - 1)
                    + 10 * (factors.of(Uncertain.AIR) - 1);
            draws.add(drawn(factors, Deadline.until(seconds), OptionalDouble.of(200)));
        }
        List<Uncertainty.Widener> widest = Uncertainty.of(draws, STOP).widest();
        assertThat(widest)
                .extracting(Uncertainty.Widener::input)
                .startsWith(Uncertain.SINK_STILL, Uncertain.CONTACT)
                .hasSize(3);
        // shares of variance 36 : 9 : 1; ranks carry nearly the same
        assertThat(widest.getFirst().share()).isCloseTo(36 / 46.0, within(0.08));
        assertThat(widest.get(1).share()).isCloseTo(9 / 46.0, within(0.08));
    }

    @Test
    void refusesNothingToSummarise() {
        List<Draws.Draw> none = List.of();
        assertThatThrownBy(() -> Uncertainty.of(none, STOP)).isInstanceOf(InputError.class);
        List<Draws.Draw> one = List.of(draws(7).at(0));
        Set<Action> undrawn = Set.of(Action.BLOCK_FAN);
        assertThatThrownBy(() -> Uncertainty.of(one, undrawn)).isInstanceOf(InputError.class);
    }

    private static Draws.Draw drawn(Factors factors, Deadline deadline, OptionalDouble softens) {
        Map<Regime, OptionalDouble> times = new EnumMap<>(Regime.class);
        Map<Regime, Map<Set<Action>, Deadline>> deadlines = new EnumMap<>(Regime.class);
        for (Regime regime : Regime.values()) {
            times.put(regime, softens);
            deadlines.put(regime, Map.of(STOP, deadline));
        }
        return new Draws.Draw(factors, times, deadlines, List.of());
    }
}
