package coldward.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;

/** Published values by topic, from {@code reference/TOPIC.csv}: numbers, tolerance and source stand there alone. */
public final class PublishedRows {

    private static final String NUMBER = "(-?[\\d.]+(?:e-?\\d+)?)";

    private PublishedRows() {}

    /** One row. */
    public record Row(String id, String inputs, String expected, String tolerance, String source) {

        /** A number of the inputs; {@code #} in the pattern stands for it. */
        public double input(String pattern) {
            return Double.parseDouble(find(inputs, pattern));
        }

        /** A number of the expected values, as printed; {@code #} in the pattern stands for it. */
        public String printed(String pattern) {
            return find(expected, pattern);
        }

        /** The same as a number. */
        public double expected(String pattern) {
            return Double.parseDouble(printed(pattern));
        }

        /** A number of the tolerance, {@code 3%} read as 0.03. */
        public double tolerance(String pattern) {
            double value = Double.parseDouble(find(tolerance, pattern));
            return pattern.contains("#%") ? value / 100 : value;
        }

        /** Compares with a printed value: the tolerance is relative, plus half a unit of the last printed digit. */
        public void agrees(double actual, String printed, double relative) {
            BigDecimal value = new BigDecimal(printed);
            double digit = 0.5 * value.ulp().doubleValue();
            assertThat(actual)
                    .as("%s (%s): %s", id, source, expected)
                    .isCloseTo(
                            value.doubleValue(), within(Math.abs(value.doubleValue()) * relative + digit * 1.000001));
        }

        private String find(String text, String pattern) {
            Matcher matcher = Pattern.compile(pattern.replace("#", NUMBER)).matcher(text);
            assertThat(matcher.find()).as("%s: %s in %s", id, pattern, text).isTrue();
            return matcher.group(1);
        }
    }

    /** All rows of a topic, in the file's order. */
    public static Map<String, Row> of(String topic) {
        String file = "/reference/" + topic + ".csv";
        try (InputStream in = Objects.requireNonNull(PublishedRows.class.getResourceAsStream(file), file)) {
            List<String> lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            assertThat(lines.getFirst()).isEqualTo("id,topic,inputs,expected,tolerance,source,origin");
            Map<String, Row> rows = new LinkedHashMap<>();
            for (String line : lines.subList(1, lines.size())) {
                List<String> f = fields(line);
                assertThat(f).as(line).hasSize(7);
                assertThat(f.get(1)).isEqualTo(topic);
                Row before = rows.put(f.get(0), new Row(f.get(0), f.get(2), f.get(3), f.get(4), f.get(5)));
                assertThat(before).as("rows of one id").isNull();
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** One test per row that has a check. */
    public static Stream<DynamicTest> tests(String topic, Map<String, Consumer<Row>> checks) {
        Map<String, Row> rows = of(topic);
        return checks.entrySet().stream()
                .map(check -> DynamicTest.dynamicTest(
                        check.getKey(), () -> check.getValue().accept(row(rows, check.getKey()))));
    }

    /** The row of an id. */
    public static Row row(Map<String, Row> rows, String id) {
        return Objects.requireNonNull(rows.get(id), () -> "no row " + id);
    }

    private static List<String> fields(String line) {
        List<String> fields = new ArrayList<>();
        Matcher matcher =
                Pattern.compile("(\"((?:[^\"]|\"\")*)\"|([^,]*))(,|$)").matcher(line);
        while (matcher.find()) {
            String quoted = matcher.group(2);
            fields.add(quoted == null ? matcher.group(3) : quoted.replace("\"\"", "\""));
            if (matcher.group(4).isEmpty()) {
                break;
            }
        }
        return fields;
    }
}
