package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.PublishedRows;
import coldward.model.PublishedRows.Row;
import coldward.model.baseline.RunningSum;
import coldward.model.baseline.TheilSen;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Published statistics, row by row of {@code reference/statistics.csv}; which and why is in docs/reference-checks.md. */
public class PublishedStatisticsTest {

    private static final Map<String, Consumer<Row>> CHECKS = checks();

    /** Ids of the rows that are checked. */
    public static Set<String> checked() {
        return CHECKS.keySet();
    }

    @TestFactory
    Stream<DynamicTest> rows() {
        return PublishedRows.tests("statistics", CHECKS);
    }

    private static Map<String, Consumer<Row>> checks() {
        Map<String, Consumer<Row>> checks = new LinkedHashMap<>();
        for (String id : PublishedRows.of("statistics").keySet()) {
            if (id.startsWith("S-RUN-")) {
                checks.put(id, PublishedStatisticsTest::runLength);
            } else if (id.startsWith("S-RUNP-")) {
                checks.put(id, PublishedStatisticsTest::runWithin);
            } else if (id.startsWith("S-CUS-h")) {
                checks.put(id, PublishedStatisticsTest::runningSum);
            }
        }
        checks.put("S-CUS-1", PublishedStatisticsTest::runningSumOfOneSide);
        checks.put("S-TS-1", PublishedStatisticsTest::slopeBesideAWildPoint);
        checks.put("S-TS-2", PublishedStatisticsTest::slopeOfNorris);
        return Collections.unmodifiableMap(checks);
    }

    private static void runLength(Row row) {
        double p = row.inputs().contains("p=1/") ? 1 / row.input("p=1/#") : row.input("p=#");
        int k = (int) row.input("k=#");
        String mean = row.printed("p\\^k\\)=#;");
        double tolerance = row.tolerance("# rel");
        row.agrees(Runs.expected(p, k), mean, tolerance);
        row.agrees(Runs.variance(p, k), row.printed("q\\^2=#"), tolerance);
        // trip speed so low that outliers alone count: 29 deviations below the mean
        HealthyReports reports = new HealthyReports(5000, 100, 0, p);
        SpuriousWait wait = SpuriousTrips.first(reports, 2100, k);
        assertThat(wait.reports()).isCloseTo(Double.parseDouble(mean), within(Double.parseDouble(mean) * tolerance));
    }

    private static void runWithin(Row row) {
        double p = row.input("p=#");
        int trials = (int) row.input("in # trials");
        double chance = Runs.chanceWithin(p, (int) row.input(">= # in"), trials);
        double tolerance = Double.parseDouble(row.tolerance());
        assertThat(chance).as(row.id()).isCloseTo(row.expected("^#"), within(tolerance));
    }

    /** Both sides together: 1/L = 1/L(up) + 1/L(down) (Van Dobben de Bruyn 1968). */
    private static void runningSum(Row row) {
        RunningSum sum = new RunningSum(row.input("k=#,"), row.input("h=#,"));
        double shift = row.input("shift # sigma");
        // beyond 1.5 deviations the far side waits 1e8 values and more
        double far = shift > 1.5 ? 0 : 1 / sum.expected(-shift);
        double both = 1 / (1 / sum.expected(shift) + far);
        double exact = row.expected("exact # \\(");
        // 0.05 % of the row; its own digits give less
        assertThat(both).as(row.id()).isCloseTo(exact, within(5e-4 * exact));
        String published = row.printed("published #\\)");
        row.agrees(both, published, 0);
    }

    private static void runningSumOfOneSide(Row row) {
        // 0.01 %; k = 0.5 with the three limits that the row names
        for (String limit : new String[] {"4", "5", "4.77"}) {
            double length = row.expected("h=" + limit.replace(".", "\\.") + ": #");
            assertThat(new RunningSum(0.5, Double.parseDouble(limit)).expected(0))
                    .as(row.id())
                    .isCloseTo(length, within(1e-4 * length));
        }
    }

    private static void slopeBesideAWildPoint(Row row) {
        TheilSen line = TheilSen.fit(new double[] {1, 2, 3, 4, 5}, new double[] {1, 2, 3, 4, 100}, 0.95, 1);
        assertThat(line.slope()).isEqualTo(row.expected("slope #,"));
        assertThat(line.intercept()).isEqualTo(row.expected("median\\(x\\)=#"));
    }

    private static void slopeOfNorris(Row row) {
        Row data = PublishedRows.row(PublishedRows.of("statistics"), "S-NORRIS-D");
        TheilSen line = TheilSen.fit(norris(data, "x="), norris(data, "y="), 0.95, 1);
        double tolerance = Double.parseDouble(row.tolerance());
        assertThat(line.slope()).isCloseTo(row.expected("slope #,"), within(tolerance));
        assertThat(line.intercept()).isCloseTo(row.expected("intercept #,"), within(tolerance));
        row.agrees(line.low(), row.printed("\\[#,"), tolerance);
        row.agrees(line.high(), row.printed(", #\\]"), tolerance);
    }

    private static double[] norris(Row row, String column) {
        String text = row.expected();
        int from = text.indexOf(column) + column.length();
        int to = text.indexOf(';', from);
        String numbers = text.substring(from, to < 0 ? text.length() : to).strip();
        return Arrays.stream(numbers.split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }
}
