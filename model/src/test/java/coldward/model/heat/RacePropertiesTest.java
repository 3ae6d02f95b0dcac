package coldward.model.heat;

import static coldward.model.build.Action.BLOCK_FAN;
import static coldward.model.build.Action.HEATER_OFF;
import static coldward.model.build.Action.HOLD;
import static coldward.model.build.Action.POWER_OFF;
import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.RandomBuilds;
import coldward.model.build.Action;
import coldward.model.build.HotEnd;
import coldward.model.build.Uncertain;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What must hold for every printer, over random ones. */
class RacePropertiesTest {

    private static final int BUILDS = 200;
    private static final Set<Action> STOP = Set.of(HOLD, HEATER_OFF);
    private static final Set<Action> BLOWN = Set.of(HOLD, HEATER_OFF, BLOCK_FAN);
    private static final List<Set<Action>> DISTINCT = List.of(Set.of(HOLD), Set.of(HEATER_OFF), STOP, BLOWN);

    /** To what a deadline is found, s. */
    private static final double FOUND = 0.1;

    @Test
    void deadlinesAgreeWithOneAnotherAndWithSingleMoments() {
        List<Deadline> all = new ArrayList<>();
        for (int number = 0; number < BUILDS; number++) {
            Race race = new Race(RandomBuilds.hotEnd(number));
            for (Regime regime : Regime.values()) {
                String what = "build %s, %s".formatted(number, regime.word());
                if (race.softWhileHealthy(regime)) {
                    assertThat(race.inTime(regime, BLOWN, 0)).as(what).isFalse();
                    continue;
                }
                Deadline stop = race.deadline(regime, STOP);
                assertThat(race.deadline(regime, BLOWN).order()).as(what).isGreaterThanOrEqualTo(stop.order() - FOUND);
                assertThat(race.deadline(regime, Set.of(POWER_OFF))).as(what).isEqualTo(stop);
                if (regime == Regime.HOT_IDLE) {
                    assertThat(race.deadline(regime, Set.of(HEATER_OFF)))
                            .as(what)
                            .isEqualTo(stop);
                }
                for (Set<Action> response : DISTINCT) {
                    Deadline deadline = race.deadline(regime, response);
                    all.add(deadline);
                    moments(race, regime, response, deadline, what + " " + response);
                }
            }
        }
        inOrder(all);
    }

    private static void moments(Race race, Regime regime, Set<Action> response, Deadline deadline, String what) {
        double softens = race.softens(regime).orElse(Double.POSITIVE_INFINITY);
        switch (deadline) {
            case Deadline.Never() ->
                assertThat(race.inTime(regime, response, 0)).as(what).isFalse();
            case Deadline.Until(double seconds) -> {
                assertThat(seconds).as(what).isLessThanOrEqualTo(softens);
                assertThat(race.inTime(regime, response, Math.max(0, seconds - 0.3)))
                        .as("%s: 0.3 s before %s", what, seconds)
                        .isTrue();
                assertThat(race.inTime(regime, response, seconds + 0.3))
                        .as("%s: 0.3 s after %s", what, seconds)
                        .isFalse();
            }
            case Deadline.Always() -> {
                assertThat(softens).as(what).isInfinite();
                for (double t : new double[] {0, 1800}) {
                    assertThat(race.inTime(regime, response, t))
                            .as("%s: %s s", what, t)
                            .isTrue();
                }
            }
        }
    }

    /** Sorted, they are nevers, then rising times, then always; and the random printers have plenty of each. */
    private static void inOrder(List<Deadline> all) {
        List<Deadline> sorted = all.stream().sorted().toList();
        List<String> words = sorted.stream().map(Deadline::word).distinct().toList();
        assertThat(words).containsExactly("never", "until", "always");
        int first = words(sorted, "never");
        int last = sorted.size() - words(sorted, "always");
        assertThat(sorted.subList(0, first)).containsOnly(Deadline.never());
        assertThat(sorted.subList(last, sorted.size())).containsOnly(Deadline.always());
        for (int i = first + 1; i < last; i++) {
            assertThat(sorted.get(i).order())
                    .isGreaterThanOrEqualTo(sorted.get(i - 1).order());
        }
        assertThat(first).isGreaterThan(50);
        assertThat(last - first).isGreaterThan(200);
        assertThat(sorted.size() - last).isGreaterThan(50);
    }

    private static int words(List<Deadline> all, String word) {
        return (int) all.stream().filter(d -> d.word().equals(word)).count();
    }

    @Test
    void hotterAirNeverHelps() {
        int compared = 0;
        for (int number = 0; number < BUILDS; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            double warmer =
                    Math.min(hotEnd.surroundings().air() + 4, hotEnd.plastic().softensAt() - 1);
            compared += noLonger(new Race(hotEnd), new Race(hotEnd.withAir(warmer)), "build " + number);
        }
        assertThat(compared).isGreaterThan(BUILDS);
    }

    @Test
    void aBetterConductingNeckNeverHelps() {
        int compared = 0;
        Factors better = new Factors(Map.of(Uncertain.NECK_CONDUCTANCE, 1.2));
        for (int number = 0; number < BUILDS; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            FanFailure stop = new FanFailure.Stop(hotEnd.fan().coastDown());
            Race other = new Race(hotEnd, better, stop, HeatSettings.USUAL);
            compared += noLonger(new Race(hotEnd), other, "build " + number);
        }
        assertThat(compared).isGreaterThan(BUILDS);
    }

    /** Returns how many regimes it compared. */
    private static int noLonger(Race race, Race worse, String what) {
        int compared = 0;
        for (Regime regime : Regime.values()) {
            if (race.softWhileHealthy(regime)) {
                assertThat(worse.softWhileHealthy(regime)).as(what).isTrue();
                continue;
            }
            if (worse.softWhileHealthy(regime)) {
                continue;
            }
            compared++;
            assertThat(worse.softens(regime).orElse(Double.POSITIVE_INFINITY))
                    .as("%s, %s softens", what, regime)
                    .isLessThanOrEqualTo(race.softens(regime).orElse(Double.POSITIVE_INFINITY) + FOUND);
            assertThat(worse.deadline(regime, STOP).order())
                    .as("%s, %s deadline", what, regime)
                    .isLessThanOrEqualTo(race.deadline(regime, STOP).order() + FOUND);
        }
        return compared;
    }

    /** The root search against looking at every second. */
    @Test
    void theDeadlineIsTheFirstUnsafeMomentOfAScan() {
        int scanned = 0;
        for (int number = 0; scanned < 40; number++) {
            assertThat(number).isLessThan(BUILDS);
            Race race = new Race(RandomBuilds.hotEnd(number));
            Regime regime = number % 2 == 0 ? Regime.PRINTING : Regime.HOT_IDLE;
            Set<Action> response = DISTINCT.get(1 + number % 3);
            if (race.softWhileHealthy(regime)
                    || !(race.deadline(regime, response) instanceof Deadline.Until(double seconds))) {
                continue;
            }
            scanned++;
            int first = 0;
            while (race.inTime(regime, response, first)) {
                first++;
            }
            assertThat(seconds)
                    .as("build %s, %s %s: first unsafe second %s", number, regime, response, first)
                    .isBetween(first - 1.2, first + 0.2);
        }
    }

    @Test
    void theExcessIsAboveZeroExactlyWhereTheDepthIsAboveItsLimit() {
        int above = 0;
        int below = 0;
        for (int number = 0; number < BUILDS; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            Network net = new Network(hotEnd, Factors.NONE, 1);
            Transient heat = new Transient(net, new FanFailure.Stop(0), HeatSettings.USUAL);
            double feed = number % 2 == 0 ? hotEnd.feed() : 0;
            List<double[]> states = new ArrayList<>();
            for (double speed = 0; speed <= 1; speed += 0.125) {
                states.add(heat.steady(speed, feed));
            }
            Transient.Moment start = new Transient.Moment(0, heat.steady(1, feed));
            heat.run(start, 120, new Transient.Doing(feed, true, true, false), (t, y) -> states.add(y.clone()));
            heat.run(start, 120, new Transient.Doing(0, true, false, false), (t, y) -> states.add(y.clone()));
            for (double[] y : states) {
                boolean soft = heat.profile.excess(y) > 0;
                assertThat(heat.profile.softenedDepth(y) > net.limit)
                        .as("build %s: excess %s K", number, heat.profile.excess(y))
                        .isEqualTo(soft);
                assertThat(heat.profile.softenedDepth(y))
                        .isBetween(0.0, hotEnd.sink().length());
                above += soft ? 1 : 0;
                below += soft ? 0 : 1;
            }
        }
        assertThat(above).isGreaterThan(500);
        assertThat(below).isGreaterThan(500);
    }

    /** Below the unsafe speed the steady cold side is soft, above it firm. */
    @Test
    void theUnsafeSpeedParts() {
        int parted = 0;
        for (int number = 0; number < BUILDS; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            Race race = new Race(hotEnd);
            double unsafe = race.unsafeSpeed();
            assertThat(unsafe).isBetween(0.0, 1.0);
            assertThat(unsafe == 1).isEqualTo(race.softWhileHealthy());
            if (unsafe > 0.01 && unsafe < 0.99) {
                parted++;
                assertThat(softAnywhere(hotEnd, unsafe - 0.002))
                        .as("build %s", number)
                        .isTrue();
                assertThat(softAnywhere(hotEnd, unsafe + 0.002))
                        .as("build %s", number)
                        .isFalse();
            }
        }
        assertThat(parted).isGreaterThan(50);
    }

    private static boolean softAnywhere(HotEnd hotEnd, double speed) {
        Transient heat =
                new Transient(new Network(hotEnd, Factors.NONE, 1), new FanFailure.Healthy(), HeatSettings.USUAL);
        return heat.profile.excess(heat.steady(speed, 0)) > 0
                || heat.profile.excess(heat.steady(speed, hotEnd.feed())) > 0;
    }
}
