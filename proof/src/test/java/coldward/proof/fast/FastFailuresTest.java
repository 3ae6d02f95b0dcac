package coldward.proof.fast;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.build.Build;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The recommended trips on the rig, in fast time. {@code bench/failures} runs the same with 10,400 failures of machines
 * that are as their sheets say, as many of machines that are not, and ten times the spurious trips; the numbers are in
 * docs/trip.md.
 */
class FastFailuresTest {

    private static final boolean LONG = Boolean.getBoolean("coldward.bench");

    @TempDir
    Path folder;

    private List<FastFailures.Guarded> sheets(int count, int draws) {
        List<FastFailures.Guarded> sheets = TwentySheets.all(folder).stream()
                .limit(count)
                .map(build -> FastFailures.guarded(build, draws))
                .toList();
        assertThat(sheets).hasSize(count);
        return sheets;
    }

    /** The rig and the race share the heat model; what is tried here is everything after it: noise, phase, reading, guard. */
    @Test
    void everyFailureOfAMachineThatIsAsItsSheetSaysIsStoppedInTime() {
        FastFailures.Outcome outcome = FastFailures.run(sheets(20, 0), LONG ? 130 : 4, false, 11);
        print(outcome);
        assertThat(outcome.misses()).isEmpty();
        assertThat(outcome.failures()).isGreaterThanOrEqualTo(LONG ? 10_000 : 320);
        // a test that trips nothing would miss nothing
        FastFailures.Count stops = outcome.count(FailureRound.Mode.STOP);
        assertThat(stops.tripped()).isEqualTo(stops.failures());
        assertThat(stops.deepest()).isGreaterThan(0.1);
    }

    /**
     * Machines that differ from their sheets as the sheets' own uncertainty says. The design is for the 5 % quantile of
     * the deadline and the 95 % quantile of the unsafe speed, so one machine in twenty may do worse than it; each that
     * does is shown to be such a machine.
     */
    @Test
    void aMachineThatIsLostIsOneBeyondTheQuantilesThatTheDesignIsFor() {
        FastFailures.Outcome outcome =
                FastFailures.run(sheets(LONG ? 20 : 4, LONG ? 200 : 40), LONG ? 130 : 10, true, 12);
        print(outcome);
        assertThat(outcome.unexplained()).isEmpty();
        assertThat((double) outcome.misses().size()).isLessThanOrEqualTo(0.05 * outcome.failures());
    }

    @ParameterizedTest
    @CsvSource({"0, 1.2, 3", "0.3, 1.2, 3", "0.7, 1.0, 2", "0.95, 0.8, 4"})
    void spuriousTripsOfAHealthyFanComeAsOftenAsTheChainSays(double correlation, double deviations, int confirmations) {
        Build finelyCounted = TwentySheets.all(folder).get(TwentySheets.FINELY_COUNTED);
        SpuriousCount count =
                SpuriousCount.of(finelyCounted, correlation, deviations, confirmations, LONG ? 1000 : 100, 13);
        System.out.println(count.line());
        assertThat(count.expected()).isGreaterThanOrEqualTo(100 * (1 - 1e-3));
        assertThat(count.agrees()).as(count.line()).isTrue();
    }

    private static void print(FastFailures.Outcome outcome) {
        System.out.print(outcome.table());
        outcome.misses().forEach(System.out::println);
    }
}
