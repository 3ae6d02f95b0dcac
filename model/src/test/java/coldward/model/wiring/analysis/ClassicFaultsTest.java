package coldward.model.wiring.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.wiring.Board;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.ContactNames;
import coldward.model.wiring.ContactNames.BenchTest;
import coldward.model.wiring.Input;
import coldward.model.wiring.Part;
import coldward.model.wiring.Wire;
import coldward.model.wiring.Wiring;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The classic faults, each beside its mended twin: found with its code, and no error where it is mended. */
class ClassicFaultsTest {

    private static final Pulses PULSES = new Pulses(2 * 8000 * 1.1 / 60, 0.5);

    private record Fault(String name, Consumer<Bench> fault, Consumer<Bench> mended, List<FindingCode> codes) {
        Fault(String name, Consumer<Bench> fault, Consumer<Bench> mended, FindingCode... codes) {
            this(name, fault, mended, List.of(codes));
        }
    }

    private static final List<Fault> FAULTS = List.of(
            new Fault(
                    "no diode",
                    b -> b.diode = Optional.empty(),
                    _ -> {},
                    FindingCode.BACK_FEED,
                    FindingCode.FAN_KEEPS_TURNING,
                    FindingCode.CURRENT_INTO_INPUT),
            new Fault(
                    "no diode, the fan only creeps",
                    b -> {
                        b.diode = Optional.empty();
                        b.input = Bench.tolerant(OptionalDouble.empty());
                        b.pullUp = OptionalDouble.of(2200);
                    },
                    b -> {
                        b.input = Bench.tolerant(OptionalDouble.empty());
                        b.pullUp = OptionalDouble.of(2200);
                    },
                    FindingCode.BACK_FEED,
                    FindingCode.FAN_CREEPS),
            new Fault("diode reversed", b -> b.diodeTurned = true, _ -> {}, FindingCode.DIODE_REVERSED),
            new Fault(
                    "silicon diode into a TTL-level input",
                    b -> {
                        b.input = Bench.ttl();
                        b.pullUp = OptionalDouble.of(2200);
                        b.diode = Optional.of(Bench.SILICON);
                    },
                    b -> {
                        b.input = Bench.ttl();
                        b.pullUp = OptionalDouble.of(2200);
                    },
                    FindingCode.LOW_LEVEL_TOO_HIGH),
            new Fault(
                    "leaky power Schottky in a hot chamber",
                    b -> {
                        b.diode = Optional.of(Bench.POWER_SCHOTTKY);
                        b.hottest = 70;
                    },
                    b -> b.hottest = 60,
                    FindingCode.DIODE_LEAKS),
            new Fault(
                    "pull-up to 24 V into a 3.3 V input",
                    b -> {
                        b.pullUp = OptionalDouble.of(2700);
                        b.pullUpTo = "V";
                    },
                    b -> b.pullUp = OptionalDouble.of(10_000),
                    FindingCode.CURRENT_INTO_INPUT,
                    FindingCode.INPUT_VOLTAGE_TOO_HIGH),
            new Fault(
                    "pull-up to 5 V into a pin that is not 5 V-tolerant",
                    b -> {
                        b.pullUp = OptionalDouble.of(4700);
                        b.pullUpTo = "5V";
                    },
                    b -> b.pullUp = OptionalDouble.of(4700),
                    FindingCode.INPUT_VOLTAGE_TOO_HIGH),
            new Fault(
                    "internal pull-up on in a tolerant pin",
                    b -> {
                        b.input = Bench.tolerant(OptionalDouble.of(40e3));
                        b.pullUp = OptionalDouble.of(10_000);
                        b.pullUpTo = "5V";
                    },
                    b -> {
                        b.input = Bench.tolerant(OptionalDouble.empty());
                        b.pullUp = OptionalDouble.of(4_700);
                        b.pullUpTo = "5V";
                    },
                    FindingCode.TOLERANT_INPUT_WITH_PULL_UP),
            new Fault(
                    "24 V on a 5 V fan",
                    b -> b.fan = Bench.fan(5, 4.5, 5.5, 0.17, 0.446, 3.5),
                    _ -> {},
                    FindingCode.RAIL_ABOVE_FAN),
            new Fault("5 V on a 24 V fan", b -> b.railVolts = 5, _ -> {}, FindingCode.RAIL_BELOW_FAN),
            new Fault(
                    "thin long wire at 5 V and starting current",
                    b -> {
                        fiveVolts(b);
                        b.gauge = 34;
                        b.length = 2.5;
                    },
                    ClassicFaultsTest::fiveVolts,
                    FindingCode.TOO_LITTLE_TO_START),
            new Fault("overloaded rail", b -> b.railLimit = 3.1, b -> b.railLimit = 3.3, FindingCode.RAIL_OVERLOADED),
            new Fault(
                    "contact over its rating",
                    b -> {
                        b.fan = Bench.fan(24, 20.4, 27.6, 1.3, 1.8, 12);
                        b.rating = 1;
                    },
                    b -> b.fan = Bench.fan(24, 20.4, 27.6, 1.3, 1.8, 12),
                    FindingCode.CONTACT_OVERLOADED),
            new Fault(
                    "supply chopped at 25 kHz on a three-wire fan",
                    b -> b.chopped = OptionalDouble.of(25_000),
                    _ -> {},
                    FindingCode.SUPPLY_CHOPPED_FAST),
            new Fault(
                    "contact names that disagree",
                    b -> b.names.add(names(Optional.empty())),
                    b -> b.names.add(
                            names(Optional.of(new BenchTest("switched port by port", "fan", Optional.empty())))),
                    FindingCode.NAMES_DISAGREE),
            new Fault(
                    "RC filter too slow for the top speed",
                    b -> b.filter = Optional.of(new Part.Filter("rc", 1000, 100e-9)),
                    b -> b.filter = Optional.of(new Part.Filter("rc", 1000, 4.7e-9)),
                    FindingCode.EDGE_TOO_SLOW),
            new Fault(
                    "nothing pulls up",
                    b -> b.input = Bench.ttl(),
                    b -> {
                        b.input = Bench.ttl();
                        b.pullUp = OptionalDouble.of(10_000);
                    },
                    FindingCode.NOTHING_PULLS_UP),
            new Fault("input not free", b -> b.input = taken(b.input), _ -> {}, FindingCode.INPUT_NOT_FREE));

    private static void fiveVolts(Bench b) {
        b.railVolts = 5;
        b.fan = Bench.fan(5, 4.5, 5.5, 0.17, 0.446, 3.5);
        b.gauge = 24;
        b.length = 0.5;
    }

    private static ContactNames names(Optional<BenchTest> test) {
        return new ContactNames(
                new ContactId("main", "1"), Optional.of("FAN 1"), Optional.of("fan0"), Optional.empty(), test);
    }

    private static Input taken(Input i) {
        return new Input(
                i.name(),
                i.contact(),
                i.rail(),
                i.lowBelow(),
                i.highAbove(),
                i.pullUp(),
                i.pullUpTolerance(),
                i.toleratedUpTo(),
                i.injectionUp(),
                i.injectionDown(),
                i.leakage(),
                i.capacitance(),
                Optional.of("a door switch"));
    }

    /** The codes that are provoked here. */
    static Set<FindingCode> provoked() {
        Set<FindingCode> codes = EnumSet.of(FindingCode.PLUG_ORDER, FindingCode.CONTACT_USED_TWICE);
        FAULTS.forEach(f -> codes.addAll(f.codes()));
        return codes;
    }

    private static WiringReport check(Consumer<Bench> change) {
        Bench bench = new Bench();
        change.accept(bench);
        return WiringCheck.check(bench.wiring(), Optional.of(PULSES));
    }

    private static Set<FindingCode> errors(WiringReport report) {
        return report.findings().stream()
                .filter(f -> f.severity() == Severity.ERROR)
                .map(Finding::code)
                .collect(Collectors.toSet());
    }

    @TestFactory
    Stream<DynamicTest> eachIsFoundAndItsMendedTwinIsQuiet() {
        return FAULTS.stream()
                .map(f -> DynamicTest.dynamicTest(f.name(), () -> {
                    WiringReport faulty = check(f.fault());
                    assertThat(faulty.findings().stream().map(Finding::code).toList())
                            .as("%s", faulty.findings())
                            .containsAll(f.codes());
                    WiringReport mended = check(f.mended());
                    assertThat(errors(mended)).as("%s", mended.findings()).isEmpty();
                    assertThat(mended.findings().stream().map(Finding::code)).doesNotContainAnyElementsOf(f.codes());
                }));
    }

    @Test
    void plusAndSignalFirst() {
        // without its diode, so that only the order of contacts stands between the rail and the pin
        Consumer<Bench> bare = b -> {
            b.diode = Optional.empty();
            b.switching = coldward.model.wiring.Port.Switching.FIXED;
        };
        WiringReport faulty = check(bare.andThen(b -> b.first = Optional.empty()));
        assertThat(faulty.findings().getFirst().code()).isEqualTo(FindingCode.PLUG_ORDER);
        assertThat(errors(faulty)).isEmpty();
        WiringReport mended = check(bare);
        assertThat(mended.findings()).isEmpty();
        assertThat(check(b -> b.first = Optional.empty()).findings()).isEmpty();
    }

    @Test
    void oneContactUsedTwice() {
        Wiring sound = new Bench().wiring();
        List<Wire> wires = new ArrayList<>(sound.wires());
        wires.add(new Wire(
                "second",
                ContactId.parse("fan.plus"),
                ContactId.parse("main.V"),
                Wire.diameterOfGauge(26),
                1,
                0,
                Optional.empty()));
        WiringReport crimped = WiringCheck.check(sound.withParts(sound.parts(), wires), Optional.of(PULSES));
        assertThat(errors(crimped)).containsExactly(FindingCode.CONTACT_USED_TWICE);
        Board board = sound.boards().getFirst();
        Board twice = new Board(board.name(), board.rails(), board.ports(), board.inputs(), List.of("GND", "2"));
        WiringReport described = WiringCheck.check(
                new Wiring(
                        sound.coldest(),
                        sound.hottest(),
                        List.of(twice),
                        sound.fan(),
                        sound.parts(),
                        sound.wires(),
                        sound.connectors(),
                        sound.names()),
                Optional.of(PULSES));
        assertThat(errors(described)).contains(FindingCode.CONTACT_USED_TWICE);
    }

    @Test
    void theSoundWiringHasNoFindingAndItsNumbersStand() {
        WiringReport report = check(_ -> {});
        assertThat(report.findings()).isEmpty();
        assertThat(report.states()).hasSize(54);
        assertThat(report.edges()).isNotEmpty().allMatch(e -> e.time() < e.limit());
        assertThat(report.states()).allMatch(s -> s.residual() < 1e-9);
    }

    /** Processor time, not the clock: what other work the machine has is not the check's. */
    @Test
    void aFullCheckTakesLessThanFiftyMilliseconds() {
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        Wiring wiring = new Bench().wiring();
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 40; i++) {
            long before = threads.getCurrentThreadCpuTime();
            assertThat(WiringCheck.check(wiring, Optional.of(PULSES)).solves()).isPositive();
            least = Math.min(least, threads.getCurrentThreadCpuTime() - before);
        }
        assertThat(least / 1e6).as("ms").isLessThan(50);
    }

    @Test
    void aCodeIsNeverUsedTwice() {
        assertThat(Stream.of(FindingCode.values()).map(FindingCode::code))
                .doesNotHaveDuplicates()
                .allMatch(c -> c.matches("W[1-9]\\d\\d"));
        assertThat(Stream.of(FindingCode.values()).map(FindingCode::title)).doesNotHaveDuplicates();
    }
}
