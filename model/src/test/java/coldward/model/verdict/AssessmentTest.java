package coldward.model.verdict;

import static coldward.model.build.Action.BLOCK_FAN;
import static coldward.model.build.Action.HEATER_OFF;
import static coldward.model.build.Action.HOLD;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.RandomBuilds;
import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.HotEnd;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.heat.SheetExample;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTime;
import coldward.model.verdict.Assessment.Outcome;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What it comes to for one build: outcome, recommendation, hottest safe air, advice. */
class AssessmentTest {

    private static final Reading EDGES = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);
    private static final Set<Action> STOP = Set.of(HOLD, HEATER_OFF);

    private static Build build(HotEnd hotEnd, Reading reading, Optional<Trip> trip, Set<Action> actions) {
        return new Build(
                "heron", hotEnd, reading, trip, new Response(actions, 2, 0.5, 0, 0, 0.2), 1, Map.of(), Map.of());
    }

    private static Build build(HotEnd hotEnd) {
        return build(hotEnd, EDGES, Optional.of(new Trip(5200, 3, 5)), STOP);
    }

    @Test
    void aTitaniumNeckIsStoppedInTime() {
        Assessment assessment = Assessment.of(build(SheetExample.titanium()));
        assertThat(assessment.outcome()).isInstanceOfSatisfying(Outcome.Raced.class, raced -> {
            // hot-idle is worse: 35 s; coast 0.43 s, three reports of 1 s, link 0.2 s, hold 2 s
            assertThat(raced.deadline().order()).isCloseTo(35, within(2.0));
            assertThat(raced.stopTime()).isBetween(5.2, 6.5);
            assertThat(raced.margin()).isEqualTo(Margin.of(raced.deadline(), raced.stopTime()));
        });
        assertThat(assessment.outcome().safe()).isTrue();
        assertThat(assessment.worse()).isEqualTo(Regime.HOT_IDLE);
        assertThat(assessment.recommended()).isEqualTo(Set.of(HOLD, HEATER_OFF, BLOCK_FAN));
        assertThat(assessment.advice()).isEmpty();
        assertThat(assessment.provisionalTrip()).isFalse();
        assertThat(assessment.trip()).contains(new Trip(5200, 3, 5));
        assertThat(assessment.unsafeSpeed()).isCloseTo(0.22, within(0.02));
        assertThat(assessment.deadlines()).hasSize(2 * Race.RESPONSES.size());
        assertThat(assessment.standing()).containsOnlyKeys(Regime.values());
        assertThat(assessment.softens()).containsOnlyKeys(Regime.values());
        assertThat(assessment.warnings()).isEmpty();
    }

    /** In time in air a little cooler, too late in air a little warmer, in the worse regime. */
    @Test
    void theHighestSafeAirParts() {
        int parted = 0;
        for (int number = 0; number < 30; number++) {
            Build build = RandomBuilds.build(number);
            Assessment assessment = Assessment.of(build);
            OptionalDouble stop = Assessment.stopSeconds(build, assessment.trip(), assessment.recommended());
            if (assessment.highestSafeAir().isEmpty()) {
                continue;
            }
            double air = assessment.highestSafeAir().getAsDouble();
            double ceiling = build.hotEnd().plastic().softensAt() - 0.2;
            assertThat(inTime(build, air - 0.1, assessment.recommended(), stop.orElseThrow()))
                    .as("build %s below %s K", number, air)
                    .isTrue();
            if (air < ceiling) {
                parted++;
                assertThat(inTime(build, air + 0.1, assessment.recommended(), stop.orElseThrow()))
                        .as("build %s above %s K", number, air)
                        .isFalse();
            }
        }
        assertThat(parted).isGreaterThan(8);
    }

    private static boolean inTime(Build build, double air, Set<Action> response, double stop) {
        Race race = new Race(build.hotEnd().withAir(air));
        return race.inTime(Regime.HOT_IDLE, response, stop) && race.inTime(Regime.PRINTING, response, stop);
    }

    @Test
    void softWhileHealthyIsAFindingAndNoRace() {
        HotEnd hot = SheetExample.stainless().withAir(273.15 + 50);
        Assessment assessment = Assessment.of(build(hot));
        assertThat(assessment.outcome()).isInstanceOf(Outcome.SoftWhileHealthy.class);
        assertThat(assessment.outcome().safe()).isFalse();
        assertThat(assessment.deadlines()).isEmpty();
        assertThat(assessment.highestSafeAir()).isEmpty();
        assertThat(assessment.unsafeSpeed()).isEqualTo(1);
        assertThat(assessment.softens()).doesNotContainKey(Regime.HOT_IDLE);
        assertThat(assessment.standing()).containsOnlyKeys(Regime.values());
    }

    /** The common machine that only block air can save: steel neck, PLA. */
    @Test
    void aSteelNeckIsNeverSavedByHeaterOffAndTheAdviceSaysWhatHelps() {
        Build build = build(SheetExample.stainless());
        Assessment assessment = Assessment.of(build);
        assertThat(assessment.outcome()).isInstanceOfSatisfying(Outcome.Raced.class, raced -> {
            assertThat(raced.deadline()).isEqualTo(Deadline.never());
            assertThat(raced.margin()).isEqualTo(new Margin.NothingSaves());
        });
        assertThat(assessment.outcome().safe()).isFalse();
        assertThat(assessment.recommended()).isEqualTo(Set.of(HOLD, HEATER_OFF, BLOCK_FAN));
        assertThat(assessment.advice()).isNotEmpty().hasSizeLessThanOrEqualTo(3).allSatisfy(advice -> {
            assertThat(advice.margin()).isGreaterThan(new Margin.NothingSaves());
            assertThat(advice.margin()).isEqualTo(Margin.of(advice.deadline(), advice.stopTime()));
        });
        assertThat(assessment.advice()).extracting(Advice::change).anyMatch(c -> c.contains("block-fan"));
    }

    @Test
    void aNegativeMarginNamesChangesThatBuySeconds() {
        Reading slow = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 20);
        Assessment assessment =
                Assessment.of(build(SheetExample.titanium(), slow, Optional.of(new Trip(5200, 3, 5)), STOP));
        assertThat(assessment.outcome())
                .isInstanceOfSatisfying(
                        Outcome.Raced.class,
                        raced -> assertThat(raced.margin())
                                .isInstanceOfSatisfying(
                                        Margin.Seconds.class,
                                        m -> assertThat(m.seconds()).isNegative()));
        Margin present = ((Outcome.Raced) assessment.outcome()).margin();
        assertThat(assessment.advice())
                .isNotEmpty()
                .allSatisfy(advice -> assertThat(advice.margin()).isGreaterThan(present));
        // reporting twice as often costs nothing: it comes first
        assertThat(assessment.advice().getFirst().change()).contains("reports every 10 s");
    }

    @Test
    void withoutAReadingNothingNotices() {
        Assessment assessment = Assessment.of(
                build(SheetExample.titanium(), new Reading.None(), Optional.of(new Trip(5200, 3, 5)), STOP));
        assertThat(assessment.outcome()).isInstanceOf(Outcome.Unprotected.class);
        assertThat(assessment.outcome().safe()).isFalse();
        assertThat(assessment.stopTime()).contains(new StopTime.NeverNoticed());
        assertThat(assessment.highestSafeAir()).isEmpty();
    }

    @Test
    void anOpenTripIsChosenProvisionally() {
        Assessment assessment = Assessment.of(build(SheetExample.titanium(), EDGES, Optional.empty(), STOP));
        assertThat(assessment.provisionalTrip()).isTrue();
        double speed = assessment.trip().orElseThrow().speed();
        // between the unsafe speed of the fastest fan and the rated speed of the slowest
        assertThat(speed).isBetween(assessment.unsafeSpeed() * 8000 * 1.1, 8000 * 0.9);
        assertThat(assessment.outcome()).isInstanceOf(Outcome.Raced.class);
    }

    @Test
    void aTripSpeedAboveTheHealthyFanTripsAtOnce() {
        Assessment assessment =
                Assessment.of(build(SheetExample.titanium(), EDGES, Optional.of(new Trip(9000, 3, 5)), STOP));
        assertThat(assessment.outcome()).isInstanceOfSatisfying(Outcome.TripsAtOnce.class, trips -> {
            assertThat(trips.tripSpeed()).isEqualTo(9000);
            assertThat(trips.shownSpeed()).isCloseTo(8000, within(60.0));
        });
        assertThat(assessment.outcome().safe()).isFalse();
    }

    @Test
    void whereAHealthyFanMayBeTooSlowNoTripSpeedIsLeft() {
        HotEnd warm = SheetExample.stainless();
        double air = warm.surroundings().air();
        while (new Race(warm).unsafeSpeed() < 0.85) {
            air += 0.5;
            warm = warm.withAir(air);
        }
        Assessment assessment = Assessment.of(build(warm, EDGES, Optional.empty(), STOP));
        assertThat(assessment.unsafeSpeed()).isLessThan(1);
        assertThat(assessment.outcome())
                .isInstanceOfSatisfying(
                        Outcome.NoTripSpeed.class,
                        none -> assertThat(none.unsafeBelow()).isGreaterThanOrEqualTo(none.spuriousAbove()));
        assertThat(assessment.trip()).isEmpty();
        assertThat(assessment.stopTime()).isEmpty();
    }

    /** Over random printers: outcome, margin and rows belong together, and advice never makes things worse. */
    @Test
    void theAnswerIsOneAnswer() {
        int advised = 0;
        for (int number = 0; number < 100; number++) {
            Build build = RandomBuilds.build(number);
            Assessment a = Assessment.of(build);
            String what = "build " + number;
            if (a.outcome() instanceof Outcome.SoftWhileHealthy(Regime from)) {
                assertThat(new Race(build.hotEnd()).softWhileHealthy(from))
                        .as(what)
                        .isTrue();
                continue;
            }
            assertThat(a.deadlines()).as(what).hasSize(2 * Race.RESPONSES.size());
            Deadline worst = a.deadlines().stream()
                    .filter(row -> row.actions().equals(build.response().actions()))
                    .map(Assessment.Row::deadline)
                    .min(Deadline::compareTo)
                    .orElseThrow();
            assertThat(a.recommended()).as(what).isNotIn(Set.of(HOLD), Set.of(HEATER_OFF));
            if (a.outcome() instanceof Outcome.Raced(Deadline deadline, double stopTime, Margin margin)) {
                assertThat(deadline).as(what).isEqualTo(worst);
                assertThat(margin).as(what).isEqualTo(Margin.of(deadline, stopTime));
                if (a.outcome().safe()) {
                    assertThat(a.advice()).as(what).isEmpty();
                }
                for (Advice advice : a.advice()) {
                    advised++;
                    assertThat(advice.margin()).as(what).isGreaterThan(margin);
                }
            } else if (!(a.outcome() instanceof Outcome.NoTripSpeed)) {
                assertThat(a.advice()).as(what).isEmpty();
            }
        }
        assertThat(advised).isGreaterThan(15);
    }
}
