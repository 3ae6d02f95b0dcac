package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** One contract for every exact problem: halving the cells brings the model to the closed form at the stated order. */
class ExactProblemsTest {

    static Stream<ExactProblem> problems() {
        return Stream.of(
                new TwoPartFin(false),
                new TwoPartFin(true),
                new FilamentBetweenTwoWalls(0),
                new FilamentBetweenTwoWalls(1e-9),
                new FilamentBetweenTwoWalls(2e-9),
                new WallWarming(0.3),
                new WallWarming(5),
                StepAtTheBlock.of("H-ADV-OB-1"),
                StepAtTheBlock.of("H-ADV-OB-2"),
                StepAtTheBlock.of("H-ADV-OB-3"),
                StepAtTheBlock.of("H-ADV-OB-4"));
    }

    @ParameterizedTest
    @MethodSource("problems")
    void convergesAtItsOrder(ExactProblem problem) {
        double exact = problem.exact();
        double[] error = Stream.of(1.0, 2.0, 4.0, 8.0)
                .mapToDouble(refinement -> Math.abs(problem.computed(refinement) / exact - 1))
                .toArray();
        double order = Math.log(error[2] / error[3]) / Math.log(2);
        assertThat(error[0])
                .as("%s: relative error on the usual grid", problem.name())
                .isLessThan(0.06);
        assertThat(order)
                .as("%s: errors %s", problem.name(), Arrays.toString(error))
                .isCloseTo(problem.order(), within(0.2));
    }

    /** The whole hot end has no closed form; it must come to rest at the same order by itself. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 5e-9})
    void theWholeHotEndConvergesByItself(double feed) {
        List<ToDoubleFunction<double[]>> values = List.of(v -> v[0], v -> v[1], v -> v[2]);
        double[][] on = Stream.of(1.0, 8.0, 16.0, 32.0)
                .map(refinement -> standing(refinement, feed))
                .toArray(double[][]::new);
        for (ToDoubleFunction<double[]> value : values) {
            double[] v = Stream.of(on).mapToDouble(value).toArray();
            double order = Math.log((v[1] - v[2]) / (v[2] - v[3])) / Math.log(2);
            assertThat(order).as("from %s, %s, %s", v[1], v[2], v[3]).isCloseTo(2, within(0.2));
            assertThat(v[0]).as("on the usual grid").isCloseTo(v[3], within(5e-3 * v[3]));
        }
    }

    private static double[] standing(double refinement, double feed) {
        Network net = new Network(SheetExample.titanium(), Factors.NONE, refinement);
        HeatSystem system = new HeatSystem(net);
        system.feed(feed);
        double[] y = Stepper.steady(system, 1);
        Profile profile = new Profile(net);
        return new double[] {system.intoWall(y), profile.throat(y) - net.air, profile.filamentAtThroat(y) - net.air};
    }
}
