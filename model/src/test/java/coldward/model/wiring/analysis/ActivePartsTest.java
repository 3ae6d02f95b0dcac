package coldward.model.wiring.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.circuit.OperatingPoint;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port.Switching;
import coldward.model.wiring.Wire;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.WiringState.Fan;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Level shift and buck converter against calculations by hand. */
class ActivePartsTest {

    private static Wire wire(String name, String from, String to) {
        return new Wire(
                name,
                ContactId.parse(from),
                ContactId.parse(to),
                Wire.diameterOfGauge(24),
                0.2,
                60e-12,
                Optional.empty());
    }

    private static OperatingPoint nominal(Wiring wiring, boolean low) {
        return WiringCheck.check(wiring, Optional.empty()).states().stream()
                .filter(s -> s.state().fan() == Fan.ON
                        && s.state().low() == low
                        && s.state().corner().supply() == 0
                        && s.state().corner().pull() == 1
                        && s.state().corner().kelvin() < 280)
                .findFirst()
                .orElseThrow()
                .point();
    }

    /**
     * Stage open: 3.3 V through the pull-up of 10 kohm and the base resistor of 10 kohm into a base at 0.6 V:
     * (3.3 - 0.6)/20 kohm = 0.135 mA, so 3.3 - 1.35 = 1.95 V at the base resistor, and the collector, asked for
     * 3.3 V/4.7 kohm = 0.7 mA of the 13 mA it could pass, is at its saturation or below. Stage low: under 0.6 V at the base
     * resistor, no base current, the input at its rail less 1 uA x 4.7 kohm. The signal is turned round.
     */
    @Test
    void aLevelShiftTurnsTheSignalRound() {
        Bench bench = new Bench();
        bench.input = Bench.ttl();
        bench.switching = Switching.FIXED;
        Wiring sound = bench.wiring();
        List<Part> parts = List.of(
                new Part.PullUp("r1", 10e3, 0),
                new Part.PullUp("r2", 4.7e3, 0),
                new Part.LevelShift("q1", 10e3, 0.6, 100, 0.2, 0.1));
        List<Wire> wires = new ArrayList<>(List.of(
                wire("a", "main.1", "fan.plus"),
                wire("b", "main.2", "fan.minus"),
                wire("c", "r1.rail", "main.3V3"),
                wire("d", "r1.signal", "fan.third"),
                wire("e", "fan.third", "q1.in"),
                wire("f", "q1.ground", "main.GND"),
                wire("g", "q1.out", "main.3"),
                wire("h", "r2.rail", "main.3V3"),
                wire("i", "r2.signal", "main.3")));
        Wiring shifted = sound.withParts(parts, wires);
        OperatingPoint open = nominal(shifted, false);
        assertThat(open.voltage("q1.in")).isCloseTo(1.95, within(0.05));
        assertThat(open.voltage("main.3")).isBetween(0.0, 0.21);
        OperatingPoint low = nominal(shifted, true);
        assertThat(low.voltage("q1.in")).isBetween(0.0, 0.6);
        assertThat(low.voltage("main.3")).isCloseTo(3.3, within(0.02));
    }

    /**
     * 5 V for a fan of 0.17 A out of 24 V with 80 % of the power: 5 x 0.17/(0.8 x 24) = 44.3 mA from the rail. Wires and
     * contacts take less than 1 % of it.
     */
    @Test
    void aBuckConverterDrawsPowerNotCurrent() {
        Bench bench = new Bench();
        bench.switching = Switching.FIXED;
        bench.fan = Bench.fan(5, 4.5, 5.5, 0.17, 0.446, 3.5);
        Wiring sound = bench.wiring();
        List<Part> parts = new ArrayList<>(sound.parts());
        parts.add(new Part.Converter("u1", 5, 0, 2, 1, 0.8));
        List<Wire> wires = new ArrayList<>(sound.wires());
        wires.removeIf(w -> w.name().equals("a"));
        wires.add(wire("in", "main.1", "u1.in"));
        wires.add(wire("out", "u1.out", "fan.plus"));
        wires.add(wire("ground", "u1.ground", "main.GND"));
        Wiring converted = sound.withParts(parts, wires);
        OperatingPoint point = nominal(converted, false);
        assertThat(point.voltage("u1.out", "u1.ground")).isCloseTo(5, within(0.01));
        double drawn = -point.current(CircuitOfWiring.rail(converted.boards().getFirst(), "supply"));
        assertThat(drawn).isCloseTo(0.0443, within(0.0443 * 0.02));
        assertThat(WiringCheck.check(converted, Optional.empty()).findings()).isEmpty();
    }
}
