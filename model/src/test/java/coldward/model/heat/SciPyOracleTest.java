package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.SciPyScript;
import coldward.model.build.Action;
import coldward.model.build.HotEnd;
import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The same equations written a second time in Python, on another grid, with other differences, integrated by SciPy's
 * LSODA ({@code oracle/hot_end.py}): agree within 1 %, 0.5 K and 1 s.
 */
class SciPyOracleTest {

    private static final double RESPONSE_AT = 30;
    private static final Set<Action> RESPONSE = EnumSet.of(Action.HOLD, Action.HEATER_OFF);

    private static final Map<String, Double> ORACLE = new LinkedHashMap<>();

    @BeforeAll
    static void runScript(@TempDir Path directory) throws IOException, InterruptedException {
        ORACLE.putAll(SciPyScript.run("hot_end.py", 120, directory));
        assertThat(ORACLE).hasSizeGreaterThan(200);
    }

    @ParameterizedTest
    @CsvSource({
        "titanium, PRINTING",
        "titanium, HOT_IDLE",
        "stainless, PRINTING",
        "stainless, HOT_IDLE",
        "two-metal, PRINTING",
        "two-metal, HOT_IDLE"
    })
    void agrees(String name, Regime regime) {
        HotEnd hotEnd = switch (name) {
            case "titanium" -> SheetExample.titanium();
            case "stainless" -> SheetExample.stainless();
            default -> SheetExample.twoMetal();
        };
        String from = name + " " + regime.word() + " ";
        Race race = new Race(hotEnd);
        Standing standing = race.standing(regime);
        assertShare(standing.heatFlow(), from + "heat_flow");
        assertKelvin(standing.throat(), from + "throat");
        assertKelvin(standing.sink(), from + "sink");
        assertKelvin(standing.filamentAtThroat(), from + "filament_at_throat");
        assertThat(standing.softenedDepth()).isCloseTo(oracle(from + "softened_depth"), within(0.05e-3));
        standing.sinkConductance().ifPresent(ua -> assertShare(ua, from + "conductance"));
        standing.airFlow().ifPresent(flow -> assertShare(flow, from + "air_flow"));
        assertThat(race.softens(regime).orElseThrow()).isCloseTo(oracle(from + "softens"), within(1.0));

        Curve curve = race.curve(regime, RESPONSE, RESPONSE_AT, 330);
        for (int t = 10; t <= 330; t += 10) {
            assertThat(curve.at(t)).as("%s s", t).isCloseTo(oracle(from + "at_" + t), within(0.5));
        }
        assertThat(largestExcess(hotEnd, regime)).isCloseTo(oracle(from + "largest_excess"), within(0.5));
        assertThat(race.deepest(regime, RESPONSE, RESPONSE_AT))
                .isCloseTo(oracle(from + "largest_depth"), within(0.1e-3));
    }

    private static double largestExcess(HotEnd hotEnd, Regime regime) {
        Network net = new Network(hotEnd, Factors.NONE, 1);
        Transient heat = new Transient(net, new FanFailure.Stop(hotEnd.fan().coastDown()), HeatSettings.USUAL);
        double feed = regime == Regime.PRINTING ? hotEnd.feed() : 0;
        Transient.Moment start = new Transient.Moment(0, heat.steady(1, feed));
        Transient.Moment stopped =
                heat.run(start, RESPONSE_AT, new Transient.Doing(feed, true, true, false), (t, y) -> true);
        double[] largest = {Double.NEGATIVE_INFINITY};
        heat.run(stopped, 330, new Transient.Doing(0, true, false, false), (t, y) -> {
            largest[0] = Math.max(largest[0], heat.profile.excess(y));
            return true;
        });
        return largest[0];
    }

    private static double oracle(String key) {
        return Objects.requireNonNull(ORACLE.get(key), key);
    }

    private static void assertShare(double actual, String key) {
        assertThat(actual).as(key).isCloseTo(oracle(key), within(0.01 * oracle(key)));
    }

    private static void assertKelvin(double actual, String key) {
        assertThat(actual).as(key).isCloseTo(oracle(key), within(0.5));
    }
}
