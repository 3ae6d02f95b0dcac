package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.app.shop.LastDrill;
import coldward.app.shop.Prepared;
import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import coldward.model.trip.StopTime;
import coldward.model.trip.StopTimes;
import coldward.rig.Failure;
import coldward.rig.PrinterRecord;
import coldward.rig.SimulatedPrinter;
import coldward.watch.drill.DrillForecast;
import coldward.watch.drill.DrillKind;
import coldward.watch.drill.DrillResult;
import coldward.watch.drill.DrillVerdict;
import coldward.watch.drill.Drills;
import coldward.watch.drill.FailureMoment.By;
import coldward.watch.guard.FanState;
import coldward.watch.replay.MemoryJournal;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** When a drill may begin, what it comes to, and what is kept of it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class DrillTest {

    private Prepared heron;
    private PrinterRecord idle;
    private PrinterRecord printing;

    @BeforeAll
    void prepare(@TempDir Path folder) {
        heron = SimulatedShop.heron(folder);
        idle = SimulatedShop.settled(heron, SimulatedPrinter.Start.HOT_IDLE);
        printing = SimulatedShop.settled(heron, SimulatedPrinter.Start.PRINTING);
    }

    private SimulatedShop shop(PrinterRecord from, Set<ReadName> hidden) {
        SimulatedShop shop = new SimulatedShop(heron, from, new MemoryJournal(), hidden);
        shop.seconds(8);
        return shop;
    }

    private static Drills.Begin begin(SimulatedShop shop, DrillKind kind, boolean althoughWorking) {
        return shop.drills.begin("heron", kind, Optional.empty(), althoughWorking);
    }

    private static String refusal(Drills.Begin begin) {
        assertThat(begin).isInstanceOf(Drills.Begin.Refused.class);
        return ((Drills.Begin.Refused) begin).why();
    }

    private static DrillResult result(SimulatedShop shop) {
        return shop.drills.look("heron").orElseThrow().result().orElseThrow();
    }

    @Test
    void a_running_job_is_spoiled_only_when_that_is_accepted() {
        try (SimulatedShop shop = shop(printing, Set.of())) {
            assertThat(refusal(begin(shop, DrillKind.PULL, false))).contains("running a job", "--although-working");
            assertThat(shop.journal.latest("heron", "drill-started")).isEmpty();
            assertThat(begin(shop, DrillKind.PULL, true)).isInstanceOf(Drills.Begin.Ready.class);
            assertThat(shop.newest("drill-started").facts()).containsEntry("working", 1L);
        }
        try (SimulatedShop shop = shop(idle, Set.of(ReadName.WORKING))) {
            assertThat(refusal(begin(shop, DrillKind.PULL, false))).contains("does not say whether a job is running");
        }
    }

    @Test
    void a_fan_that_does_not_turn_cannot_be_failed() {
        try (SimulatedShop shop = shop(idle, Set.of())) {
            shop.link.now().fail(new Failure.Stop());
            shop.seconds(10);
            assertThat(shop.view().fan()).isEqualTo(FanState.TRIPPED);
            assertThat(refusal(begin(shop, DrillKind.PULL, false))).contains("tripped", "release");
        }
    }

    @Test
    void a_pulled_plug_is_timed_from_the_failure_through_every_action_and_kept() {
        MemoryJournal journal = new MemoryJournal();
        try (SimulatedShop shop = new SimulatedShop(heron, idle, journal, Set.of())) {
            shop.seconds(8);
            assertThat(shop.view().lastDrill()).isEmpty();
            assertThat(begin(shop, DrillKind.PULL, false)).isInstanceOf(Drills.Begin.Ready.class);
            shop.seconds(0.4);
            long failed = shop.ticker.nanos();
            shop.link.now().fail(new Failure.Stop());
            shop.drills.failed("heron", By.RIG);
            assertThat(refusal(begin(shop, DrillKind.STALL, false))).contains("under way");
            shop.seconds(15);

            DrillResult result = result(shop);
            assertThat(result.verdict()).isEqualTo(DrillVerdict.AS_PREDICTED);
            var trip = shop.view().trip().orElseThrow();
            assertThat(result.trip().orElseThrow()).isEqualTo((trip.trippedAt() - failed) / 1e9);
            assertThat(result.safe().orElseThrow()).isEqualTo((trip.safeAt().orElseThrow() - failed) / 1e9);
            assertThat(result.steps())
                    .extracting(DrillResult.Step::action)
                    .containsExactly(Action.HEATER_OFF, Action.HOLD, Action.BLOCK_FAN);
            assertThat(result.steps())
                    .allSatisfy(s -> assertThat(s.confirmed().orElseThrow())
                            .isBetween(s.sent(), result.safe().orElseThrow()));

            var facts = shop.newest("drill").facts();
            assertThat(facts).containsEntry("how", "pull").containsEntry("passed", 1L);
            assertThat((String) facts.get("does_not_test")).contains("slow fan");
            DrillResult kept = DrillResult.of(shop.newest("drill")).orElseThrow();
            assertThat(kept.facts()).isEqualTo(facts);
            assertThat(shop.view().lastDrill().orElseThrow().passed()).isTrue();
        }
        try (SimulatedShop again = new SimulatedShop(heron, idle, journal, Set.of())) {
            again.seconds(1);
            assertThat(again.view().lastDrill().orElseThrow().passed()).isTrue();
        }
    }

    @Test
    void a_frozen_reading_is_not_noticed_and_the_drill_not_passed() {
        try (SimulatedShop shop = shop(idle, Set.of(ReadName.COLD_SIDE))) {
            begin(shop, DrillKind.STALL, false);
            shop.link.now().fail(new Failure.StuckReading());
            shop.link.now().fail(new Failure.Slow(0));
            shop.drills.failed("heron", By.KEY);
            shop.seconds(60);
            assertThat(result(shop).verdict()).isEqualTo(DrillVerdict.NOT_NOTICED);
            var last = shop.view().lastDrill();
            assertThat(last.orElseThrow().passed()).isFalse();
            assertThat(LastDrill.words(last, heron.printer().rules(), shop.ticker.wallMillis()))
                    .isEqualTo("today, not passed");
            long later = shop.ticker.wallMillis() + 91L * 86_400_000;
            assertThat(LastDrill.overdue(last, heron.printer().rules(), later)).isTrue();
        }
    }

    @Test
    void a_failure_told_after_the_trip_cannot_be_timed() {
        try (SimulatedShop shop = shop(idle, Set.of())) {
            begin(shop, DrillKind.PULL, false);
            shop.link.now().fail(new Failure.Stop());
            shop.seconds(10);
            shop.drills.failed("heron", By.KEY);
            shop.seconds(1);
            assertThat(result(shop).verdict()).isEqualTo(DrillVerdict.TOLD_LATE);
        }
    }

    @Test
    void a_drill_that_is_not_carried_out_is_given_up() {
        try (SimulatedShop shop = shop(idle, Set.of())) {
            begin(shop, DrillKind.PULL, false);
            assertThat(shop.drills.giveUp("heron")).isTrue();
            assertThat(shop.drills.giveUp("heron")).isFalse();
            assertThat(shop.drills.failed("heron", By.KEY)).isFalse();
            assertThat(shop.newest("drill-given-up").facts()).containsEntry("how", "pull");
            assertThat(shop.drills.look("heron")).isEmpty();
        }
    }

    /** Without looks and ways of requests the forecast's trip is the stop time's own detection. */
    @Test
    void the_forecast_of_a_pull_is_the_detection_of_the_stop_time() {
        var build = heron.printer().build();
        var trip = heron.assessment().trip().orElseThrow();
        double rated = build.hotEnd().fan().ratedSpeed();
        DrillForecast forecast =
                DrillForecast.of(DrillKind.PULL, build, trip, rated, 0, true, 0).orElseThrow();
        StopTime.Noticed stop = (StopTime.Noticed) StopTimes.of(build, trip);
        Offset<Double> grid = Offset.offset(0.006);
        assertThat(forecast.trip().low()).isCloseTo(stop.at(0.01).detection(), grid);
        assertThat(forecast.trip().median()).isCloseTo(stop.median().detection(), grid);
        assertThat(forecast.trip().high()).isCloseTo(stop.p99().detection(), grid);
        assertThat(forecast.latest()).isCloseTo(stop.worst().total(), Offset.offset(1e-9));
        assertThat(DrillForecast.of(DrillKind.LOW_SUPPLY, build, trip, rated, 0.9, true, 0))
                .isEmpty();
    }
}
