package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Origin;
import coldward.model.build.Plastics;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import coldward.model.build.Trip;
import coldward.model.build.Uncertain;
import coldward.quantity.InputError;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SheetsTest {

    static final Path HERON = Path.of("src/test/resources/sheets/heron.yaml");

    @Test
    void theExampleReadsWithItsNumbers() {
        Build heron = Sheets.read(HERON);
        var titanium = Materials.named("titanium").orElseThrow();
        HotEnd expected = new HotEnd(
                new Surroundings(298.15, 101_325),
                Plastics.named("PLA").orElseThrow(),
                508.15,
                5e-9,
                new Filament(0.00175, 0.8),
                new HotSide(50, 12, 0.06, 0.18, 0.005),
                new Neck(List.of(new Neck.Segment(titanium, 0.0021, 0.003)), 0.002, Optional.empty()),
                new Shank(titanium, 0.006, 0.008, 5000),
                new Sink(
                        Materials.named("aluminium").orElseThrow(),
                        0.024,
                        10,
                        0.001,
                        0.02,
                        0.009,
                        0.8,
                        0.8,
                        0.01,
                        Optional.empty()),
                new Fan(24, 8000, 0.1, new Fan.Straight(0.0017, 35), 0.028, 0.016, 0.6, 0.8, 323.15),
                1.0,
                0.003);
        assertThat(heron.hotEnd()).isEqualTo(expected);
        assertThat(heron.printer()).isEqualTo("heron");
        assertThat(heron.reading()).isEqualTo(new Reading.Tachometer(2, 0.5, new Reading.Sampled(0.001), 1));
        assertThat(heron.trip()).contains(new Trip(5200, 3, 5));
        assertThat(heron.response())
                .isEqualTo(
                        new Response(EnumSet.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN), 2, 0.5, 1, 1, 0.2));
        assertThat(heron.spuriousTripsPerYear()).isEqualTo(1);
        assertThat(heron.restsOnClasses()).isFalse();
    }

    private static Path write(Path folder, String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    private static Origin.Kind kind(Build build, String key) {
        return Optional.ofNullable(build.origins().get(key)).orElseThrow().kind();
    }

    private static final String FIVE =
            "printer: robin\nplastic: PLA\nnozzle: 215 degC\nneck: {class: thin titanium}\nfan: {class: 40x10 axial, rated_speed: 8000 rpm}\n";

    @Test
    void fiveFactsAreEnough(@TempDir Path folder) throws IOException {
        Build robin = Sheets.read(write(folder, "robin.yaml", FIVE));
        assertThat(robin.restsOnClasses()).isTrue();
        assertThat(robin.origins())
                .containsEntry("nozzle", new Origin(Origin.Kind.GIVEN, "", "215 degC"))
                .hasEntrySatisfying("neck.length", o -> {
                    assertThat(o.kind()).isEqualTo(Origin.Kind.CLASS);
                    assertThat(o.detail()).contains("thin titanium", "common practice, no source");
                })
                .hasEntrySatisfying("sink.fins", o -> assertThat(o.detail()).contains("round 22 mm, assumed"))
                .hasEntrySatisfying("feed", o -> assertThat(o.kind()).isEqualTo(Origin.Kind.DEFAULT));
        // classes widen what they feed, in squares; given facts and plain defaults keep the usual spread
        assertThat(robin.spreads().get(Uncertain.NECK_CONDUCTANCE)).isEqualTo(0.2915);
        assertThat(robin.spreads().get(Uncertain.SINK_ON)).isGreaterThan(0.3);
        assertThat(robin.spreads().get(Uncertain.COUPLING)).isEqualTo(0.30);
        assertThat(robin.spreads().get(Uncertain.AIR)).isEqualTo(4.4721);
        assertThat(robin.trip()).isEmpty();
        assertThat(robin.hotEnd().neck().bore()).isEqualTo(0.002);
    }

    /** F-LAW-1 of published.csv: half the speed gives half the flow and a quarter of the pressure. */
    @Test
    void aFansClassScalesByTheFanLaws() {
        Fan.Straight full = (Fan.Straight) Classes.fan("40x10 axial", 7000).curve();
        Fan.Straight half = (Fan.Straight) Classes.fan("40x10 axial", 3500).curve();
        assertThat(full.freeFlow()).isCloseTo(3.776e-3, within(1e-6));
        assertThat(full.shutoffPressure()).isCloseTo(47.3, within(0.05));
        assertThat(half.freeFlow() / full.freeFlow()).isCloseTo(0.5, within(1e-5));
        assertThat(half.shutoffPressure() / full.shutoffPressure()).isCloseTo(0.25, within(1e-5));
    }

    /** F-PQ-4020A-24-5200 and -11000, F-PQ-4028-12-4500 of published.csv, from other rows by the laws: flow 3 %, pressure 9 %. */
    @ParameterizedTest
    @CsvSource({"40x20 axial, 5200, 0.14, 28.3", "40x20 axial, 11000, 0.31, 124", "40x28 axial, 4500, 0.16, 33"})
    void classesAgreeWithOtherPublishedRows(String name, double rpm, double cubicMetresPerMinute, double pascal) {
        Fan.Straight curve = (Fan.Straight) Classes.fan(name, rpm).curve();
        assertThat(curve.freeFlow() * 60).isCloseTo(cubicMetresPerMinute, withinPercentage(5));
        assertThat(curve.shutoffPressure()).isCloseTo(pascal, withinPercentage(9));
    }

    @Test
    void aGivenValueBeatsItsClassAndEndsItsSpread(@TempDir Path folder) throws IOException {
        Build build = Sheets.read(write(
                folder,
                "robin.yaml",
                FIVE + "sink: {class: compact, measured: {on: 0.3 W/K, still: 25 K/W}}\nduct: short duct\n"
                        + "hot_side: {heater: 40 W, block_loss: 0.07 W/K, block_loss_blown: 0.2 W/K}\n"));
        assertThat(build.hotEnd().sink().fins()).isEqualTo(7);
        assertThat(build.hotEnd().sink().measured()).contains(new Sink.Measured(0.3, 0.04));
        assertThat(build.spreads().get(Uncertain.SINK_ON)).isEqualTo(0.20);
        assertThat(build.spreads().get(Uncertain.BLOCK_LOSS)).isEqualTo(0.20);
        assertThat(build.hotEnd().ductLoss()).isEqualTo(2.0);
        assertThat(build.hotEnd().hotSide().heaterPower()).isEqualTo(40);
        assertThat(build.hotEnd().hotSide().blockHeatCapacity()).isEqualTo(12);
    }

    @Test
    void twoMetalsSegmentsLinersAndOwnMetals(@TempDir Path folder) throws IOException {
        Build two = Sheets.read(write(folder, "two.yaml", FIVE.replace("thin titanium", "thin two-metal")));
        assertThat(two.hotEnd().shank().material().name()).isEqualTo("copper");
        assertThat(two.hotEnd().neck().segments().getFirst().material().name()).isEqualTo("stainless steel");
        Build stepped = Sheets.read(
                write(
                        folder,
                        "stepped.yaml",
                        FIVE.replace(
                                "{class: thin titanium}",
                                "[{material: titanium, length: 1 mm, diameter: 2.8 mm}, {material: {name: Inco, conductivity: 11 W/(m K), density: 8200 kg/m^3, specific_heat: 430 J/(kg K)}, length: 2 mm, diameter: 3 mm}]\nbore: 1.9 mm")));
        assertThat(stepped.hotEnd().neck().segments()).hasSize(2);
        assertThat(stepped.hotEnd().neck().bore()).isEqualTo(0.0019);
        assertThat(stepped.hotEnd().shank().material().conductivity()).isEqualTo(11);
        Build lined = Sheets.read(write(folder, "lined.yaml", FIVE.replace("{class: thin titanium}", "lined steel")));
        assertThat(lined.hotEnd().neck().liner()).contains(new Neck.Liner(0.004, 0.25));
        Build pure = Sheets.read(write(
                folder,
                "pure.yaml",
                FIVE.replace("class: thin titanium", "class: thin titanium, material: pure titanium")));
        assertThat(pure.hotEnd().neck().segments().getFirst().material().conductivity())
                .isEqualTo(16);
    }

    @Test
    void readingsAndCurves(@TempDir Path folder) throws IOException {
        Build none = Sheets.read(write(folder, "none.yaml", FIVE + "reading: none\n"));
        assertThat(none.reading()).isEqualTo(new Reading.None());
        Build edge = Sheets.read(write(
                folder, "edge.yaml", FIVE + "reading: {counter: edge, shortest_level: 20 us, pulses_per_turn: 4}\n"));
        assertThat(edge.reading()).isEqualTo(new Reading.Tachometer(4, 0.5, new Reading.Edge(20e-6, 0), 1));
        Build timer =
                Sheets.read(write(folder, "timer.yaml", FIVE + "reading: {counter: period-timer, clock: 1 MHz}\n"));
        assertThat(timer.reading()).isEqualTo(new Reading.Tachometer(2, 0.5, new Reading.PeriodTimer(1e6), 1));
        Build curve = Sheets.read(
                write(
                        folder,
                        "curve.yaml",
                        FIVE.replace(
                                "rated_speed: 8000 rpm",
                                "rated_speed: 8000 rpm, curve_with_duct: yes, curve: [{flow: 0 l/s, pressure: 30 Pa}, {flow: 2 CFM, pressure: 0 Pa}]")));
        assertThat(curve.hotEnd().fan().curve()).isInstanceOfSatisfying(Fan.Points.class, p -> {
            assertThat(p.withDuct()).isTrue();
            assertThat(p.points().getLast().flow()).isCloseTo(9.438949e-4, within(1e-9));
        });
    }

    /** Lumped cool-down worked by hand: 12 J/K from 200 to 100 degC in air of 25 degC in 150 s is 0.06778 W/K. */
    @Test
    void aCooldownGivesTheBlocksLoss(@TempDir Path folder) throws IOException {
        Build build = Sheets.read(
                write(
                        folder,
                        "cool.yaml",
                        FIVE
                                + "hot_side: {block_heat_capacity: 12 J/K, block_cooldown: {from: 200 degC, to: 100 degC, time: 150 s}}\n"));
        assertThat(build.hotEnd().hotSide().blockLoss()).isCloseTo(12 * Math.log(175.0 / 75) / 150, within(1e-6));
        assertThat(build.origins().get("hot_side.block_loss")).satisfies(o -> {
            assertThat(o.kind()).isEqualTo(Origin.Kind.GIVEN);
            assertThat(o.detail()).isEqualTo("from block_cooldown");
        });
    }

    @Test
    void inheritsKeyByKey(@TempDir Path folder) throws IOException {
        Files.createDirectories(folder.resolve("base"));
        write(
                folder,
                "base/robin.yaml",
                FIVE + "sink: {class: compact}\nhot_side: {heater: 40 W, block_loss: 0.05 W/K}\n"
                        + "reading: {counter: sampled, sampled_every: 1 ms}\n");
        Path wren = write(folder, "wren.yaml", """
                based_on: base/robin.yaml
                printer: wren
                neck: short steel
                fan: {speed_tolerance: 5 %}
                hot_side: {block_cooldown: {from: 200 degC, to: 100 degC, time: 150 s}}
                reading: {counter: edge}
                """);
        Build build = Sheets.read(wren);
        assertThat(build.printer()).isEqualTo("wren");
        assertThat(build.hotEnd().fan().ratedSpeed()).isEqualTo(8000);
        assertThat(build.hotEnd().fan().speedTolerance()).isEqualTo(0.05);
        assertThat(build.hotEnd().neck().segments().getFirst().material().name())
                .isEqualTo("stainless steel");
        assertThat(build.hotEnd().sink().fins()).isEqualTo(7);
        assertThat(build.origins().get("nozzle"))
                .isEqualTo(new Origin(
                        Origin.Kind.INHERITED, folder.resolve("base/robin.yaml").toString(), "215 degC"));
        assertThat(kind(build, "hot_side.heater")).isEqualTo(Origin.Kind.INHERITED);
        assertThat(build.hotEnd().hotSide().blockLoss()).isGreaterThan(0.06);
        assertThat(Sheets.check(wren).problems()).isEmpty();
        // an error in the other sheet is told there
        write(folder, "base/robin.yaml", FIVE.replace("215 degC", "215 mm"));
        assertThat(Sheets.check(wren).problems()).singleElement().satisfies(e -> {
            assertThat(e.file()).endsWith("robin.yaml");
            assertThat(e.line()).isEqualTo(3);
        });
    }

    @Test
    void aStarterSheetReadsAndSaysWhatItAssumes(@TempDir Path folder) throws IOException {
        String text =
                Sheets.starter(new Answers("finch", "PETG", "240 degC", "short steel", "30x10 axial", "9000 rpm"));
        Path file = write(folder, "finch.yaml", text);
        assertThat(Sheets.check(file).problems()).isEmpty();
        assertThat(Sheets.read(file).hotEnd().fan().ratedSpeed()).isEqualTo(9000);
        assertThat(text).contains("## sink: ", "## classes: round 22 mm", "softened_depth: 3 mm");
        assertThatThrownBy(() ->
                        Sheets.starter(new Answers("finch", "PETG", "240", "short steel", "30x10 axial", "9000 rpm")))
                .isInstanceOfSatisfying(
                        InputError.class, e -> assertThat(e.name()).isEqualTo("nozzle"))
                .hasMessageContaining("has no unit");
    }

    /** Taking every comment in turns the assumptions into given values without changing the build. */
    @Test
    void aStarterSheetsCommentsHoldWhatIsAssumed(@TempDir Path folder) throws IOException {
        String text =
                Sheets.starter(new Answers("finch", "PLA", "215 degC", "thin titanium", "40x10 axial", "8000 rpm"));
        Build before = Sheets.read(write(folder, "finch.yaml", text));
        String limits = text.substring(text.indexOf("# limits:\n"), text.indexOf("\n## reading: "));
        String taken = text + limits.replaceAll("(?m)^# ", "");
        Build after = Sheets.read(write(folder, "finch2.yaml", taken));
        assertThat(after.hotEnd()).isEqualTo(before.hotEnd());
        assertThat(kind(after, "limits.softened_depth")).isEqualTo(Origin.Kind.GIVEN);
    }

    @Test
    void partsToChooseFrom(@TempDir Path folder) throws IOException {
        Build heron = Sheets.read(HERON);
        HeatBreak two = Classes.neck("thin two-metal", heron.hotEnd());
        assertThat(two.shank().material().name()).isEqualTo("copper");
        assertThat(two.shank().contact()).isEqualTo(5000);
        assertThat(heron.hotEnd().withHeatBreak(two.neck(), two.shank())).isNotNull();
        HeatBreak own = Sheets.neck(
                "{neck: {material: stainless steel, length: 2.1 mm, diameter: 2.5 mm}, shank: {material: copper}}",
                heron.hotEnd());
        assertThat(own.neck().length()).isEqualTo(0.0021);
        assertThat(own.shank().material().name()).isEqualTo("copper");
        assertThatThrownBy(() -> Sheets.neck("thin titanum", heron.hotEnd()))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("did you mean thin titanium?");
        for (Classes.Part part : Classes.necks()) {
            assertThat(Classes.neck(part.name(), heron.hotEnd()).neckSpread()).isEqualTo(0.2915);
        }
        for (Classes.Part part : Classes.sinks()) {
            assertThat(Classes.sink(part.name()).material().name()).isEqualTo("aluminium");
        }
        for (Classes.Part part : Classes.fans()) {
            assertThat(Classes.fan(part.name(), Classes.fanSpeed(part.name()).orElseThrow()))
                    .isNotNull();
        }
        Path fans = write(folder, "fans.yaml", """
                - {name: quiet, class: 40x10 axial, rated_speed: 5000 rpm}
                - name: strong
                  class: 40x20 axial
                  rated_speed: 12000 rpm
                """);
        assertThat(Sheets.fans(fans)).extracting(NamedFan::name).containsExactly("quiet", "strong");
        Path bad = write(
                folder,
                "bad.yaml",
                "- {name: quiet, class: 40x10 axial}\n- {class: 40x20 axial}\n- {name: q, rated_sped: 1 rpm}\n");
        assertThatThrownBy(() -> Sheets.fans(bad))
                .hasMessageContainingAll(
                        "bad.yaml:1: fan.rated_speed", "bad.yaml:2: name", "did you mean rated_speed?");
    }
}
