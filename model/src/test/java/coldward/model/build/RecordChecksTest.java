package coldward.model.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.RandomBuilds;
import coldward.model.heat.SheetExample;
import coldward.quantity.InputError;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What a build's records refuse, and that the message has name, value, bound and unit. */
class RecordChecksTest {

    private static final HotEnd OK = SheetExample.titanium();
    private static final Material METAL = SheetExample.metal("titanium");

    static Stream<Arguments> refused() {
        Fan.Points.Point start = new Fan.Points.Point(0, 30);
        Fan.Points.Point end = new Fan.Points.Point(2e-3, 0);
        return Stream.of(
                refuses(() -> new Surroundings(400 + 273.15, 101_325), "air is 400 degC", "150 degC"),
                refuses(() -> new Surroundings(298.15, 10), "pressure is 10 Pa", "40000", "120000 Pa"),
                refuses(() -> new Surroundings(Double.NaN, 101_325), "air is not a number"),
                refuses(() -> new Material(" ", 8, 1, 1), "material is empty"),
                refuses(() -> new Material("tin", -8, 1, 1), "conductivity is -8 W/(m K)", "above 0"),
                refuses(() -> new Material("tin", 8, Double.NaN, 1), "density is not a number kg/m^3"),
                refuses(() -> new Material("tin", 8, 1, Double.POSITIVE_INFINITY), "specific_heat is infinite"),
                refuses(() -> plastic(450, 440), "feeds_above is 166.9 degC", "softens_at (176.9 degC)"),
                refuses(() -> new Filament(0.01e-3, 0.8), "filament diameter is 0.01 mm", "0.5", "5 mm"),
                refuses(() -> new Filament(1.75e-3, 1), "filament offset is 1 but", "0.999"),
                refuses(() -> new HotSide(0, 12, 0.06, 0.18, 0), "heater is 0 W", "above 0"),
                refuses(() -> new HotSide(50, 12, 0.06, 0.05, 0), "block_loss_blown is 0.05", "0.06", "W/K"),
                refuses(() -> new HotSide(50, 12, 0.06, 0.18, -1), "block_to_sink is -1 W/K", "0 or above"),
                refuses(() -> neck(2e-3, 2e-3), "neck diameter is 2.00 mm", "bore (2.00 mm)"),
                refuses(() -> new Neck(List.of(), 2e-3, Optional.empty()), "at least one"),
                refuses(
                        () -> new Neck(neck(2e-3, 6e-3).segments(), 2e-3, Optional.of(new Neck.Liner(1.9e-3, 0.25))),
                        "liner outer_diameter is 1.90 mm",
                        "bore (2.00 mm)"),
                refuses(
                        () -> new Neck(neck(2e-3, 3e-3).segments(), 2e-3, Optional.of(new Neck.Liner(4e-3, 0.25))),
                        "neck diameter is 3.00 mm",
                        "liner's outer_diameter (4.00 mm)"),
                refuses(() -> new Shank(METAL, 6e-3, 0, 5000), "shank length is 0 mm", "above 0"),
                refuses(() -> new Sink.Measured(0.1, 0.2), "on is 0.1", "still (0.2"),
                refuses(() -> sink(30, 1e-3, 20e-3), "30 fins of 1.00 mm", "24.0 mm"),
                refuses(() -> sink(10, 1e-3, 8e-3), "fin_diameter is 8.00 mm", "core_diameter (9.00 mm)"),
                refuses(() -> fan(40e-3, 8000), "hub_diameter is 40.0 mm", "tip_diameter (28.0 mm)"),
                refuses(() -> fan(16e-3, 5), "rated_speed is 5 rpm", "100", "100000 rpm"),
                refuses(() -> new Fan.Straight(0, 35), "free_flow is 0 l/s"),
                refuses(() -> new Fan.Straight(1e-3, 35).atSpeed(0), "speed ratio is 0"),
                refuses(() -> new Fan.Points(List.of(start), false), "at least 2"),
                refuses(() -> new Fan.Points(List.of(end, start), false), "begin at flow 0"),
                refuses(
                        () -> new Fan.Points(List.of(start, new Fan.Points.Point(1e-3, 31), end), false),
                        "falling pressure; point 2"),
                refuses(() -> new Trip(0, 3, 5), "trip speed is 0 rpm"),
                refuses(() -> new Trip(5000, 0, 5), "trip confirmations is 0", "between 1 and 100"),
                refuses(() -> new Trip(5000, 3, 500), "trip grace is 500 s", "120 s"),
                refuses(() -> new Response(Set.of(), 1, 1, 1, 1, 1), "no action", "[hold, heater-off]"),
                refuses(() -> new Response(Set.of(Action.HOLD), 1, -1, 1, 1, 1), "heater_latency is -1 s"),
                refuses(
                        () -> new Reading.Tachometer(0, 0.5, new Reading.Edge(0, 0), 1),
                        "pulses_per_turn is 0",
                        "between 1 and 12"),
                refuses(() -> new Reading.Tachometer(2, 1, new Reading.Edge(0, 0), 1), "duty is 1", "0.99"),
                refuses(() -> new Reading.Sampled(0), "sampled_every is 0 ms"),
                refuses(() -> new Reading.PeriodTimer(-1), "clock is -1 Hz"),
                refuses(() -> OK.withAir(273.15 + 70), "air is 70.0 degC", "softens_at (60.0 degC)"),
                refuses(() -> OK.withPlastic(OK.plastic(), 273.15 + 50), "nozzle is 50 degC", "100", "600 degC"),
                refuses(
                        () -> OK.withHeatBreak(OK.neck(), new Shank(METAL, 10e-3, 8e-3, 5000)),
                        "shank diameter is 10.0 mm",
                        "core_diameter (9.00 mm)"),
                refuses(
                        () -> OK.withHeatBreak(OK.neck(), new Shank(METAL, 6e-3, 30e-3, 5000)),
                        "shank length is 30.0 mm",
                        "24.0 mm"),
                refuses(
                        () -> OK.withHeatBreak(neck(1.7e-3, 3e-3), OK.shank()),
                        "filament diameter is 1.75 mm",
                        "bore (1.70 mm)"),
                refuses(() -> withFeedAndLimit(600e-9, 3e-3), "feed is 600 mm^3/s", "500 mm^3/s"),
                refuses(() -> withFeedAndLimit(5e-9, 24e-3), "softened_depth is 24.0 mm", "length (24.0 mm)"),
                refuses(
                        () -> new Build(
                                "",
                                OK,
                                new Reading.None(),
                                Optional.empty(),
                                new Response(Set.of(Action.HOLD), 0, 0, 0, 0, 0),
                                1,
                                Map.of(),
                                Map.of()),
                        "printer is empty"));
    }

    private static Arguments refuses(ThrowingCallable make, String... words) {
        return Arguments.of(words[0], make, List.of(words));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("refused")
    void saysWhatIsWrong(String first, ThrowingCallable make, List<String> words) {
        assertThat(words).startsWith(first);
        assertThatThrownBy(make).isInstanceOf(InputError.class).hasMessageContainingAll(words.toArray(String[]::new));
    }

    @Test
    void whatIsHandedInIsNotSharedAndGapsAreFilled() {
        EnumSet<Action> actions = EnumSet.of(Action.HOLD);
        Response response = new Response(actions, 2, 0.5, 1, 3, 0);
        actions.add(Action.POWER_OFF);
        assertThat(response.actions()).containsExactly(Action.HOLD);
        assertThat(response.machineLatency()).isEqualTo(2);
        assertThat(response.withActions(Set.of(Action.HEATER_OFF, Action.BLOCK_FAN))
                        .machineLatency())
                .isEqualTo(1);
        Build build = RandomBuilds.build(1);
        assertThat(build.spreads()).containsOnlyKeys(Uncertain.values());
        assertThat(build.spreads().get(Uncertain.NECK_CONDUCTANCE)).isEqualTo(0.15);
    }

    @Test
    void theSameNumberIsTheSamePrinter() {
        for (int number = 0; number < 50; number++) {
            assertThat(RandomBuilds.build(number)).isEqualTo(RandomBuilds.build(number));
        }
        assertThat(RandomBuilds.build(1)).isNotEqualTo(RandomBuilds.build(2));
    }

    @Test
    void responsesReadAsOnASheet() {
        assertThat(Response.words(Set.of(Action.HEATER_OFF, Action.BLOCK_FAN, Action.HOLD)))
                .isEqualTo("[hold, heater-off, block-fan]");
        for (Action action : Action.values()) {
            assertThat(Action.of(action.word())).contains(action);
        }
        assertThat(Action.of("heater off")).isEmpty();
    }

    private static Plastic plastic(double softens, double feeds) {
        return new Plastic("rod", 0.2, 1200, 1300, softens, feeds, OptionalDouble.empty());
    }

    private static Neck neck(double bore, double diameter) {
        return new Neck(List.of(new Neck.Segment(METAL, 2e-3, diameter)), bore, Optional.empty());
    }

    private static Sink sink(int fins, double thickness, double diameter) {
        return new Sink(METAL, 24e-3, fins, thickness, diameter, 9e-3, 0.8, 0.8, 0.01, Optional.empty());
    }

    private static Fan fan(double hub, double rpm) {
        return new Fan(24, rpm, 0.1, new Fan.Straight(1.7e-3, 35), 28e-3, hub, 0.6, 0.8, 323.15);
    }

    private static HotEnd withFeedAndLimit(double feed, double limit) {
        return new HotEnd(
                OK.surroundings(),
                OK.plastic(),
                OK.nozzle(),
                feed,
                OK.filament(),
                OK.hotSide(),
                OK.neck(),
                OK.shank(),
                OK.sink(),
                OK.fan(),
                OK.ductLoss(),
                limit);
    }
}
