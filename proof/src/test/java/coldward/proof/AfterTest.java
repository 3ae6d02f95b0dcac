package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.app.shop.Prepared;
import coldward.model.blind.BlindSpot.Fault;
import coldward.model.blind.BlindSpots;
import coldward.model.shop.ReadName;
import coldward.rig.Failure;
import coldward.rig.PrinterRecord;
import coldward.rig.SimulatedPrinter;
import coldward.rig.Truth;
import coldward.watch.Notice;
import coldward.watch.Recorded;
import coldward.watch.after.After;
import coldward.watch.after.Likeliest.Cause;
import coldward.watch.after.Moment;
import coldward.watch.after.TripRecord;
import coldward.watch.guard.FanState;
import coldward.watch.replay.MemoryJournal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is told after a trip, beside what the rig knows to be true; and what a rig's sensors do not notice. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class AfterTest {

    /** mm by which the replay may miss the rig's deepest softening; the speed is known once a report only. */
    private static final double TOLERANCE = 0.1;

    private Prepared heron;
    private PrinterRecord printing;

    @BeforeAll
    void prepare(@TempDir Path folder) {
        heron = SimulatedShop.heron(folder);
        printing = SimulatedShop.settled(heron, SimulatedPrinter.Start.PRINTING);
    }

    private static Failure failure(String word) {
        return switch (word) {
            case "stop" -> new Failure.Stop();
            case "blocked" -> new Failure.Slow(0);
            case "slow" -> new Failure.Slow(0.5);
            case "fade" -> new Failure.Fade(120);
            default -> new Failure.CutSignal();
        };
    }

    private TripRecord last(SimulatedShop shop, Recorded recorded) {
        return TripRecord.last(
                        "heron", heron.printer().build(), shop.journal.of("heron"), recorded, shop.ticker.wallMillis())
                .orElseThrow();
    }

    @ParameterizedTest
    @CsvSource({"stop, STOP", "blocked, BLOCKED", "slow, SLOW", "fade, FADE", "cut-signal, SIGNAL_LOST"})
    void theCauseIsFoundAndTheDepthIsTheRigs(String word, Cause cause) {
        try (SimulatedShop shop = new SimulatedShop(heron, printing, new MemoryJournal(), Set.of())) {
            shop.seconds(30.3);
            shop.link.now().fail(failure(word));
            shop.seconds(240);
            assertThat(shop.view().fan()).isEqualTo(FanState.TRIPPED);
            Truth truth = shop.link.now().truth();
            TripRecord trip = last(shop, shop.history);
            assertThat(trip.recorded()).isTrue();
            After after = trip.after(heron.printer().build());
            assertThat(after.likeliest().cause())
                    .as(after.likeliest().because())
                    .isEqualTo(cause);
            assertThat(1e3 * after.deepest()).isCloseTo(1e3 * truth.deepest(), within(TOLERANCE));
            assertThat(1e3 * after.nowDepth()).isCloseTo(1e3 * truth.softenedDepth(), within(TOLERANCE));
            assertThat(after.nowBlock()).isCloseTo(truth.block(), within(3.0));
            assertThat(after.instruction())
                    .isEqualTo(
                            truth.deepest() <= truth.limit()
                                    ? After.Instruction.RESUME
                                    : truth.softenedDepth() > truth.limit()
                                            ? After.Instruction.LEAVE_COLD
                                            : After.Instruction.HEAT_AND_PULL_OUT);
        }
    }

    /** The journal alone is enough for an answer, which is not on the hopeful side. */
    @Test
    void withoutARecordTheJournalsTimesDo() {
        try (SimulatedShop shop = new SimulatedShop(heron, printing, new MemoryJournal(), Set.of())) {
            shop.seconds(20.3);
            shop.link.now().fail(new Failure.Stop());
            shop.seconds(120);
            TripRecord trip = last(shop, Recorded.none());
            assertThat(trip.recorded()).isFalse();
            After after = trip.after(heron.printer().build());
            assertThat(1e3 * after.deepest())
                    .isBetween(
                            1e3 * shop.link.now().truth().deepest() - TOLERANCE,
                            1e3 * shop.link.now().truth().deepest() + 1.5);
        }
    }

    /** Whenever it is asked: what is soft beyond its limit is not to be moved, and what was is not to be fed on. */
    @Test
    void nothingIsDrawnBackWhileSoft() {
        List<Moment> moments = new ArrayList<>();
        for (int t = -10; t <= 1500; t += 2) {
            moments.add(new Moment(
                    t,
                    OptionalDouble.of(t < -4 ? 8000 : 0),
                    OptionalDouble.empty(),
                    // nobody switched the heater off for four minutes
                    OptionalDouble.of(t < 240 ? heron.printer().build().hotEnd().nozzle() : 0),
                    false,
                    false,
                    OptionalDouble.empty()));
        }
        List<After.Instruction> told = new ArrayList<>();
        for (int end : new int[] {6, 60, 240, 400, moments.size()}) {
            After after = After.of(heron.printer().build(), moments.subList(0, Math.min(end, moments.size())));
            told.add(after.instruction());
            assertThat(after.instruction() == After.Instruction.LEAVE_COLD).isEqualTo(after.nowDepth() > after.limit());
        }
        assertThat(told).startsWith(After.Instruction.RESUME);
        assertThat(told).contains(After.Instruction.LEAVE_COLD);
        assertThat(told).endsWith(After.Instruction.HEAT_AND_PULL_OUT);
    }

    /** A frozen number with a dead fan: without a cold-side temperature nothing notices, with one people are told. */
    @Test
    void aFrozenReadingIsABlindSpotWithoutAColdSideOnly() {
        for (boolean cold : new boolean[] {false, true}) {
            Set<ReadName> hidden = cold ? Set.of() : Set.of(ReadName.COLD_SIDE);
            try (SimulatedShop shop = new SimulatedShop(heron, printing, new MemoryJournal(), hidden)) {
                shop.seconds(20);
                shop.link.now().fail(new Failure.StuckReading());
                shop.link.now().fail(new Failure.Stop());
                shop.seconds(300);
                boolean told = shop.notices.stream().anyMatch(n -> n.kind() == Notice.Kind.CONTRADICTED);
                Set<ReadName> mapped = EnumSet.allOf(ReadName.class);
                mapped.removeAll(hidden);
                boolean listed = BlindSpots.of(heron.printer().build().reading(), mapped).stream()
                        .anyMatch(s -> s.fault() == Fault.FROZEN_READING);
                assertThat(told).as("told, cold side %s", cold).isEqualTo(cold);
                assertThat(listed).as("listed, cold side %s", cold).isEqualTo(!told);
            }
        }
    }
}
