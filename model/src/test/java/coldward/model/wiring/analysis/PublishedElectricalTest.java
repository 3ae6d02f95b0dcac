package coldward.model.wiring.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.PublishedRows;
import coldward.model.PublishedRows.Row;
import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.DcSolver;
import coldward.model.circuit.Drive;
import coldward.model.circuit.Element;
import coldward.model.circuit.Element.CurrentSource;
import coldward.model.circuit.Element.Diode;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.Stage;
import coldward.model.circuit.Element.StageModel;
import coldward.model.circuit.Element.VoltageSource;
import coldward.model.circuit.Netlist;
import coldward.model.circuit.OperatingPoint;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Wire;
import coldward.model.wiring.pick.Series;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Published electrical figures, row by row of {@code reference/electrical.csv}; which and why: docs/reference-checks.md. */
public class PublishedElectricalTest {

    /** What the generic small Schottky claims of its fit. */
    private static final double FIT_V = 0.010;

    public static final Map<String, Consumer<Row>> CHECKS = checks();

    private static Map<String, Consumer<Row>> checks() {
        Map<String, Consumer<Row>> checks = new LinkedHashMap<>();
        for (int gauge : new int[] {20, 21, 22, 23, 24, 25, 26, 28, 29, 30}) {
            checks.put("E-AWG-" + gauge, PublishedElectricalTest::gauge);
        }
        checks.put("E-CU-TC", PublishedElectricalTest::copper);
        for (String milliamperes : List.of("0.1", "1", "10", "100")) {
            checks.put("E-BAT85-" + milliamperes, PublishedElectricalTest::forward);
        }
        checks.put("E-BAT85-R", PublishedElectricalTest::reverse);
        checks.put("E-STM-FT", PublishedElectricalTest::tolerant);
        checks.put("E-PULL-1", PublishedElectricalTest::pullUp);
        checks.put("E-PULL-2", PublishedElectricalTest::pulledToTheRail);
        checks.put("E-OC-1", PublishedElectricalTest::openCollector);
        checks.put("E-IEC60063-12", PublishedElectricalTest::preferred);
        return checks;
    }

    @TestFactory
    Stream<DynamicTest> rows() {
        return PublishedRows.tests("electrical", CHECKS);
    }

    private static Wire wire(double gauge) {
        return new Wire(
                "w",
                ContactId.parse("a.1"),
                ContactId.parse("b.1"),
                Wire.diameterOfGauge(gauge),
                1,
                0,
                Optional.empty());
    }

    private static void gauge(Row row) {
        double gauge = row.input("AWG # solid");
        row.agrees(Wire.diameterOfGauge(gauge) * 1e3, row.printed("=# mm;"), 0);
        double perKilometre = wire(gauge).resistance(293.15) * 1e3;
        row.agrees(perKilometre, row.printed("R=# ohm"), row.tolerance("^#%"));
        row.agrees(perKilometre, row.printed("published #\\)"), row.tolerance("^#%"));
    }

    private static void copper(Row row) {
        double hot = row.input(", # C") + 273.15;
        row.agrees(wire(24).resistance(hot) / wire(24).resistance(293.15), row.printed("ratio #"), 0);
    }

    private static void forward(Row row) {
        double volts = CircuitOfWiring.model(Bench.SMALL_SCHOTTKY, false)
                .forward(row.input("at # mA") * 1e-3, row.input("mA, # C"));
        assertThat(volts).as(row.source()).isCloseTo(row.expected("max # mV") * 1e-3, within(FIT_V));
    }

    private static void reverse(Row row) {
        double volts = row.expected("uA @# V");
        OperatingPoint point = solve(List.of(
                new VoltageSource("reverse", "cathode", Netlist.GROUND, volts),
                new Diode("diode", Netlist.GROUND, "cathode", CircuitOfWiring.model(Bench.SMALL_SCHOTTKY, false))));
        // a maximum: the class takes it as what leaks, with its saturation current on top
        assertThat(-point.current("diode") * 1e6).isCloseTo(row.expected("IR # uA"), within(0.02));
        assertThat(Bench.SMALL_SCHOTTKY.reverseLimit()).isEqualTo(row.expected("VR # V"));
        assertThat(Bench.SMALL_SCHOTTKY.forwardLimit() * 1e3).isEqualTo(row.expected("IF # mA"));
    }

    private static void tolerant(Row row) {
        assertThat(Limits.ABOVE_SUPPLY_WITH_PULL_UP_V).isEqualTo(row.expected("> VDD\\+#"));
        Bench on = new Bench();
        on.input = Bench.tolerant(OptionalDouble.of(40e3));
        on.pullUp = OptionalDouble.of(10e3);
        on.pullUpTo = "5V";
        assertThat(on.input.toleratedUpTo()).isEqualTo(row.expected("up to # V \\("));
        assertThat(WiringCheck.check(on.wiring(), Optional.empty()).findings())
                .anyMatch(f -> f.code() == FindingCode.TOLERANT_INPUT_WITH_PULL_UP);
    }

    private static OperatingPoint solve(List<Element> elements) {
        return ((Converged) DcSolver.solve(new Netlist(25, elements))).point();
    }

    /** The row takes the diode's voltage at 0.1 mA for the 0.06 mA that flow; the fit knows better by 15 mV. */
    private static void pullUp(Row row) {
        double supply = row.input("^# V pull-up");
        double kilohm = row.input("pull-up # k");
        double stage = row.input("VOL # V");
        OperatingPoint point = solve(List.of(
                new VoltageSource("supply", "vdd", Netlist.GROUND, supply),
                new Resistor("pull-up", "vdd", "pin", kilohm * 1e3),
                new Diode("diode", "pin", "third", CircuitOfWiring.model(Bench.SMALL_SCHOTTKY, false)),
                new VoltageSource("stage", "third", Netlist.GROUND, stage)));
        assertThat(point.voltage("pin")).isCloseTo(row.expected("low = # V"), within(0.015));
        assertThat(point.voltage("pin")).isBetween(row.expected("> # LVTTL"), row.expected("< # STM32F1"));
        assertThat(point.current("diode") * 1e6).isCloseTo(row.expected("I=# uA"), within(0.01 * 61.5));
    }

    private static void pulledToTheRail(Row row) {
        double rail = row.input("to # V through");
        double clamp = row.input("clamp at # V");
        for (String[] pair : new String[][] {{"R=10k: # mA", "10e3"}, {"R=4.7k: # mA", "4.7e3"}}) {
            OperatingPoint point = solve(List.of(
                    new VoltageSource("rail", "rail", Netlist.GROUND, rail),
                    new Resistor("pull-up", "rail", "pin", Double.parseDouble(pair[1])),
                    new VoltageSource("clamp", "pin", Netlist.GROUND, clamp)));
            row.agrees(point.current("clamp") * 1e3, row.printed(pair[0]), 1e-6);
        }
    }

    private static void openCollector(Row row) {
        double volts = row.expected("\\) # V max at");
        double amperes = row.expected("IC # mA") * 1e-3;
        OperatingPoint point = solve(List.of(
                new CurrentSource("pull", Netlist.GROUND, "third", amperes),
                new Stage(
                        "stage",
                        "third",
                        Netlist.GROUND,
                        StageModel.through(0.1, volts, amperes, 3 * amperes),
                        Drive.steady(1),
                        Optional.empty())));
        assertThat(point.voltage("third")).isCloseTo(volts, within(1e-3));
    }

    private static void preferred(Row row) {
        List<Double> printed =
                Stream.of(row.expected().split(" ")).map(Double::valueOf).toList();
        assertThat(Series.E12.decade()).isEqualTo(printed);
        assertThat(Series.E24.decade()).containsAll(printed).hasSize(24);
    }
}
