package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.app.command.SchemaCommand;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Every command's {@code --json} fits its published schema. The watch's lines, the release and the tour are held against
 * theirs where they run: {@link ReleaseTest}, {@link PeopleTest}, {@link TourTest}; the drill, what is after it and the
 * service in {@link DrillCommandTest}.
 */
class OutputSchemaTest {

    static final String FIVE_FACTS = """
            printer: wren
            plastic: PLA
            nozzle: 215 degC
            neck: short steel
            fan: {class: 40x10 axial, rated_speed: 8000 rpm}
            """;

    @TempDir
    Path folder;

    private Path heron = Path.of("");

    @BeforeEach
    void layOut() throws IOException {
        heron = write("heron.yaml", Repository.exampleSheet());
    }

    private Path write(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    private Path variant(String what, String by) throws IOException {
        assertThat(Repository.exampleSheet()).contains(what);
        return write("variant.yaml", Repository.exampleSheet().replace(what, by));
    }

    private static JsonNode fitting(String schema, int code, Object... words) {
        CommandRun run = CommandRun.of(words);
        assertThat(run.code()).as(run.err() + run.out()).isEqualTo(code);
        OutputSchemas.assertFits(schema, run.out());
        return run.json();
    }

    static List<String> outputs() {
        return SchemaCommand.OUTPUTS;
    }

    /** It is a schema of the current draft, and strict: something that is not the output does not fit. */
    @ParameterizedTest
    @MethodSource("outputs")
    void isASchemaThatRefusesOtherThings(String name) {
        JsonNode schema = CommandRun.of("schema", name).json();
        assertThat(schema.path("$schema").asString()).isEqualTo("https://json-schema.org/draft/2020-12/schema");
        assertThat(schema.path("title").asString()).startsWith("coldward ");
        assertThat(OutputSchemas.misfits(name, "{}")).isNotEmpty();
        assertThat(OutputSchemas.misfits(name, "[]")).isNotEmpty();
        assertThat(OutputSchemas.misfits(name, "null")).isNotEmpty();
    }

    /** Objects of our own are closed, and every key is explained. */
    @ParameterizedTest
    @MethodSource("outputs")
    void isClosedAndExplained(String name) {
        closed(name, CommandRun.of("schema", name).json());
    }

    private static void closed(String at, JsonNode schema) {
        if (schema.path("type").asString("").equals("object")) {
            assertThat(schema.has("additionalProperties")).as(at).isTrue();
        }
        for (String condition : List.of("if", "then", "else", "allOf", "dependentRequired", "propertyNames")) {
            if (schema instanceof ObjectNode object) {
                object.remove(condition);
            }
        }
        schema.path("properties")
                .forEachEntry((key, property) -> assertThat(property.has("description") || property.has("$ref"))
                        .as("%s.%s has a description", at, key)
                        .isTrue());
        if (schema.isObject()) {
            schema.forEachEntry((key, value) -> closed(at + "/" + key, value));
        }
    }

    @Test
    void schema() {
        JsonNode listed = fitting("schema", 0, "schema", "--json");
        assertThat(listed.path("schemas")).hasSize(2 + SchemaCommand.OUTPUTS.size());
        for (JsonNode name : listed.path("schemas")) {
            assertThat(CommandRun.of("schema", name.asString()).code()).isZero();
        }
    }

    @Test
    void baselineAndBacktest() throws IOException {
        Path good = write("heron.csv", Recordings.healthy(4_000, 30));
        JsonNode baseline = fitting("baseline", 0, "baseline", good, "--json");
        assertThat(baseline.path("reliable").asBoolean()).isTrue();
        JsonNode shortly = fitting("baseline", 1, "baseline", write("s.csv", Recordings.healthy(60, 30)), "--json");
        assertThat(shortly.path("warnings").get(0).path("kind").asString()).isEqualTo("too_short");
        JsonNode backtest = fitting("backtest", 0, "backtest", good, "--trip", "7990/2", "--trip", "5600/3", "--json");
        assertThat(backtest.path("settings")).hasSize(2);
        assertThat(backtest.path("settings").get(0).path("trip_list")).isNotEmpty();
        assertThat(backtest.path("settings").get(0).path("near_trip_list")).isNotEmpty();
        fitting("backtest", 0, "backtest", good, "--trip", "5600/3", "--sheet", heron, "--json");
    }

    @Test
    void wiringFindSettlesALockedRotorLevelFromNineReadings() {
        JsonNode found = fitting(
                "wiring-find",
                0,
                "wiring",
                "find",
                "--json",
                "--supply",
                "24V",
                "--ohms",
                "1,2=50kohm",
                "--ohms",
                "2,3=5kohm",
                "--ohms",
                "3,2=over",
                "--fed",
                "1,2,1=6.1V",
                "--fed",
                "2,1,2=0.8V",
                "--fed",
                "3,2,3=23.9V",
                "--third",
                "1,2,3,free=0.2V",
                "--third",
                "1,2,3,slow=0.2V",
                "--third",
                "1,2,3,held=23.9V");
        assertThat(found.path("settled").asBoolean()).isTrue();
        assertThat(found.path("ranked").get(0).path("tells").asString()).isEqualTo("locked-rotor level");
    }

    @Test
    void wiringFindAsksForMoreWhereOneReadingSettlesNothing() {
        JsonNode found = fitting("wiring-find", 1, "wiring", "find", "--json", "--ohms", "1,2=50kohm");
        assertThat(found.path("settled").asBoolean()).isFalse();
        fitting("wiring-find", 1, "wiring", "find", "--json", "--wires", "a,b,c", "--fed", "a,b,a=6.1V");
    }

    @Test
    void wiringPick() throws IOException {
        Path sheet = write("lifted.yaml", WiringAnswerTest.lifted());
        JsonNode map = fitting("wiring-pick", 0, "wiring", "pick", sheet, "--json");
        assertThat(map.path("best").path("resistance_ohm").asDouble()).isPositive();
    }

    @Test
    void wiringOfTheSampleShop() throws IOException {
        write("heron.yaml", WiringAnswerTest.demo("heron.yaml"));
        JsonNode sound = fitting("wiring", 0, "wiring", folder.resolve("heron.yaml"), "--json");
        assertThat(sound.path("states").isEmpty()).isFalse();
        JsonNode bare =
                fitting("wiring", 1, "wiring", write("finch.yaml", WiringAnswerTest.demo("finch.yaml")), "--json");
        assertThat(bare.path("findings").path(0).path("severity").asString()).isEqualTo("error");
    }

    @Test
    void raceOfTheExampleWithDraws() {
        JsonNode race = fitting("race", 0, "race", heron, "--json", "--draws", 5);
        assertThat(race.path("verdict").path("outcome").asString()).isEqualTo("raced");
    }

    @Test
    void raceThatNothingSaves() throws IOException {
        Path sheet = write(
                "stainless.yaml",
                Repository.exampleSheet()
                        .replace("material: titanium", "material: stainless steel")
                        .replace("[hold, heater-off, block-fan]", "[hold, heater-off]"));
        JsonNode race = fitting("race", 1, "race", sheet, "--json", "--draws", 0);
        assertThat(race.path("verdict").path("margin").asString()).isEqualTo("nothing-saves");
        assertThat(race.path("verdict").has("margin_s")).isFalse();
        assertThat(race.path("advice").isEmpty()).isFalse();
    }

    @Test
    void tripOfTheExampleWithDraws() {
        JsonNode trip = fitting("trip", 0, "trip", heron, "--json", "--draws", 5);
        assertThat(trip.path("standing").path("trip_from").asString()).isEqualTo("sheet");
        assertThat(trip.path("map").isEmpty()).isFalse();
    }

    @Test
    void checkOfTheExample() {
        JsonNode check = fitting("check", 0, "check", heron, "--json", "--draws", 5);
        assertThat(check.path("findings").isEmpty()).isFalse();
        assertThat(check.path("longest_report_interval_s").asDouble()).isGreaterThan(1);
    }

    @Test
    void checkWithoutASignal() throws IOException {
        Path sheet = write(
                "silent.yaml",
                Repository.exampleSheet()
                        .replaceAll("(?m)^reading:.*$", "reading: none")
                        .replaceAll("(?m)^trip:.*$", ""));
        JsonNode check = fitting("check", 1, "check", sheet, "--json");
        assertThat(check.path("without_signal")).hasSize(3);
        assertThat(check.path("verdict").asString()).isEqualTo("not-safe");
    }

    @Test
    void tripThatNothingSaves() throws IOException {
        Path sheet = write(
                "stainless-trip.yaml",
                Repository.exampleSheet().replace("material: titanium", "material: stainless steel"));
        JsonNode trip = fitting("trip", 1, "trip", sheet, "--json", "--draws", 0);
        assertThat(trip.path("safe").asBoolean()).isFalse();
    }

    @Test
    void raceOfATwoMetalHeatBreak() throws IOException {
        fitting("race", 0, "race", variant("shank: {", "shank: {material: copper, "), "--json", "--draws", 0);
    }

    @Test
    void raceOfAMeasuredSink() throws IOException {
        Path sheet = variant("mount_conductance: 0.01 W/K}", "measured: {on: 0.34 W/K, still: 0.04 W/K}}");
        JsonNode race = fitting("race", 0, "race", sheet, "--json", "--draws", 0);
        assertThat(race.path("steady").path("sink_conductance_W_K").asDouble()).isEqualTo(0.34);
    }

    @Test
    void raceOfFiveFacts() throws IOException {
        Path sheet = write("wren.yaml", FIVE_FACTS);
        CommandRun run = CommandRun.of("race", sheet, "--json");
        OutputSchemas.assertFits("race", run.out());
        assertThat(run.json().path("uncertainty").path("draws").asInt()).isPositive();
    }

    @Test
    void raceThatIsSoftWhileHealthy() throws IOException {
        Path sheet = variant("air: 25 degC", "air: 58 degC");
        JsonNode race = fitting("race", 1, "race", sheet, "--json");
        assertThat(race.path("verdict").path("outcome").asString()).isEqualTo("soft-while-healthy");
        assertThat(race.path("deadlines")).isEmpty();
        assertThat(race.has("highest_safe_air_C")).isFalse();
    }

    @Test
    void raceWithoutAReading() throws IOException {
        Path sheet = variant(
                "reading: {pulses_per_turn: 2, duty: 50 %, counter: sampled, sampled_every: 1 ms, report_interval: 1 s}",
                "reading: none");
        JsonNode race = fitting("race", 1, "race", sheet, "--json");
        assertThat(race.path("verdict").path("outcome").asString()).isEqualTo("unprotected");
        assertThat(race.has("stop_time")).isFalse();
    }

    @Test
    void raceThatWouldTripAtOnce() throws IOException {
        JsonNode race = fitting("race", 1, "race", variant("speed: 5200 rpm", "speed: 8500 rpm"), "--json");
        assertThat(race.path("verdict").path("outcome").asString()).isEqualTo("trips-at-once");
    }

    @Test
    void choose() throws IOException {
        JsonNode table = fitting("choose", 0, "choose", heron, "--json", "--necks", "all", "--plastics", "PLA,ABS");
        assertThat(table.path("candidates").size()).isGreaterThan(4);
        Path fans = write("fans.yaml", """
                - {name: brisk, class: 40x10 axial, rated_speed: 9000 rpm}
                - {name: feeble, class: 25x10 axial, rated_speed: 6000 rpm}
                """);
        fitting("choose", 0, "choose", heron, "--json", "--fans", fans);
    }

    @Test
    void measureSink() throws IOException {
        JsonNode fit = fitting(
                "measure-sink",
                0,
                "measure",
                "sink",
                heron,
                "--hot",
                "33.1",
                "--later",
                "44.6,50.9,50.2,49.4,45.5",
                "--air",
                "23",
                "--json",
                "--keep-sheet");
        assertThat(fit.path("written").asBoolean(true)).isFalse();
        assertThat(Repository.text(heron)).isEqualTo(Repository.exampleSheet());
    }

    @Test
    void reading() throws IOException {
        assertThat(fitting("reading", 0, "reading", heron, "--json")
                        .path("honest")
                        .asBoolean())
                .isTrue();
        fitting("reading", 1, "reading", heron, "--json", "--true", "25000 rpm");
        fitting("reading", 0, "reading", variant("counter: sampled, sampled_every: 1 ms", "counter: edge"), "--json");
        Path none = variant(
                "reading: {pulses_per_turn: 2, duty: 50 %, counter: sampled, sampled_every: 1 ms, report_interval: 1 s}",
                "reading: none");
        assertThat(fitting("reading", 1, "reading", none, "--json")
                        .path("reads_speed")
                        .asBoolean(true))
                .isFalse();
    }

    @Test
    void readingExplain() {
        fitting("reading-explain", 0, words("reading explain --true 9000 --shown 3000 --pulses 2 --json"));
        fitting("reading-explain", 0, words("reading explain --true 9000 --shown 9000 --pulses 2 --json"));
        assertThat(fitting("reading-explain", 1, words("reading explain --true 3000 --shown 9000 --pulses 2 --json"))
                        .path("intervals"))
                .isEmpty();
    }

    @Test
    void readingCauses() {
        JsonNode low = fitting(
                "reading-causes",
                1,
                "reading",
                "explain",
                heron,
                "--shown",
                "4000",
                "--duty-sweep",
                "80:3200,60:2400",
                "--interval-sweep",
                "0.25ms:4000",
                "--unplugged",
                "0",
                "--air",
                "usual",
                "--json");
        assertThat(low.path("causes").path(0).path("cause").asString()).isEqualTo("wrong-pulses");
        assertThat(low.path("seen")).hasSize(6);
        JsonNode zero = fitting("reading-causes", 1, "reading", "explain", heron, "--shown", "0", "--json");
        assertThat(zero.path("next_test").path("separates").size()).isGreaterThan(1);
        fitting("reading-causes", 0, "reading", "explain", heron, "--shown", "8010", "--air", "usual", "--json");
        assertThat(CommandRun.of("reading", "explain", heron, "--shown", "0", "--air", "brisk")
                        .code())
                .isEqualTo(2);
    }

    private static Object[] words(String line) {
        return line.split(" ", -1);
    }

    @Test
    void sheets() throws IOException {
        Path made = folder.resolve("finch.yaml");
        fitting(
                "sheet-new",
                0,
                "sheet",
                "new",
                made,
                "--printer",
                "finch",
                "--plastic",
                "PETG",
                "--nozzle",
                "240 degC",
                "--neck",
                "thin titanium",
                "--fan",
                "40x10 axial",
                "--speed",
                "8000 rpm",
                "--json");
        assertThat(fitting("sheet-check", 0, "sheet", "check", made, "--json")
                        .path("printer")
                        .asString())
                .isEqualTo("finch");
        JsonNode values =
                fitting("sheet-show", 0, "sheet", "show", made, "--json").path("values");
        assertThat(values.path("nozzle").path("kind").asString()).isEqualTo("given");
        JsonNode broken =
                fitting("sheet-check", 3, "sheet", "check", variant("nozzle: 235 degC", "nozzle: 235"), "--json");
        assertThat(broken.path("problems").path(0).path("line").asInt()).isEqualTo(4);
        JsonNode missing = fitting("sheet-check", 3, "sheet", "check", folder.resolve("none.yaml"), "--json");
        assertThat(missing.path("problems").path(0).has("line")).isFalse();
    }

    /** The rig on a port of its own in a process of its own, failed and mended from this one. */
    @Test
    void rig() throws IOException {
        int port = freePort();
        Path shop = RiggedShop.write(folder.resolve("shop"), port);
        String at = "http://localhost:" + port;
        try (ChildJvm rig = ChildJvm.start("rig", shop, "--json")) {
            StringBuilder text = new StringBuilder();
            rig.await("where the rig serves", line -> {
                text.append(line).append('\n');
                return line.equals("}") ? Optional.of(line) : Optional.empty();
            });
            OutputSchemas.assertFits("rig", text.toString());
            assertThat(JsonMapper.shared().readTree(text.toString()).path("url").asString())
                    .isEqualTo(at);
            for (String failure : List.of("stop", "slow", "fade", "cut-signal", "stuck-reading")) {
                fitting("rig", 0, "rig", "fail", "heron", failure, "--rig", at, "--json");
            }
            fitting("rig", 0, "rig", "mend", "heron", "--rig", at, "--json");
            fitting("rig", 0, "rig", "work", "heron", "--rig", at, "--json");
            assertThat(CommandRun.of("rig", "fail", "plover", "stop", "--rig", at)
                            .code())
                    .isEqualTo(3);
            assertThat(CommandRun.of("rig", "fail", "heron", "tired", "--rig", at)
                            .code())
                    .isEqualTo(3);
            rig.stop();
        }
        assertThat(CommandRun.of("rig", "mend", "heron", "--rig", at).code()).isEqualTo(4);
    }

    static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }
}
