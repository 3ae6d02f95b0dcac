package coldward.quantity;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The units accepted per dimension. Factors are exact: decimal prefixes, litre, minute, hour and degree Celsius after
 * the SI brochure (9th ed., tables 7 and 8); inch, cubic foot and degree Fahrenheit after NIST SP 811 (2008), appendix
 * B; mmH2O and inH2O are the conventional ones there (water of 1000 kg/m3 under 9.80665 m/s2).
 */
final class UnitTable {

    private static final String FOOT_CUBED_M3 = "0.028316846592";

    static final Map<Dimension, List<Unit>> ALL = build();

    private UnitTable() {}

    private static Map<Dimension, List<Unit>> build() {
        EnumMap<Dimension, List<Unit>> t = new EnumMap<>(Dimension.class);
        t.put(
                Dimension.LENGTH,
                List.of(
                        Unit.of("mm", "1", "1000"),
                        Unit.of("m", "1", "1"),
                        Unit.of("um", "1", "1000000", "µm", "μm"),
                        Unit.of("cm", "1", "100"),
                        Unit.of("in", "0.0254", "1", "inch"),
                        Unit.of("mil", "0.0254", "1000"),
                        Unit.of("AWG", "1", "1").as(Unit.Form.GAUGE)));
        t.put(
                Dimension.TEMPERATURE,
                List.of(
                        Unit.of("degC", "1", "1", "°C").shifted("273.15"),
                        Unit.of("K", "1", "1"),
                        Unit.of("degF", "5", "9", "°F").shifted("459.67")));
        t.put(
                Dimension.TEMPERATURE_STEP,
                List.of(Unit.of("K", "1", "1"), Unit.of("degC", "1", "1", "°C"), Unit.of("degF", "5", "9", "°F")));
        t.put(
                Dimension.TIME,
                List.of(
                        Unit.of("s", "1", "1"),
                        Unit.of("ms", "1", "1000"),
                        Unit.of("us", "1", "1000000", "µs", "μs"),
                        Unit.of("min", "60", "1"),
                        Unit.of("h", "3600", "1"),
                        Unit.of("d", "86400", "1")));
        t.put(
                Dimension.SPEED_OF_TURN,
                List.of(Unit.of("rpm", "1", "1"), Unit.of("1/min", "1", "1"), Unit.of("1/s", "60", "1")));
        t.put(
                Dimension.AIR_FLOW,
                List.of(
                        Unit.of("l/s", "1", "1000", "L/s"),
                        Unit.of("m^3/s", "1", "1", "m³/s"),
                        Unit.of("m^3/min", "1", "60", "m³/min"),
                        Unit.of("m^3/h", "1", "3600", "m³/h"),
                        Unit.of("CFM", FOOT_CUBED_M3, "60", "cfm")));
        t.put(
                Dimension.FEED,
                List.of(
                        Unit.of("mm^3/s", "1", "1000000000", "mm³/s"),
                        Unit.of("mm^3/min", "1", "60000000000", "mm³/min"),
                        Unit.of("m^3/s", "1", "1", "m³/s")));
        t.put(
                Dimension.PRESSURE,
                List.of(
                        Unit.of("Pa", "1", "1"),
                        Unit.of("hPa", "100", "1"),
                        Unit.of("kPa", "1000", "1"),
                        Unit.of("mmH2O", "9.80665", "1"),
                        Unit.of("inH2O", "249.08891", "1")));
        t.put(Dimension.POWER, List.of(Unit.of("W", "1", "1"), Unit.of("mW", "1", "1000"), Unit.of("kW", "1000", "1")));
        t.put(
                Dimension.CONDUCTANCE,
                List.of(
                        Unit.of("W/K", "1", "1"),
                        Unit.of("mW/K", "1", "1000"),
                        Unit.of("K/W", "1", "1").as(Unit.Form.RECIPROCAL)));
        t.put(Dimension.HEAT_CAPACITY, List.of(Unit.of("J/K", "1", "1")));
        t.put(Dimension.CONDUCTIVITY, List.of(Unit.of("W/(m K)", "1", "1", "W/(m·K)", "W/(m*K)")));
        t.put(
                Dimension.HEAT_TRANSFER,
                List.of(Unit.of("W/(m^2 K)", "1", "1", "W/(m² K)", "W/(m^2·K)", "W/(m²·K)", "W/(m^2*K)")));
        t.put(
                Dimension.DENSITY,
                List.of(Unit.of("kg/m^3", "1", "1", "kg/m³"), Unit.of("g/cm^3", "1000", "1", "g/cm³")));
        t.put(
                Dimension.SPECIFIC_HEAT,
                List.of(
                        Unit.of("J/(kg K)", "1", "1", "J/(kg·K)", "J/(kg*K)"),
                        Unit.of("kJ/(kg K)", "1000", "1", "kJ/(kg·K)", "kJ/(kg*K)")));
        t.put(Dimension.VOLTAGE, List.of(Unit.of("V", "1", "1"), Unit.of("mV", "1", "1000")));
        t.put(
                Dimension.CURRENT,
                List.of(Unit.of("A", "1", "1"), Unit.of("mA", "1", "1000"), Unit.of("uA", "1", "1000000", "µA", "μA")));
        t.put(
                Dimension.RESISTANCE,
                List.of(
                        Unit.of("ohm", "1", "1", "Ω", "Ω"),
                        Unit.of("mohm", "1", "1000", "mΩ", "mΩ"),
                        Unit.of("kohm", "1000", "1", "kΩ", "kΩ"),
                        Unit.of("Mohm", "1000000", "1", "MΩ", "MΩ")));
        t.put(
                Dimension.CAPACITANCE,
                List.of(
                        Unit.of("F", "1", "1"),
                        Unit.of("uF", "1", "1000000", "µF", "μF"),
                        Unit.of("nF", "1", "1000000000"),
                        Unit.of("pF", "1", "1000000000000")));
        t.put(
                Dimension.FREQUENCY,
                List.of(Unit.of("Hz", "1", "1"), Unit.of("kHz", "1000", "1"), Unit.of("MHz", "1000000", "1")));
        t.put(Dimension.SHARE, List.of(Unit.of("%", "1", "100"), Unit.of("share", "1", "1")));
        t.put(
                Dimension.RATE,
                List.of(Unit.of("per year", "1", "1", "1/year", "/year"), Unit.of("per month", "12", "1", "1/month")));
        return Collections.unmodifiableMap(t);
    }

    /**
     * In which unit a value is shown.
     *
     * @param unit as in the table
     * @param from base value from which on it is used
     */
    record Shown(String unit, double from) {}

    /** The unit shown first, then those for larger values; what a dimension lacks here is shown in its first unit. */
    static final Map<Dimension, List<Shown>> SHOWN = Map.of(
            Dimension.LENGTH, List.of(new Shown("um", 0), new Shown("mm", 1e-5), new Shown("m", 1)),
            Dimension.TIME,
                    List.of(
                            new Shown("us", 0),
                            new Shown("ms", 1e-3),
                            new Shown("s", 0.1),
                            new Shown("min", 900),
                            new Shown("h", 10_800)),
            Dimension.POWER, List.of(new Shown("mW", 0), new Shown("W", 0.1), new Shown("kW", 1e4)),
            Dimension.VOLTAGE, List.of(new Shown("mV", 0), new Shown("V", 1)),
            Dimension.CURRENT, List.of(new Shown("uA", 0), new Shown("mA", 1e-3), new Shown("A", 1)),
            Dimension.RESISTANCE,
                    List.of(new Shown("mohm", 0), new Shown("ohm", 1), new Shown("kohm", 1e3), new Shown("Mohm", 1e6)),
            Dimension.CAPACITANCE,
                    List.of(new Shown("pF", 0), new Shown("nF", 1e-9), new Shown("uF", 1e-6), new Shown("F", 1)),
            Dimension.FREQUENCY, List.of(new Shown("Hz", 0), new Shown("kHz", 1e3), new Shown("MHz", 1e6)));

    static Unit named(Dimension dimension, String text) {
        for (Unit unit : ALL.getOrDefault(dimension, List.of())) {
            if (unit.text().equals(text)) {
                return unit;
            }
        }
        throw new OwnBug("no unit " + text + " of " + dimension);
    }

    static Unit toShow(Dimension dimension, double base) {
        List<Unit> all = ALL.getOrDefault(dimension, List.of());
        List<Shown> shown = SHOWN.get(dimension);
        if (shown == null || base == 0) {
            return all.getFirst();
        }
        Shown best = shown.getFirst();
        for (Shown candidate : shown) {
            if (Math.abs(base) >= candidate.from()) {
                best = candidate;
            }
        }
        return named(dimension, best.unit());
    }
}
