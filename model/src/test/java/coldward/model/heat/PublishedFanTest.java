package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.PublishedRows;
import coldward.model.PublishedRows.Row;
import coldward.model.build.Fan;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Published fan figures, row by row of {@code reference/fan.csv}; which rows and why is in docs/reference-checks.md. */
class PublishedFanTest {

    /** 1 cfm in m3/s (NIST SP 811, from 1 ft = 0.3048 m). */
    private static final double CUBIC_FOOT_PER_MINUTE = 0.3048 * 0.3048 * 0.3048 / 60;

    /** Data sheets of one maker's fan at several speeds: frame, voltages and speeds. */
    private static final Map<String, List<String>> FAMILIES = Map.of(
            "4020A",
            List.of(
                    "5-9800",
                    "5-8000",
                    "5-6500",
                    "5-5000",
                    "12-12500",
                    "12-9200",
                    "12-8000",
                    "12-6500",
                    "12-5000",
                    "24-12500",
                    "24-11000",
                    "24-8300",
                    "24-5200"),
            "4028",
            List.of(
                    "12-25000",
                    "12-22000",
                    "12-18000",
                    "12-16500",
                    "12-14500",
                    "12-12500",
                    "12-4500",
                    "12-3500",
                    "24-18000",
                    "24-14500",
                    "24-12500"),
            "4020B",
            List.of("5-12400", "5-8000", "12-12400", "12-8000", "24-16000", "24-12400", "24-8000"),
            "4010V",
            List.of("5-5800", "12-5000", "12-5800", "12-7000", "12-8500"),
            "4020V",
            List.of(
                    "5-5000", "5-6000", "5-7000", "12-5000", "12-6000", "12-7000", "12-8000", "24-6000", "24-7000",
                    "24-8000"));

    static final Map<String, Consumer<Row>> CHECKS = checks();

    @TestFactory
    Stream<DynamicTest> rows() {
        return PublishedRows.tests("fan", CHECKS);
    }

    private static Map<String, Consumer<Row>> checks() {
        Map<String, Consumer<Row>> checks = new LinkedHashMap<>();
        FAMILIES.forEach((family, members) ->
                members.forEach(member -> checks.put("F-PQ-" + family + "-" + member, row -> family(row, family))));
        checks.put("F-LAW-4028-4400", PublishedFanTest::fanLaws);
        for (String speed : new String[] {"11000", "9200", "8000", "6500", "5000"}) {
            checks.put("F-LAW-4020-" + speed, PublishedFanTest::fanLaws);
        }
        checks.put("F-BC-0.25", PublishedFanTest::widening);
        checks.put("F-BC-0.75", PublishedFanTest::widening);
        checks.put("F-BC-DP", PublishedFanTest::wideningPressure);
        return checks;
    }

    /** From any other speed of the same fan the fan laws lead to this row's figures, within the maker's tolerance. */
    private static void family(Row row, String family) {
        Map<String, Row> rows = PublishedRows.of("fan");
        boolean withPressure = !row.expected().contains("cut off");
        double tolerance = row.tolerance("\\+-#%");
        List<String> members = FAMILIES.getOrDefault(family, List.of());
        assertThat(members).hasSizeGreaterThan(4);
        for (String member : members) {
            Row other = PublishedRows.row(rows, "F-PQ-" + family + "-" + member);
            Fan.Straight there = straight(other, withPressure);
            Fan.Straight here = there.atSpeed(rpm(row) / rpm(other));
            row.agrees(here.freeFlow() / flowUnit(row), flow(row), tolerance);
            if (withPressure) {
                row.agrees(here.shutoffPressure(), row.printed("\\(?# Pa"), tolerance);
            }
        }
    }

    private static double rpm(Row row) {
        return row.input(" # rpm");
    }

    private static Fan.Straight straight(Row row, boolean withPressure) {
        double pressure = withPressure ? row.expected("\\(?# Pa") : 1;
        return new Fan.Straight(Double.parseDouble(flow(row)) * flowUnit(row), pressure);
    }

    private static boolean inCubicFeet(Row row) {
        return row.expected().contains("Qmax=") && !row.expected().contains("m3/min");
    }

    private static String flow(Row row) {
        return row.printed(inCubicFeet(row) ? "Qmax=# CFM" : "Qmax=# m3/min");
    }

    private static double flowUnit(Row row) {
        return inCubicFeet(row) ? CUBIC_FOOT_PER_MINUTE : 1 / 60.0;
    }

    private static void fanLaws(Row row) {
        Fan.Straight from = new Fan.Straight(row.input("\\(# m3/min") / 60, row.input(", # Pa"));
        Fan.Straight to = from.atSpeed(row.input("to # rpm") / row.input("from # rpm"));
        row.agrees(to.freeFlow() * 60, row.printed("law: Q=#"), 0);
        row.agrees(to.shutoffPressure(), row.printed("p=#"), 0);
        row.agrees(to.freeFlow() * 60, row.printed("datasheet: #,"), row.tolerance("Q #%"));
        row.agrees(to.shutoffPressure(), row.printed("datasheet: [\\d.]+, #,"), row.tolerance("p #%"));
        // the electrical power beside them is not modelled
    }

    private static void widening(Row row) {
        assertThat(Correlations.bordaCarnot(row.input("A2=#"))).isEqualTo(row.expected("#"));
    }

    private static void wideningPressure(Row row) {
        double velocity = row.input("V1=#");
        double loss = Correlations.bordaCarnot(row.input("A2=#")) * 0.5 * row.input("rho=#") * velocity * velocity;
        assertThat(loss).isEqualTo(row.expected("=# Pa"));
    }
}
