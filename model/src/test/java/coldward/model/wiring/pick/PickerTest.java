package coldward.model.wiring.pick;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Bench;
import coldward.model.wiring.analysis.FindingCode;
import coldward.model.wiring.analysis.WiringCheck;
import coldward.quantity.InputError;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** The window of a TTL-level input: the trade's rule is a small Schottky and a pull-up of some kilohms. */
class PickerTest {

    private static Wiring ttl() {
        Bench bench = new Bench();
        bench.input = Bench.ttl();
        bench.pullUp = OptionalDouble.of(10_000);
        return bench.wiring();
    }

    @Test
    void theWindowIsBoundedOnBothSidesAndTheBestLiesInIt() {
        PickMap map = Picker.map(
                ttl(),
                "r1",
                "d1",
                List.of(Bench.SMALL_SCHOTTKY, Bench.SILICON, Bench.POWER_SCHOTTKY),
                List.of(220.0, 680.0, 1000.0, 2200.0, 4700.0, 10_000.0, 47_000.0, 220e3, 4.7e6),
                Optional.empty());
        List<Double> schottky = map.window(Bench.SMALL_SCHOTTKY);
        List<Double> silicon = map.window(Bench.SILICON);
        assertThat(schottky).contains(4700.0, 10_000.0).doesNotContain(220.0, 4.7e6);
        // silicon leaves less room at the low level: its window begins at a weaker pull-up
        assertThat(silicon.getFirst()).isGreaterThan(schottky.getFirst());
        // a leaky part only with a strong pull-up, if at all
        assertThat(map.window(Bench.POWER_SCHOTTKY)).doesNotContain(10_000.0);
        PickMap.Cell best = map.best().orElseThrow();
        assertThat(best.allowed()).isTrue();
        assertThat(map.cells()).filteredOn(PickMap.Cell::allowed).allMatch(c -> c.margin() <= best.margin());
        assertThat(best.diode()).isEqualTo(Bench.SMALL_SCHOTTKY);
    }

    @Test
    void aForbiddenPairSaysWhyAndTheCheckOfTheWiringAgrees() {
        PickMap map = Picker.map(ttl(), "r1", "d1", List.of(Bench.SILICON), List.of(680.0, 10_000.0), Optional.empty());
        assertThat(map.cells().getFirst().errors()).contains(FindingCode.LOW_LEVEL_TOO_HIGH);
        assertThat(map.cells().getFirst().margin()).isNegative();
        Bench bench = new Bench();
        bench.input = Bench.ttl();
        bench.pullUp = OptionalDouble.of(10_000);
        bench.diode = Optional.of(Bench.SILICON);
        assertThat(WiringCheck.check(bench.wiring(), Optional.empty()).hasErrors())
                .isEqualTo(!map.cells().getLast().allowed());
    }

    @Test
    void partsMustBeThere() {
        assertThatThrownBy(() -> Picker.map(ttl(), "r9", "d1", List.of(), List.of(), Optional.empty()))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("r9");
    }

    @Test
    void seriesCoverDecades() {
        assertThat(Series.E12.between(1000, 10_000))
                .hasSize(13)
                .startsWith(1000.0, 1200.0)
                .endsWith(8200.0, 10_000.0);
        assertThat(Series.E24.between(4600, 4800)).containsExactly(4700.0);
    }
}
