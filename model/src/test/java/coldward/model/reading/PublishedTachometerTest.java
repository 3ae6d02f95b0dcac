package coldward.model.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Published tachometer facts; numbers, source and tolerance are in {@code reference/tach.csv} and nowhere else. */
class PublishedTachometerTest {

    private static final Map<String, Map<String, String>> ROWS = read();

    @ParameterizedTest
    @ValueSource(strings = {"T-CONV-2000", "T-CONV-5000", "T-CONV-10000"})
    void pulseRateAndHalfPulse(String id) {
        Map<String, String> row = row(id);
        double tolerance = Double.parseDouble(field(row, "tolerance"));
        double rpm = number(field(row, "inputs"), "([\\d.]+) rpm");
        int pulses = (int) number(field(row, "inputs"), "([\\d.]+) pulses/rev");
        double rate = Readings.pulseRate(rpm, pulses);
        assertRelative(rate, number(field(row, "expected"), "=([\\d.]+) Hz"), tolerance);
        assertRelative(1e3 / rate, number(field(row, "expected"), "pulse period ([\\d.]+) ms"), tolerance);
        // each half-pulse is the longest interval between two looks that misses no level
        double half = number(field(row, "expected"), "T1..T4=([\\d.]+) ms");
        assertRelative(SampledPulses.longestHonestInterval(rate, 0.5) * 1e3, half, tolerance);
        Tachometer reading = new Tachometer(pulses, 0.5, new Sampled(half * 1e-3), 1);
        assertThat(Readings.of(reading, rpm).honest()).isTrue();
        assertThat(Readings.of(reading, rpm * 1.001).honest()).isFalse();
    }

    @Test
    void anUnevenPulseIsHonestUpToItsShorterHalf() {
        Map<String, String> row = row("T-PPR-2");
        int pulses = (int) number(field(row, "expected"), "([\\d.]+) pulses/rev");
        double duty = number(field(row, "expected"), "nominal ([\\d.]+)% duty") / 100;
        double asymmetry = number(field(row, "expected"), "10\\.\\.([\\d.]+)%") / 100;
        Tachometer even = new Tachometer(pulses, duty, new Sampled(1e-3), 1);
        Tachometer uneven = new Tachometer(pulses, duty * (1 - asymmetry), new Sampled(1e-3), 1);
        double limit = Readings.of(even, 1000).highestHonestRpm().orElseThrow();
        assertThat(Readings.of(uneven, 1000).highestHonestRpm().orElseThrow())
                .isCloseTo(limit * (1 - asymmetry), within(1e-9));
    }

    @Test
    void threeAndSixPulses() {
        Map<String, String> row = row("T-PPR-3");
        double rate = number(field(row, "expected"), "([\\d.]+) Hz");
        double rpm = number(field(row, "expected"), "@([\\d.]+) rpm");
        assertThat(Readings.pulseRate(rpm, 6)).isEqualTo(rate);
        assertThat(Readings.pulseRate(rpm, 3)).isEqualTo(rate / 2);
    }

    @Test
    void oneToFourPulsesAreAccepted() {
        Map<String, String> row = row("T-HWMON-4");
        int least = (int) number(field(row, "expected"), "typ\\. (\\d)");
        int most = (int) number(field(row, "expected"), "\\.\\.(\\d)");
        for (int pulses = least; pulses <= most; pulses++) {
            assertThat(Readings.of(new Tachometer(pulses, 0.5, new Edge(0, 0), 1), 6000)
                            .resolutionRpm())
                    .isEqualTo(60.0 / pulses);
        }
    }

    @Test
    void everyRowIsUsedOrHasAReason() {
        assertThat(ROWS).hasSize(24);
        ROWS.forEach((id, row) -> assertThat(field(row, "reason").isEmpty())
                .as(id)
                .isEqualTo(field(row, "used").equals("yes")));
    }

    private static void assertRelative(double actual, double expected, double tolerance) {
        assertThat(actual).isCloseTo(expected, within(expected * tolerance));
    }

    private static Map<String, String> row(String id) {
        return Objects.requireNonNull(ROWS.get(id), id);
    }

    private static String field(Map<String, String> row, String name) {
        return Objects.requireNonNull(row.get(name), name);
    }

    private static double number(String text, String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(text);
        assertThat(matcher.find()).as("%s in %s", pattern, text).isTrue();
        return Double.parseDouble(matcher.group(1));
    }

    private static Map<String, Map<String, String>> read() {
        try (InputStream in = Objects.requireNonNull(
                PublishedTachometerTest.class.getResourceAsStream("/reference/tach.csv"), "tach.csv")) {
            List<String> lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            List<String> names = fields(lines.getFirst());
            Map<String, Map<String, String>> rows = new LinkedHashMap<>();
            for (String line : lines.subList(1, lines.size())) {
                List<String> values = fields(line);
                Map<String, String> row = new LinkedHashMap<>();
                for (int i = 0; i < names.size(); i++) {
                    row.put(names.get(i), values.get(i));
                }
                rows.put(values.getFirst(), row);
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
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
