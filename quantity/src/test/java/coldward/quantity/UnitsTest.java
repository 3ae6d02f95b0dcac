package coldward.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class UnitsTest {

    /** Factors as printed in NIST SP 811 (2008), appendix B.8, and the SI brochure, 9th ed.; 7 digits. */
    @ParameterizedTest
    @CsvSource({
        "LENGTH, 1 in, 2.54e-2",
        "LENGTH, 1 mil, 2.54e-5",
        "LENGTH, 1 mm, 1e-3",
        "LENGTH, 1 um, 1e-6",
        "AIR_FLOW, 1 CFM, 4.719474e-4",
        "AIR_FLOW, 1 l/s, 1e-3",
        "AIR_FLOW, 1 m^3/h, 2.777778e-4",
        "AIR_FLOW, 1 m^3/min, 1.666667e-2",
        "AIR_FLOW, 1 m^3/s, 1",
        "FEED, 5 mm^3/s, 5e-9",
        "PRESSURE, 1 inH2O, 2.490889e2",
        "PRESSURE, 1 mmH2O, 9.80665",
        "PRESSURE, 1 kPa, 1e3",
        "TEMPERATURE, 0 degC, 273.15",
        "TEMPERATURE, 32 degF, 273.15",
        "TEMPERATURE, 212 degF, 373.15",
        "TEMPERATURE, -40 degF, 233.15",
        "TEMPERATURE, -40 degC, 233.15",
        "TEMPERATURE, 300 K, 300",
        "TEMPERATURE_STEP, 9 degF, 5",
        "TEMPERATURE_STEP, 3 degC, 3",
        "TEMPERATURE_STEP, 3 K, 3",
        "TIME, 2 min, 120",
        "TIME, 4000 h, 1.44e7",
        "TIME, 90 d, 7776000",
        "TIME, 250 ms, 0.25",
        "SPEED_OF_TURN, 8000 rpm, 8000",
        "SPEED_OF_TURN, 8000 1/min, 8000",
        "CONDUCTANCE, 4 K/W, 0.25",
        "CONDUCTANCE, 0.25 W/K, 0.25",
        "HEAT_CAPACITY, 12 J/K, 12",
        "CONDUCTIVITY, 8 W/(m K), 8",
        "HEAT_TRANSFER, 5000 W/(m^2 K), 5000",
        "DENSITY, 1.24 g/cm^3, 1240",
        "SPECIFIC_HEAT, 1.3 kJ/(kg K), 1300",
        "VOLTAGE, 400 mV, 0.4",
        "CURRENT, 80 mA, 0.08",
        "RESISTANCE, 15 kohm, 15000",
        "CAPACITANCE, 10 nF, 1e-8",
        "CAPACITANCE, 4.7 uF, 4.7e-6",
        "FREQUENCY, 25 kHz, 25000",
        "POWER, 50 W, 50",
        "SHARE, 10 %, 0.1",
        "SHARE, 0.1 share, 0.1",
        "SHARE, 0.1, 0.1",
        "RATE, 1 per year, 1",
        "RATE, 2 1/year, 2",
    })
    void agreesWithPublishedFactors(Dimension dimension, String text, double base) {
        assertThat(Units.parse(dimension, text)).isCloseTo(base, within(Math.abs(base) * 2e-7));
    }

    /** Pairs printed side by side on makers' data sheets (published.csv, topic fan), to their rounding. */
    @ParameterizedTest
    @CsvSource({
        "AIR_FLOW, 9.9 CFM, 0.28 m^3/min, 0.01",
        "AIR_FLOW, 8.0 CFM, 3.776 l/s, 0.001",
        "AIR_FLOW, 12.4 CFM, 0.35 m^3/min, 0.01",
        "PRESSURE, 10.04 mmH2O, 98.5 Pa, 0.001",
        "PRESSURE, 15.68 mmH2O, 153.8 Pa, 0.001",
        "PRESSURE, 0.25 inH2O, 62.3 Pa, 0.001",
        "PRESSURE, 0.12 inH2O, 29.9 Pa, 0.001",
    })
    void agreesWithDataSheets(Dimension dimension, String one, String other, double relative) {
        double expected = Units.parse(dimension, other);
        assertThat(Units.parse(dimension, one)).isCloseTo(expected, within(expected * relative));
    }

    /** ASTM B258, table 1: diameters in inches, rounded there to a tenth of a mil (from memory). */
    @ParameterizedTest
    @CsvSource({"0, 0.3249", "10, 0.1019", "18, 0.0403", "24, 0.0201", "28, 0.0126", "30, 0.0100", "36, 0.0050"})
    void wireGauges(int gauge, double inches) {
        assertThat(Units.parse(Dimension.LENGTH, gauge + " AWG")).isCloseTo(inches * 0.0254, within(0.00006 * 0.0254));
    }

    @Test
    void decimalTextsBecomeTheNearestDouble() {
        assertThat(Units.parse(Dimension.LENGTH, "2.1 mm")).isEqualTo(0.0021);
        assertThat(Units.parse(Dimension.TIME, "0.7 ms")).isEqualTo(0.0007);
        assertThat(Units.parse(Dimension.FEED, "5 mm^3/s")).isEqualTo(5e-9);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "LENGTH|2,1 mm|decimal comma; write a decimal point: 2.1 mm",
                "SPEED_OF_TURN|8,5e3 rpm|decimal comma",
                "LENGTH|2.1|has no unit; write for example 2.1 mm",
                "LENGTH|2.1 kg|no unit known here, but length is wanted here (accepted: mm, m, um",
                "LENGTH|2.1 V|V is a unit of voltage, but length is wanted",
                "CONDUCTANCE|0 K/W|out of the reach",
                "LENGTH|NaN mm|not a finite number",
                "LENGTH|.inf|not a finite number",
                "LENGTH|-Infinity m|not a finite number",
                "LENGTH|1e999 m|out of the reach",
                "LENGTH|1e9999 m|1e9999 m",
                "LENGTH|mm|not a number with a unit",
                "LENGTH|60 AWG|no wire gauge",
                "LENGTH|-1 AWG|no wire gauge",
                "TIME|1 y|accepted: s, ms, us, min, h, d",
                "TEMPERATURE|25 C|for example 25 degC",
            })
    void refusesWithAHint(Dimension dimension, String text, String hint) {
        assertThatThrownBy(() -> Units.parse(dimension, "key", text))
                .isInstanceOfSatisfying(
                        InputError.class, e -> assertThat(e.name()).isEqualTo("key"))
                .hasMessageContaining(hint);
    }

    @Test
    void aTextThatIsTooLongIsNotEvenLookedAt() {
        assertThatThrownBy(() -> Units.parse(Dimension.LENGTH, "1".repeat(1_000_000) + " mm"))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("1000003 characters");
    }

    @ParameterizedTest
    @EnumSource(Dimension.class)
    void whatIsWrittenReadsBackAndMatchesThePattern(Dimension dimension) {
        Random random = new Random(20_261_125 + dimension.name().hashCode());
        Pattern pattern = Pattern.compile(Units.pattern(dimension, true));
        for (int i = 0; i < 500; i++) {
            double base = Math.exp(random.nextDouble(-16, 12));
            String text = Units.format(dimension, base);
            assertThat(text).matches(pattern);
            // temperatures lose digits by the shift: six digits of the reading in degC
            double absolute = dimension == Dimension.TEMPERATURE ? Math.max(base, 273.15) * 1e-5 : base * 5.1e-6;
            assertThat(Units.parse(dimension, text)).as(text).isCloseTo(base, within(absolute));
            String exact = Units.format(dimension, base, 17);
            double ulps = dimension == Dimension.TEMPERATURE ? 1e-12 * Math.max(base, 300) : base * 5e-16;
            assertThat(Units.parse(dimension, exact)).as(exact).isCloseTo(base, within(ulps));
        }
        assertThat(Units.parse(dimension, dimension.example())).isGreaterThan(0);
        assertThat(dimension.example()).matches(pattern);
    }

    @Test
    void everySpellingOfEveryUnitMatchesItsPattern() {
        for (Dimension dimension : Dimension.values()) {
            Pattern pattern = Pattern.compile(Units.pattern(dimension, false));
            for (Unit unit : UnitTable.ALL.getOrDefault(dimension, List.of())) {
                assertThat("3.5 " + unit.text()).matches(pattern);
                for (String other : unit.alsoWritten()) {
                    assertThat("3.5 " + other).matches(pattern);
                    assertThat(Units.parse(dimension, "3.5 " + other))
                            .isEqualTo(Units.parse(dimension, "3.5 " + unit.text()));
                }
            }
        }
        assertThat("-3 mm").doesNotMatch(Units.pattern(Dimension.LENGTH, false));
        assertThat("2.1").doesNotMatch(Units.pattern(Dimension.LENGTH, false));
        assertThat("10").matches(Units.pattern(Dimension.SHARE, false));
    }

    @ParameterizedTest
    @CsvSource({
        "LENGTH, 0.0021, 2.1 mm",
        "TEMPERATURE, 298.15, 25 degC",
        "TEMPERATURE, 273.15, 0 degC",
        "TIME, 0.5, 0.5 s",
        "TIME, 0.001, 1 ms",
        "AIR_FLOW, 0.0017, 1.7 l/s",
        "FEED, 5e-9, 5 mm^3/s",
        "SHARE, 0.1, 10 %",
        "RATE, 1, 1 per year",
        "CONDUCTANCE, 0.34, 0.34 W/K",
        "SPEED_OF_TURN, 8000, 8000 rpm",
        "RESISTANCE, 15000, 15 kohm",
    })
    void writesAsAPersonReadsIt(Dimension dimension, double base, String text) {
        assertThat(Units.format(dimension, base)).isEqualTo(text);
    }
}
