package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.PublishedRows;
import coldward.model.trip.PublishedStatisticsTest;
import coldward.model.wiring.analysis.PublishedElectricalTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every published row is checked, or left out for a reason that docs/reference-checks.md gives; and nothing else is. */
class ReferenceChecksTest {

    private static final Pattern ROW = Pattern.compile("^\\| `([^`]+)` \\| (checked by|left out:) (.+) \\|$");

    @ParameterizedTest
    @CsvSource({
        "heat, PublishedHeatTest, 103",
        "fan, PublishedFanTest, 70",
        "statistics, PublishedStatisticsTest, 101",
        "electrical, PublishedElectricalTest, 70"
    })
    void everyRowIsCheckedOrLeftOutForAReason(String topic, String test, int rows) throws IOException {
        Set<String> checked = switch (topic) {
            case "heat" -> PublishedHeatTest.CHECKS.keySet();
            case "fan" -> PublishedFanTest.CHECKS.keySet();
            case "electrical" -> PublishedElectricalTest.CHECKS.keySet();
            default -> PublishedStatisticsTest.checked();
        };
        Map<String, String> listed = listed("## " + topic);
        Set<String> published = PublishedRows.of(topic).keySet();
        assertThat(published).hasSize(rows);
        assertThat(listed.keySet()).containsExactlyElementsOf(published);
        assertThat(published).containsAll(checked);
        for (String id : published) {
            String line = Objects.requireNonNull(listed.get(id));
            if (checked.contains(id)) {
                assertThat(line).as(id).startsWith("checked by `" + test + "`: ");
            } else {
                assertThat(line).as(id).startsWith("left out: ");
            }
            assertThat(line.substring(line.indexOf(": ") + 2)).as(id).hasSizeGreaterThan(15);
        }
    }

    private static Map<String, String> listed(String heading) throws IOException {
        Path page = Path.of(System.getProperty("basedir", ".")).resolve("../docs/reference-checks.md");
        Map<String, String> listed = new LinkedHashMap<>();
        boolean inside = false;
        for (String line : Files.readAllLines(page)) {
            if (line.startsWith("## ")) {
                inside = line.equals(heading);
            }
            Matcher matcher = ROW.matcher(line);
            if (inside && matcher.matches()) {
                String before = listed.put(matcher.group(1), matcher.group(2) + " " + matcher.group(3));
                assertThat(before).as(matcher.group(1)).isNull();
            } else if (inside && line.startsWith("| `")) {
                throw new AssertionError("not a row of the table: " + line);
            }
        }
        return listed;
    }
}
