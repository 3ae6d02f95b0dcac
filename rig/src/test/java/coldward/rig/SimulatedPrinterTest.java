package coldward.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.quantity.InputError;
import coldward.rig.SimulatedPrinter.Start;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class SimulatedPrinterTest {

    private static final Race RACE = new Race(Examples.hotEnd());

    @ParameterizedTest
    @CsvSource({"PRINTING, PRINTING", "HOT_IDLE, HOT_IDLE"})
    void isSteadyAtItsStart(Start start, Regime regime) {
        SimulatedPrinter printer = Examples.printer(start);
        Shown first = printer.shown();
        assertThat(first.speed().orElseThrow()).isCloseTo(8000, within(150.0));
        assertThat(first.report()).isEqualTo(1);
        assertThat(first.commandedShare()).isEqualTo(1);
        assertThat(first.feeding()).isEqualTo(start == Start.PRINTING);

        printer.advance(60);

        Truth truth = printer.truth();
        assertThat(truth.throat()).isCloseTo(RACE.standing(regime).throat(), within(0.5));
        assertThat(truth.sink()).isCloseTo(RACE.standing(regime).sink(), within(0.5));
        assertThat(truth.block()).isCloseTo(235 + 273.15, within(0.2));
        assertThat(truth.speed()).isCloseTo(8000, within(200.0));
        Shown shown = printer.shown();
        assertThat(shown.heaterPower()).isCloseTo(RACE.standing(regime).heaterPower(), within(0.5));
        assertThat(shown.report()).isEqualTo(61);
        assertThat(truth.sinceFailure()).isEmpty();
    }

    @Test
    void acoldPrinterHeatsUpAndItsFanComesOnByItself() {
        SimulatedPrinter printer = Examples.printer(Start.COLD);
        printer.advance(5);
        assertThat(printer.shown().speed().orElseThrow()).isZero();
        assertThat(printer.shown().commandedShare()).isZero();
        assertThat(printer.shown().nozzle()).isCloseTo(298.15, within(0.1));

        printer.work(235 + 273.15, true);
        printer.advance(2);
        assertThat(printer.shown().feeding()).as("too cold to feed").isFalse();
        assertThat(printer.shown().heaterPower()).isCloseTo(50, within(0.01));
        printer.advance(300);
        assertThat(printer.shown().feeding()).isTrue();
        assertThat(printer.shown().nozzle()).isCloseTo(235 + 273.15, within(1.0));
        assertThat(printer.shown().speed().orElseThrow()).isCloseTo(8000, within(200.0));
    }

    @Test
    void sameSeedSameNumbersAnotherSeedOthers() {
        assertThat(reports(7)).isEqualTo(reports(7));
        assertThat(reports(7)).isNotEqualTo(reports(8));
    }

    private static List<Double> reports(long seed) {
        SimulatedPrinter printer =
                SimulatedPrinter.of("heron", Examples.build(Examples.TACHOMETER), Start.PRINTING, Traits.USUAL, seed);
        return java.util.stream.IntStream.range(0, 30)
                .mapToObj(i -> {
                    printer.advance(1);
                    return printer.shown().speed().orElseThrow();
                })
                .toList();
    }

    @Test
    void thereportDoesNotDependOnHowTimeIsCut() {
        SimulatedPrinter once = Examples.printer(Start.PRINTING);
        SimulatedPrinter often = Examples.printer(Start.PRINTING);
        for (int i = 1; i <= 20; i++) {
            once.advance(1);
            for (int k = 0; k < 8; k++) {
                often.advance(0.125);
            }
            assertThat(often.shown().report()).isEqualTo(once.shown().report());
            // whole pulses: a rounding may move one from report to report
            assertThat(often.shown().speed().orElseThrow())
                    .isCloseTo(once.shown().speed().orElseThrow(), within(30.01));
        }
    }

    @Test
    void areportIsTheMeanOverItsInterval() {
        SimulatedPrinter printer = SimulatedPrinter.of(
                "heron", Examples.build(Examples.TACHOMETER), Start.PRINTING, Traits.USUAL.calm(), 1);
        printer.advance(0.5);
        printer.fail(new Failure.Stop());
        printer.advance(0.5);
        // half a second at 8000, half a second of tau ln(1 + t/tau), in pulses of 30 rpm
        double mean = 8000 * (0.5 + 0.8 * Math.log(1 + 0.5 / 0.8));
        assertThat(printer.shown().speed().orElseThrow()).isCloseTo(mean, within(45.0));
    }

    @Test
    void astoppedFanSoftensWhenTheRaceSays() {
        for (Start start : List.of(Start.PRINTING, Start.HOT_IDLE)) {
            Regime regime = start == Start.PRINTING ? Regime.PRINTING : Regime.HOT_IDLE;
            SimulatedPrinter printer = Examples.printer(start);
            printer.advance(3);
            printer.fail(new Failure.Stop());
            double softened = 0;
            while (printer.truth().deepest() <= printer.truth().limit() && softened < 400) {
                printer.advance(0.25);
                softened += 0.25;
            }
            double predicted = RACE.softens(regime).orElseThrow();
            assertThat(softened).isCloseTo(predicted, within(Math.max(2, 0.05 * predicted)));
            assertThat(printer.truth().sinceFailure()).isEqualTo(OptionalLong.of(Math.round(softened * 1e9)));
        }
    }

    @Test
    void aresponseBeforeTheDeadlineSavesAndOneAfterItDoesNot() {
        Deadline deadline =
                RACE.deadline(Regime.PRINTING, EnumSet.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN));
        double until = ((Deadline.Until) deadline).seconds();
        assertThat(afterActingAt(until - 8).kept()).isTrue();
        assertThat(afterActingAt(until + 8).kept()).isFalse();
    }

    /** All three actions in effect so many seconds after the stop, then a quarter of an hour from the record. */
    private static Aftermath afterActingAt(double seconds) {
        SimulatedPrinter printer = Examples.printer(Start.PRINTING);
        printer.advance(2);
        printer.fail(new Failure.Stop());
        printer.advance(seconds - 2.0);
        printer.act(Action.HOLD);
        printer.act(Action.HEATER_OFF);
        printer.act(Action.BLOCK_FAN);
        printer.advance(0.1);
        PrinterRecord sent = PrinterRecord.ofJson(printer.record().toJson());
        return Aftermath.of(printer.build(), sent, 900);
    }

    @Test
    void actionsTakeTheirLatency() {
        SimulatedPrinter printer = Examples.printer(Start.PRINTING);
        printer.advance(1.3);
        PrinterRecord.Asked hold = printer.act(Action.HOLD);
        printer.act(Action.HEATER_OFF);
        printer.act(Action.BLOCK_FAN);
        assertThat(hold.asked()).isEqualTo(1_300_000_000L);
        assertThat(hold.effective()).isEqualTo(3_300_000_000L);

        printer.advance(0.29);
        assertThat(printer.shown().blockFanShare()).isZero();
        printer.advance(0.01);
        assertThat(printer.shown().blockFanShare()).isEqualTo(1);
        printer.advance(0.19);
        assertThat(printer.shown().nozzleTarget()).isEqualTo(235 + 273.15);
        printer.advance(0.01);
        assertThat(printer.shown().nozzleTarget()).isZero();
        assertThat(printer.shown().heaterPower()).isZero();
        printer.advance(1.49);
        assertThat(printer.shown().feeding()).isTrue();
        assertThat(printer.act(Action.HOLD)).as("asked again").isEqualTo(hold);
        printer.advance(0.01);
        assertThat(printer.shown().feeding()).isFalse();

        printer.work(235 + 273.15, true);
        assertThat(printer.truth().actions()).isEmpty();
        assertThat(printer.shown().feeding()).isTrue();
        assertThat(printer.shown().blockFanShare()).isZero();
    }

    @Test
    void powerOffStopsEverything() {
        SimulatedPrinter printer = Examples.printer(Start.PRINTING);
        printer.act(Action.BLOCK_FAN);
        printer.advance(1);
        printer.act(Action.POWER_OFF);
        printer.advance(30);
        Shown shown = printer.shown();
        assertThat(shown.powered()).isFalse();
        assertThat(shown.feeding()).isFalse();
        assertThat(shown.blockFanShare()).isZero();
        assertThat(shown.nozzleTarget()).isZero();
        assertThat(shown.commandedShare()).isZero();
        assertThat(shown.speed().orElseThrow()).isLessThan(400);
        printer.work(0, false);
        printer.advance(5);
        assertThat(printer.shown().powered()).isTrue();
        assertThat(printer.shown().speed().orElseThrow()).as("still hot").isGreaterThan(7500);
    }

    @Test
    void acutSignalReadsZeroWithTheFanFine() {
        SimulatedPrinter printer = Examples.printer(Start.PRINTING);
        printer.fail(new Failure.CutSignal());
        printer.advance(3);
        assertThat(printer.shown().speed().orElseThrow()).isZero();
        assertThat(printer.truth().speed()).isCloseTo(8000, within(200.0));
        assertThat(printer.truth().sinceFailure()).hasValue(3_000_000_000L);
        printer.advance(600);
        assertThat(printer.truth().deepest()).isLessThan(printer.truth().limit());
        printer.mend();
        printer.advance(2);
        assertThat(printer.shown().speed().orElseThrow()).isGreaterThan(7500);
        assertThat(printer.truth().sinceFailure()).isEmpty();
    }

    @Test
    void astuckReadingStaysWhateverTheFanDoes() {
        SimulatedPrinter printer = Examples.printer(Start.PRINTING);
        printer.advance(10);
        double last = printer.shown().speed().orElseThrow();
        printer.fail(new Failure.StuckReading());
        printer.fail(new Failure.Stop());
        printer.advance(30);
        assertThat(printer.shown().speed().orElseThrow()).isEqualTo(last);
        assertThat(printer.shown().report())
                .as("the machine thinks it is measuring")
                .isEqualTo(41);
        assertThat(printer.truth().speed()).isLessThan(250);
        assertThat(printer.shown().coldSide())
                .isGreaterThan(RACE.standing(Regime.PRINTING).sink() + 5);
    }

    @Test
    void slowAndFadeShowInTheReports() {
        SimulatedPrinter slow = Examples.printer(Start.PRINTING);
        slow.fail(new Failure.Slow(0.3));
        slow.advance(2);
        assertThat(slow.shown().speed().orElseThrow()).isCloseTo(2400, within(90.0));

        SimulatedPrinter fade = Examples.printer(Start.PRINTING);
        fade.fail(new Failure.Fade(100));
        fade.advance(50.5);
        assertThat(fade.shown().speed().orElseThrow()).isCloseTo(4040, within(150.0));
        fade.advance(60);
        assertThat(fade.shown().speed().orElseThrow()).isZero();
    }

    @Test
    void aprinterWithoutASignalShowsNoSpeed() {
        SimulatedPrinter printer =
                SimulatedPrinter.of("heron", Examples.build(new Reading.None()), Start.PRINTING, Traits.USUAL, 1);
        printer.advance(5);
        assertThat(printer.shown().speed()).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(Start.class)
    void arecordGoesOnAsThePrinterItselfWould(Start start) {
        Build build = Examples.build(Examples.TACHOMETER);
        SimulatedPrinter printer = Examples.printer(start);
        printer.advance(7.3);
        printer.fail(new Failure.Fade(40));
        printer.fail(new Failure.CutSignal());
        printer.advance(5.1);
        printer.act(Action.HOLD);
        printer.act(Action.HEATER_OFF);
        printer.advance(0.7);

        PrinterRecord record = PrinterRecord.ofJson(printer.record().toJson());
        assertThat(record).isEqualTo(printer.record());
        SimulatedPrinter twin = SimulatedPrinter.restored(build, record, Traits.USUAL, 7);
        assertThat(twin.truth()).isEqualTo(printer.truth());
        for (int i = 0; i < 40; i++) {
            printer.advance(1.3);
            twin.advance(1.3);
            assertThat(twin.shown().speed()).isEqualTo(printer.shown().speed());
            assertThat(twin.truth().throat()).isCloseTo(printer.truth().throat(), within(1e-6));
            assertThat(twin.truth().deepest()).isCloseTo(printer.truth().deepest(), within(1e-9));
        }
    }

    @Test
    void recordsThatAreNoneAreRefused() {
        var json = Examples.printer(Start.PRINTING).record().toJson();
        ((tools.jackson.databind.node.ObjectNode) json).remove("heat");
        assertThatThrownBy(() -> PrinterRecord.ofJson(json))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("record");
    }

    @Test
    void aquarterOfAnHourIsComputedInAMoment() {
        SimulatedPrinter printer = Examples.printer(Start.PRINTING);
        printer.fail(new Failure.Stop());
        printer.act(Action.HEATER_OFF);
        long before = System.nanoTime();
        printer.advance(900);
        assertThat((System.nanoTime() - before) / 1e9).as("seconds").isLessThan(5);
    }
}
