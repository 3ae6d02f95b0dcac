package coldward.model.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.SciPyScript;
import coldward.model.trip.HealthyReports;
import coldward.model.trip.SpuriousTrips;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The chain on another discretisation (cells of equal width, one large system) and the robust estimates with SciPy's own
 * functions ({@code oracle/statistics.py}).
 */
class StatisticsOracleTest {

    private static final int REPORTS = 3000;
    private static final int SHORT = 150;

    /** a, r, e, k. */
    private static final List<String> CHAINS = List.of(
            "-2.0 0.3 0.0 3",
            "-2.0 0.7 0.01 3",
            "-2.5 0.95 0.0 4",
            "-2.5 0.95 0.02 2",
            "-1.5 -0.4 0.0 2",
            "0.5 0.5 0.0 5",
            "-3.5 0.8 0.001 3",
            "-5.0 0.7 0.0 3");

    private static final List<Double> RECORDING = Drawn.reports(REPORTS, 5000, 40, 0.6, 0.01, 30, 21);
    private static final Map<String, Double> ORACLE = new LinkedHashMap<>();

    @BeforeAll
    static void runScript(@TempDir Path directory) throws IOException, InterruptedException {
        Path chains = Files.write(directory.resolve("chains"), CHAINS);
        Path recording = Files.write(
                directory.resolve("recording"),
                RECORDING.stream().map(r -> Double.toString(r)).toList());
        ORACLE.putAll(SciPyScript.run("statistics.py", 60, directory, chains, recording));
        assertThat(ORACLE).hasSize(CHAINS.size() + 9);
    }

    static List<String> chains() {
        return CHAINS;
    }

    /** Within 5e-6: what extrapolated cells reach at r = 0.95; cells half as wide come nearer. */
    @ParameterizedTest
    @MethodSource("chains")
    void theChainAgrees(String chain) {
        double[] n =
                Arrays.stream(chain.split(" ")).mapToDouble(Double::parseDouble).toArray();
        HealthyReports reports = new HealthyReports(5000, 40, n[1], n[2]);
        double expected =
                SpuriousTrips.first(reports, 5000 + 40 * n[0], (int) n[3]).reports();
        assertThat(expected / oracle("chain " + chain)).isCloseTo(1, within(5e-6));
    }

    @Test
    void theEstimatesAgree() {
        Baseline found = Baseline.of(new Recording(RECORDING, 1, 0));
        assertThat(found.mean()).isCloseTo(oracle("mean"), within(1e-9));
        assertThat(found.deviation()).isCloseTo(oracle("deviation"), within(1e-9));
        assertThat(found.correlation()).isCloseTo(oracle("correlation"), within(1e-10));
        assertThat(found.outlierRate())
                .isCloseTo(oracle("outliers"), within(1e-12))
                .isPositive();
        assertThat(found.drift().slope()).isCloseTo(oracle("slope"), within(1e-7));
    }

    @Test
    void theSlopesIntervalAgrees() {
        double[] hours = new double[SHORT];
        double[] rpm = new double[SHORT];
        int count = 0;
        for (int i = 0; count < SHORT; i++) {
            // no report of this recording but the zeros is an outlier, which theEstimatesAgree would show
            if (RECORDING.get(i) > 0) {
                hours[count] = i / 3600.0;
                rpm[count++] = RECORDING.get(i);
            }
        }
        TheilSen line = TheilSen.fit(hours, rpm, 0.99, 1);
        assertThat(line.slope()).isCloseTo(oracle("short_slope"), within(1e-6));
        assertThat(line.intercept()).isCloseTo(oracle("short_intercept"), within(1e-6));
        assertThat(line.low()).isCloseTo(oracle("short_low"), within(1e-6));
        assertThat(line.high()).isCloseTo(oracle("short_high"), within(1e-6));
    }

    private static double oracle(String key) {
        return Objects.requireNonNull(ORACLE.get(key), key);
    }
}
