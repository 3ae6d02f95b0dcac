package coldward.figures;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.quantity.InputError;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LayoutPartsTest {

    @Test
    void spreadThingsDoNotTouchAndStayWithin() {
        Random random = new Random(17);
        for (int i = 0; i < 2000; i++) {
            int n = 1 + random.nextInt(8);
            double[] wanted = random.doubles(n, -50, 450).sorted().toArray();
            double[] sizes = random.doubles(n, 5, 40).toArray();
            double[] centres = Spread.along(wanted, sizes, 4, 0, 400);
            for (int k = 0; k < n; k++) {
                assertThat(centres[k] - sizes[k] / 2).isGreaterThanOrEqualTo(-1e-9);
                assertThat(centres[k] + sizes[k] / 2).isLessThanOrEqualTo(400 + 1e-9);
                if (k > 0) {
                    assertThat(centres[k] - sizes[k] / 2 - centres[k - 1] - sizes[k - 1] / 2)
                            .isGreaterThanOrEqualTo(4 - 1e-9);
                }
            }
        }
    }

    @Test
    void spreadThingsMoveNoFurtherThanNeeded() {
        assertThat(Spread.along(new double[] {10, 100}, new double[] {20, 20}, 5, 0, 200))
                .containsExactly(10, 100);
        // two at one place part evenly, three around the middle one
        assertThat(Spread.along(new double[] {50, 50}, new double[] {20, 20}, 0, 0, 200))
                .containsExactly(40, 60);
        assertThat(Spread.along(new double[] {50, 50, 50}, new double[] {20, 20, 20}, 0, 0, 200))
                .containsExactly(30, 50, 70);
        assertThat(Spread.along(new double[] {0}, new double[] {20}, 0, 0, 200)).containsExactly(10);
    }

    @Test
    void ticksAreRoundNumbers() {
        Scale scale = new Scale(0, 107, 0, 1);
        assertThat(scale.ticks(9)).containsExactly(0.0, 20.0, 40.0, 60.0, 80.0, 100.0);
        assertThat(scale.label(20, 9)).isEqualTo("20");
        Scale small = new Scale(-0.1, 0.5, 0, 1);
        assertThat(small.ticks(6)).hasSize(7);
        assertThat(small.label(0.30000000000000004, 6)).isEqualTo("0.3");
        assertThat(small.label(1e-18, 6)).isEqualTo("0");
        assertThatThrownBy(() -> new Scale(3, 3, 0, 1)).isInstanceOf(InputError.class);
        Random random = new Random(2);
        for (int i = 0; i < 1000; i++) {
            double span = Math.pow(10, 8 * random.nextDouble() - 4);
            int most = 3 + random.nextInt(10);
            assertThat(new Scale(0, span, 0, 1).ticks(most)).hasSizeBetween(2, most + 1);
        }
    }

    @Test
    void linesAreBrokenWhereTheyFit() {
        assertThat(Letters.wrap("[hold, heater-off, block-fan]", 11, false, 80, 6))
                .containsExactly("[hold,", "heater-off,", "block-fan]");
        assertThat(Letters.wrap("a\u00a0b", 10, false, 100, 1)).containsExactly("a\u00a0b");
        List<String> cut = Letters.wrap("wren ".repeat(40), 20, true, 200, 2);
        assertThat(cut).hasSize(2);
        assertThat(cut.getLast()).endsWith("\u2026");
        assertThat(cut)
                .allSatisfy(line -> assertThat(Letters.width(line, 20, true)).isLessThanOrEqualTo(200));
        List<String> balanced = Letters.balanced("one two three four five six seven eight nine ten", 10, 150, 6);
        double[] widths = balanced.stream()
                .mapToDouble(line -> Letters.width(line, 10, false))
                .toArray();
        assertThat(Arrays.stream(widths).max().orElseThrow())
                .isCloseTo(Arrays.stream(widths).min().orElseThrow(), within(35.0));
    }

    @Test
    void durationsCarryTheirUnit() {
        assertThat(RaceScene.seconds(0.434)).isEqualTo("0.43 s");
        assertThat(RaceScene.seconds(5.86)).isEqualTo("5.9 s");
        assertThat(RaceScene.seconds(41.4)).isEqualTo("41 s");
        assertThat(RaceScene.seconds(2)).isEqualTo("2 s");
        assertThat(RaceScene.seconds(1800)).isEqualTo("1800 s");
    }
}
