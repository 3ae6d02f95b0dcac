package coldward.model.wiring.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.wiring.ContactId;
import coldward.model.wiring.ContactNames;
import coldward.model.wiring.ContactNames.BenchTest;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Input;
import coldward.model.wiring.OpenCollector;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The codes beyond the classic faults, each provoked beside a mended twin that has no finding at all. */
class FindingCodesTest {

    private static final Pulses PULSES = new Pulses(2 * 8000 * 1.1 / 60, 0.5);

    private record Case(FindingCode code, Consumer<Bench> fault, Consumer<Bench> mended) {}

    private static final List<Case> CASES = List.of(
            // (3.4 V - 0.9 V)/330 ohm is above the 5 mA of the stage
            new Case(FindingCode.STAGE_CURRENT_TOO_HIGH, b -> pulled(b, 330), b -> pulled(b, 10e3)),
            new Case(FindingCode.STAGE_VOLTAGE_TOO_HIGH, b -> stage(b, 2.5), b -> stage(b, 30)),
            // logic at 5 V takes a level for high from 0.7 x 5 V; a pull-up to 3.3 V does not get there
            new Case(FindingCode.HIGH_LEVEL_TOO_LOW, b -> fiveVolts(b, "3V3"), b -> fiveVolts(b, "5V")),
            // 0.75 V in the middle of the last 0.1 V under a low threshold of 0.8 V
            new Case(FindingCode.MARGIN_THIN, b -> pulled(b, 900), b -> pulled(b, 10e3)),
            // the minus of the switched-off fan floats to the rail, 25.2 V at most
            new Case(FindingCode.DIODE_VOLTAGE_TOO_HIGH, b -> diode(b, 20, 0.2), b -> diode(b, 30, 0.2)),
            // 3.3 V through 40 kohm is some 80 uA
            new Case(FindingCode.DIODE_CURRENT_TOO_HIGH, b -> diode(b, 30, 30e-6), b -> diode(b, 30, 0.2)),
            // 12 m of 36 AWG, 1.36 ohm/m, keep 3 V of 22.8 V at the starting current: below 20.4 V, above 12 V
            new Case(
                    FindingCode.DROP_TOO_LARGE,
                    b -> {
                        b.gauge = 36;
                        b.length = 6;
                    },
                    _ -> {}),
            // 2.2 A at 24 V is 2.3 A at 25.2 V; the port gives 2 A
            new Case(FindingCode.PORT_OVERLOADED, b -> starting(b, 2.2), b -> starting(b, 1.8)),
            new Case(FindingCode.SUPPLY_CHOPPED, b -> b.chopped = OptionalDouble.of(100), _ -> {}),
            new Case(FindingCode.NAMES_SETTLED, b -> b.names.add(names("fan0")), b -> b.names.add(names("FAN 1"))));

    private static void pulled(Bench b, double ohm) {
        b.input = Bench.ttl();
        b.pullUp = OptionalDouble.of(ohm);
    }

    private static void fiveVolts(Bench b, String pulledTo) {
        b.input = new Input(
                "tach", "3", "5V", 1.5, 3.5, OptionalDouble.empty(), 0, 5.5, 5e-3, 5e-3, 1e-6, 5e-12, Optional.empty());
        b.pullUp = OptionalDouble.of(10e3);
        b.pullUpTo = pulledTo;
    }

    private static void stage(Bench b, double limit) {
        WiredFan f = b.fan;
        b.fan = new WiredFan(
                f.ratedVoltage(),
                f.lowestVoltage(),
                f.highestVoltage(),
                f.runningCurrent(),
                f.startingCurrent(),
                f.startVoltage(),
                f.leads(),
                f.third(),
                Optional.of(new OpenCollector(0.6, 5e-3, 0.1, 5e-3, limit, 1e-6)));
    }

    private static void diode(Bench b, double volts, double amperes) {
        b.diode = Optional.of(new DiodeClass(
                "small-signal Schottky", 1.185e-8, 1.052, 3.69, 0.69, 2, 2e-6, 0.5, 10, volts, amperes, "invented"));
    }

    private static void starting(Bench b, double amperes) {
        b.fan = Bench.fan(24, 20.4, 27.6, 1.3, amperes, 12);
    }

    private static ContactNames names(String inDrawing) {
        return new ContactNames(
                new ContactId("main", "1"),
                Optional.of("FAN 1"),
                Optional.of(inDrawing),
                Optional.empty(),
                Optional.of(new BenchTest("switched port by port", "fan", Optional.empty())));
    }

    private static List<FindingCode> found(Wiring wiring) {
        return WiringCheck.check(wiring, Optional.of(PULSES)).findings().stream()
                .map(Finding::code)
                .toList();
    }

    private static Wiring changed(Consumer<Bench> change) {
        Bench bench = new Bench();
        change.accept(bench);
        return bench.wiring();
    }

    @TestFactory
    Stream<DynamicTest> eachIsProvokedAndItsMendedTwinHasNone() {
        return CASES.stream()
                .map(c -> DynamicTest.dynamicTest(c.code().title(), () -> {
                    assertThat(found(changed(c.fault()))).contains(c.code());
                    assertThat(found(changed(c.mended()))).isEmpty();
                }));
    }

    @Test
    void aThirdWireThatLeadsNowhereIsFound() {
        Wiring sound = new Bench().wiring();
        Wiring cut = sound.withParts(
                sound.parts(),
                sound.wires().stream()
                        .filter(w -> !w.from().equals(WiredFan.THIRD) && !w.to().equals(WiredFan.THIRD))
                        .toList());
        assertThat(found(cut)).contains(FindingCode.NOT_CONNECTED);
        assertThat(found(sound)).isEmpty();
    }

    /**
     * W901 says that the solver gave up; no wiring was searched for on which it does, but a failure must have a code.
     */
    @Test
    void everyCodeButThatOfAnUnsolvedCircuitIsProvoked() {
        Set<FindingCode> provoked = EnumSet.copyOf(ClassicFaultsTest.provoked());
        CASES.forEach(c -> provoked.add(c.code()));
        provoked.add(FindingCode.NOT_CONNECTED);
        assertThat(EnumSet.complementOf(EnumSet.copyOf(provoked))).containsExactly(FindingCode.NOT_SOLVED);
    }
}
