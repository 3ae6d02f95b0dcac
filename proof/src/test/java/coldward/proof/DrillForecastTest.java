package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.app.shop.Prepared;
import coldward.quantity.Ticker;
import coldward.rig.Failure;
import coldward.rig.PrinterRecord;
import coldward.rig.SimulatedPrinter;
import coldward.rig.Traits;
import coldward.watch.History;
import coldward.watch.Watch;
import coldward.watch.drill.DrillKind;
import coldward.watch.drill.DrillResult;
import coldward.watch.drill.DrillSubject;
import coldward.watch.drill.Drills;
import coldward.watch.drill.FailureMoment;
import coldward.watch.replay.EventTicker;
import coldward.watch.replay.MemoryJournal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * 4,000 seeded drills of each kind, in this process and over event time: what is measured falls into the predicted 1 to 99 %
 * as often as it should. The rig is the model's own hot end and fan; what is tested is the chain of reports, looks,
 * confirmations, requests and read-backs, with the fan's noise and the counter's whole pulses in it.
 */
class DrillForecastTest {

    /** Of each kind: many, so that the eight tests at 1 % see a band that is wrong rather than the luck of a seed. */
    private static final int DRILLS = 4000;

    private static final long S = 1_000_000_000L;

    /** Share of the speed that the supply is lowered to. */
    private static final double LOWERED = 0.5;

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource(DrillKind.class)
    void theMeasuredStopTimesFallWhereTheyArePredicted(DrillKind kind) {
        Prepared heron = SimulatedShop.heron(folder);
        SplittableRandom random = new SplittableRandom(20_260 + kind.word().hashCode());
        PrinterRecord printing = SimulatedShop.settled(heron, SimulatedPrinter.Start.PRINTING);
        PrinterRecord idle = SimulatedShop.settled(heron, SimulatedPrinter.Start.HOT_IDLE);
        List<DrillResult> all = new ArrayList<>();
        for (int i = 0; i < DRILLS; i++) {
            all.add(drill(heron, kind, i % 2 == 0 ? printing : idle, random.nextLong(), random));
        }
        int safe = 0;
        int trip = 0;
        for (DrillResult result : all) {
            assertThat(result.verdict().passed()).as("%s", result).isTrue();
            var forecast = result.forecast().orElseThrow();
            safe += forecast.safe().holds(result.safe().orElseThrow(), 0) ? 1 : 0;
            trip += forecast.trip().holds(result.trip().orElseThrow(), 0) ? 1 : 0;
            // the fan's own number knows the moment, too: to half a look (0.125 s), a fall that counts from 4 % on
            // (0.08 s of a report when the speed halves), and some noise and whole pulses
            result.signalLater().ifPresent(later -> assertThat(later).isCloseTo(0, within(0.25)));
        }
        assertPlausible("stop times of " + kind.word(), safe);
        assertPlausible("trips of " + kind.word(), trip);
        assertThat(all.stream().filter(r -> r.signalLater().isPresent()).count())
                .isGreaterThan(DRILLS / 2);
    }

    /** The exact two-sided binomial test at 1 % of 98 in 100. */
    private static void assertPlausible(String what, int inside) {
        BinomialDistribution wanted = new BinomialDistribution(DRILLS, 0.98);
        double low = wanted.cumulativeProbability(inside);
        double high = 1 - wanted.cumulativeProbability(inside - 1);
        assertThat(2 * Math.min(low, high))
                .as("%s: %d of %d inside the predicted 1 to 99 %%", what, inside, DRILLS)
                .isGreaterThan(0.01);
    }

    private static DrillResult drill(
            Prepared heron, DrillKind kind, PrinterRecord from, long seed, SplittableRandom random) {
        EventTicker ticker = new EventTicker(1_800_000_000_000L);
        SimulatedPrinter printer = SimulatedPrinter.restored(heron.printer().build(), from, Traits.USUAL, seed);
        long look = Math.round(DrillSubject.look(heron.printer().link()) * S);
        SimulatedLink link = new SimulatedLink(
                printer, ticker, random.nextLong(1, look), look, random.nextLong(S / 1000, S / 50), Set.of());
        try (Watch watch = new Watch(
                List.of(heron.watched().orElseThrow()),
                p -> link,
                new MemoryJournal(),
                History.none(),
                notice -> {},
                ticker)) {
            Drills drills = drills(watch, ticker, heron);
            ticker.advance(8 * S);
            assertThat(drills.begin("heron", kind, Optional.of(LOWERED), from.feeding()))
                    .isInstanceOf(Drills.Begin.Ready.class);
            ticker.advance(random.nextLong(1, S));
            link.now().fail(failure(kind));
            assertThat(drills.failed("heron", FailureMoment.By.RIG)).isTrue();
            for (int i = 0; i < 60 && look(drills).result().isEmpty(); i++) {
                ticker.advance(S);
            }
            return look(drills).result().orElseThrow();
        }
    }

    private static Drills.Look look(Drills drills) {
        return drills.look("heron").orElseThrow();
    }

    static Drills drills(Watch watch, Ticker ticker, Prepared heron) {
        return new Drills(
                watch,
                ticker,
                Map.of(
                        "heron",
                        new DrillSubject(
                                heron.printer().build(),
                                heron.assessment().trip().orElseThrow(),
                                DrillSubject.look(heron.printer().link()),
                                heron.deadline(true),
                                heron.deadline(false))));
    }

    static Failure failure(DrillKind kind) {
        return switch (kind) {
            case PULL -> new Failure.Stop();
            case STALL -> new Failure.Slow(0);
            case CUT_SIGNAL -> new Failure.CutSignal();
            case LOW_SUPPLY -> new Failure.Slow(LOWERED);
        };
    }
}
