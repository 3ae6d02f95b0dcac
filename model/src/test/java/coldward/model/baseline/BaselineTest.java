package coldward.model.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.trip.HealthyReports;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Known fans are found again from what they report; each warning comes when it should, and only then. */
class BaselineTest {

    /** Bounds are four standard errors: MAD 1.167 / sqrt(n), correlation after Bartlett, outliers binomial. */
    @ParameterizedTest
    @CsvSource({"0, 0", "0.3, 0.005", "0.7, 0", "0.7, 0.05", "0.9, 0.01", "-0.3, 0.01"})
    void findsTheFanAgain(double r, double e) {
        for (int seed = 0; seed < 5; seed++) {
            int n = 20_000;
            Baseline found = of(Drawn.reports(n, 5000, 40, r, e, 0, seed));
            double effective = n * (1 - Math.abs(r)) / (1 + Math.abs(r));
            assertThat(found.mean()).isCloseTo(5000, within(4 * 40 * 1.2533 / Math.sqrt(effective)));
            assertThat(found.deviation()).isCloseTo(40, within(4 * 40 * 1.167 / Math.sqrt(effective)));
            assertThat(found.correlation())
                    .isCloseTo(r, within(4 * found.correlationError() + 1e-3))
                    .isCloseTo(r, within(0.05));
            assertThat(found.outlierRate()).isCloseTo(e, within(4 * Math.sqrt(e * (1 - e) / n) + 1e-9));
            assertThat(found.outlierRateHigh()).isGreaterThan(found.outlierRate());
            assertThat(found.drift().statement()).isEqualTo(Drift.Statement.STATIONARY);
            assertThat(found.warnings().stream().filter(w -> !(w instanceof BaselineWarning.ManyOutliers)))
                    .isEmpty();
            HealthyReports healthy = found.healthy().orElseThrow();
            assertThat(healthy.deviation()).isEqualTo(found.deviation());
        }
    }

    /** Wild reports, up to a fifth of them, high and low, move nothing by more than the gap they leave. */
    @Test
    void wildReportsMoveLittle() {
        List<Double> reports = Drawn.reports(5000, 5000, 40, 0.5, 0, 0, 3);
        Baseline before = of(reports);
        List<Double> wild = new ArrayList<>(reports);
        for (int i = 0; i < wild.size(); i += 5) {
            wild.set(i, i % 2 == 0 ? 25_000.0 : i % 3 == 0 ? 0.0 : 900.0);
        }
        Baseline after = of(wild);
        assertThat(after.mean()).isCloseTo(before.mean(), within(4.0));
        assertThat(after.deviation()).isCloseTo(before.deviation(), within(4.0));
        assertThat(after.correlation()).isCloseTo(before.correlation(), within(0.06));
        assertThat(after.outlierRate()).isEqualTo(0.2);
        assertThat(after.warnings()).contains(new BaselineWarning.ManyOutliers(0.2, Baseline.MANY_OUTLIERS));
    }

    /** Clopper and Pearson: without an outlier among n, 1 - 0.05^(1/n). */
    @Test
    void noOutlierSeenIsNotNoOutlier() {
        Baseline found = of(Drawn.reports(3000, 5000, 40, 0.2, 0, 0, 4));
        assertThat(found.outlierRate()).isZero();
        assertThat(found.outlierRateHigh()).isCloseTo(1 - Math.pow(0.05, 1.0 / 3000), within(1e-9));
    }

    @Test
    void shiftingAndScalingTheReportsScalesTheEstimates() {
        List<Double> reports = Drawn.reports(1000, 5000, 40, 0.6, 0.01, 5, 5);
        Baseline one = of(reports);
        Baseline two = of(reports.stream().map(x -> 2 * x).toList());
        assertThat(two.mean()).isCloseTo(2 * one.mean(), within(1e-9));
        assertThat(two.deviation()).isCloseTo(2 * one.deviation(), within(1e-9));
        assertThat(two.correlation()).isCloseTo(one.correlation(), within(1e-12));
        assertThat(two.drift().slope()).isCloseTo(2 * one.drift().slope(), within(1e-9));
        // short enough for the slope to go through every report, not through medians of neighbours
        List<Double> forwards = reports.subList(0, 300);
        List<Double> backwards = new ArrayList<>(forwards);
        Collections.reverse(backwards);
        assertThat(of(backwards).correlation()).isCloseTo(of(forwards).correlation(), within(1e-12));
        assertThat(of(backwards).drift().change())
                .isCloseTo(-of(forwards).drift().change(), within(1e-9));
    }

    /** 100 rpm over 2,000 s are 180 rpm/h. */
    @Test
    void aDriftingFanIsNotStationary() {
        Baseline found = of(Drawn.reports(2000, 5000, 10, 0.3, 0.01, 100, 6));
        assertThat(found.drift().slope()).isCloseTo(180, within(4.0));
        assertThat(found.drift().low()).isLessThan(180);
        assertThat(found.drift().high()).isGreaterThan(180);
        assertThat(found.warnings())
                .contains(new BaselineWarning.NotStationary(
                        found.drift().change(), found.drift().limit()));
        assertThat(Math.abs(found.drift().change())).isGreaterThan(found.drift().limit());
    }

    /** Lubricant warms up: 200 rpm, time constant a twelfth of the recording. */
    @Test
    void aFanThatSettlesIsStillWarmingUp() {
        List<Double> reports = Drawn.reports(2000, 5000, 15, 0.3, 0, 0, 7);
        List<Double> warming = new ArrayList<>();
        for (int i = 0; i < reports.size(); i++) {
            warming.add(reports.get(i) - 200 * Math.exp(-i * 12.0 / 2000));
        }
        Baseline found = of(warming);
        assertThat(found.drift().statement()).isEqualTo(Drift.Statement.STILL_WARMING_UP);
        assertThat(found.warnings())
                .contains(new BaselineWarning.StillWarmingUp(
                        found.drift().firstHalf(),
                        found.drift().secondHalf(),
                        found.drift().limit()));
        Baseline later = of(warming.subList(1000, 2000));
        assertThat(later.drift().statement()).isEqualTo(Drift.Statement.STATIONARY);
    }

    /** A still fan is rarely called drifting, even where correlation feigns slopes: at most 1 in 20 of 200. */
    @Test
    void aSteadyFanIsRarelyCalledDrifting() {
        int called = 0;
        for (int seed = 100; seed < 300; seed++) {
            Baseline found = of(Drawn.reports(300, 5000, 40, seed % 2 == 0 ? 0 : 0.8, 0.01, 0, seed));
            called += found.drift().statement() == Drift.Statement.STATIONARY ? 0 : 1;
        }
        assertThat(called).isLessThanOrEqualTo(10);
    }

    @Test
    void aShortRecordingSaysHowLongItShouldBe() {
        Baseline found = of(Drawn.reports(100, 5000, 40, 0, 0, 0, 8));
        BaselineWarning.TooShort warning = (BaselineWarning.TooShort) found.warnings().stream()
                .filter(w -> w instanceof BaselineWarning.TooShort)
                .findFirst()
                .orElseThrow();
        assertThat(warning.effectiveReports()).isLessThan(warning.limit());
        double r = Math.max(0, found.correlation());
        assertThat(warning.effectiveReports()).isCloseTo(100 * (1 - r) / (1 + r), within(1e-9));
        assertThat(warning.recommendedLength())
                .isCloseTo(100 * warning.limit() / warning.effectiveReports(), within(1e-9));
    }

    @Test
    void equalReportsHaveTheScatterOfTheResolution() {
        List<Double> equal = Collections.nCopies(500, 4980.0);
        Baseline known = Baseline.of(new Recording(equal, 1, 30));
        assertThat(known.deviation()).isEqualTo(30 / Math.sqrt(12));
        assertThat(known.warnings()).containsExactly(new BaselineWarning.NoScatter(30 / Math.sqrt(12), 30));
        assertThat(known.correlation()).isZero();
        Baseline unknown = of(equal);
        assertThat(unknown.healthy()).isEmpty();
        assertThat(unknown.warnings()).containsExactly(new BaselineWarning.NoScatter(0, 0));
    }

    /** Shown in steps of 30 rpm with a scatter below the step: neighbours are no outliers. */
    @Test
    void stepsOfTheResolutionAreNoOutliers() {
        List<Double> steps = Drawn.reports(2000, 5000, 8, 0.3, 0, 0, 9).stream()
                .map(x -> 30 * Math.rint(x / 30))
                .toList();
        assertThat(Baseline.of(new Recording(steps, 1, 30)).outlierRate()).isZero();
    }

    @Test
    void aFanThatWandersIsTooAlike() {
        Baseline found = of(Drawn.reports(5000, 5000, 40, 0.9995, 0, 0, 10));
        assertThat(found.warnings()).hasAtLeastOneElementOfType(BaselineWarning.TooAlike.class);
        assertThat(found.healthy().orElseThrow().correlation()).isEqualTo(HealthyReports.LARGEST_CORRELATION);
    }

    @Test
    void refusesWhatIsNoRecording() {
        assertThatThrownBy(() -> of(Collections.nCopies(5, 5000.0)))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("5");
        assertThatThrownBy(() -> of(Collections.nCopies(50, 0.0)))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("every report reads 0 rpm");
        List<Double> reports = new ArrayList<>(Collections.nCopies(50, 5000.0));
        reports.set(6, Double.NaN);
        assertThatThrownBy(() -> of(reports)).isInstanceOf(InputError.class).hasMessageContaining("report 7");
        assertThatThrownBy(() -> TheilSen.fit(new double[] {1, 1}, new double[] {1, 2}, 0.95, 1))
                .isInstanceOf(InputError.class);
    }

    private static Baseline of(List<Double> reports) {
        return Baseline.of(new Recording(reports, 1, 0));
    }
}
