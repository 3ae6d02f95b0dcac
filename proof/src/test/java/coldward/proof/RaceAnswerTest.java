package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/**
 * {@code coldward race --json} gives the numbers that the project was ordered with. Tolerances are the order's: 3 % of
 * heat and temperature rise, 5 % or 2 s of times, 0.02 of the share. Source of the values: the project's acceptance
 * list, computed there by an independent program.
 */
class RaceAnswerTest {

    private static final String HOLD = "[\"hold\"]";
    private static final String OFF = "[\"heater-off\"]";
    private static final String BOTH = "[\"hold\",\"heater-off\"]";
    private static final String BLOWN = "[\"hold\",\"heater-off\",\"block-fan\"]";
    private static final double AIR = 25;

    @TempDir
    Path folder;

    private CommandRun race(String sheet, Object... more) throws IOException {
        Path file = Files.writeString(folder.resolve("heron.yaml"), sheet);
        Object[] words = new Object[3 + more.length];
        words[0] = "race";
        words[1] = file;
        words[2] = "--json";
        System.arraycopy(more, 0, words, 3, more.length);
        return CommandRun.of(words);
    }

    private static String changed(String what, String by) {
        String sheet = Repository.exampleSheet();
        assertThat(sheet).contains(what);
        return sheet.replace(what, by);
    }

    private static void heat(JsonNode standing, double watts, double throat) {
        assertThat(standing.path("heat_flow_W").asDouble()).isCloseTo(watts, within(0.03 * watts));
        rise(standing.path("throat_C").asDouble(), throat);
    }

    private static void rise(double celsius, double wanted) {
        assertThat(celsius - AIR).isCloseTo(wanted - AIR, within(0.03 * (wanted - AIR)));
    }

    private static void seconds(double found, double wanted) {
        assertThat(found).isCloseTo(wanted, within(Math.max(2, 0.05 * wanted)));
    }

    private static JsonNode row(JsonNode race, String from, String actions) {
        for (JsonNode row : race.path("deadlines")) {
            if (row.path("from").asString().equals(from)
                    && row.path("actions").toString().equals(actions)) {
                return row;
            }
        }
        throw new AssertionError("no deadline from " + from + " with " + actions);
    }

    private static void until(JsonNode race, String from, String actions, double wanted) {
        JsonNode row = row(race, from, actions);
        assertThat(row.path("verdict").asString()).isEqualTo("until");
        seconds(row.path("until_s").asDouble(), wanted);
    }

    private static void never(JsonNode race, String from, String actions) {
        JsonNode row = row(race, from, actions);
        assertThat(row.path("verdict").asString()).isEqualTo("never");
        assertThat(row.has("until_s")).isFalse();
    }

    private static void softens(JsonNode race, double printing, double idle) {
        assertThat(race.path("softens")).hasSize(2);
        for (JsonNode row : race.path("softens")) {
            assertThat(row.path("softens").asBoolean()).isTrue();
            seconds(row.path("after_s").asDouble(), row.path("from").asString().equals("printing") ? printing : idle);
        }
    }

    private static Set<String> keys(JsonNode node) {
        return new TreeSet<>(node.propertyNames());
    }

    @Test
    void theTitaniumNeckOfTheExample() throws IOException {
        CommandRun run = race(Repository.exampleSheet(), "--draws", 0);
        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        JsonNode race = run.json();
        heat(race.path("steady"), 2.46, 56.5);
        rise(race.path("steady").path("sink_C").asDouble(), 33.6);
        never(race, "printing", HOLD);
        until(race, "printing", OFF, 56);
        until(race, "printing", BOTH, 41);
        until(race, "printing", BLOWN, 82);
        until(race, "hot-idle", BOTH, 35);
        until(race, "hot-idle", BLOWN, 69);
        softens(race, 125, 80);
        assertThat(race.path("hot_idle").path("softened_depth_mm").asDouble()).isCloseTo(0.55, within(0.05));
        assertThat(race.path("unsafe_speed_share").asDouble()).isCloseTo(0.22, within(0.02));
    }

    @Test
    void aStainlessNeckAllElseEqual() throws IOException {
        CommandRun run = race(changed("material: titanium", "material: stainless steel"), "--draws", 0);
        JsonNode race = run.json();
        heat(race.path("steady"), 4.52, 67);
        never(race, "printing", BOTH);
        never(race, "hot-idle", BOTH);
        until(race, "printing", BLOWN, 15);
        until(race, "hot-idle", BLOWN, 12);
        softens(race, 51, 27);
        assertThat(race.path("unsafe_speed_share").asDouble()).isCloseTo(0.43, within(0.02));
    }

    @Test
    void aThinTwoMetalHeatBreak() throws IOException {
        String sheet = changed(
                        "neck: {material: titanium, length: 2.1 mm, diameter: 3.0 mm",
                        "neck: {material: stainless steel, length: 2.1 mm, diameter: 2.5 mm")
                .replace("shank: {", "shank: {material: copper, ");
        JsonNode race = race(sheet, "--draws", 0).json();
        heat(race.path("steady"), 2.66, 39);
        until(race, "printing", BOTH, 37);
        until(race, "hot-idle", BOTH, 32);
    }

    @Test
    void theKeysAreThoseOrderedAndAbsentWhereTheyDoNotApply() throws IOException {
        JsonNode plain = race(Repository.exampleSheet(), "--draws", 0).json();
        assertThat(keys(plain))
                .contains(
                        "printer",
                        "plastic",
                        "steady",
                        "hot_idle",
                        "softens",
                        "deadlines",
                        "unsafe_speed_share",
                        "highest_safe_air_C",
                        "origins")
                .doesNotContain("uncertainty", "advice", "warnings");
        assertThat(keys(plain.path("steady")))
                .containsExactlyInAnyOrder(
                        "air_flow_m3_s",
                        "sink_conductance_W_K",
                        "heat_flow_W",
                        "throat_C",
                        "sink_C",
                        "filament_at_throat_C",
                        "softened_depth_mm",
                        "heater_power_W");
        assertThat(keys(plain.path("hot_idle")))
                .containsExactlyInAnyOrder(
                        "heat_flow_W",
                        "throat_C",
                        "sink_C",
                        "filament_at_throat_C",
                        "softened_depth_mm",
                        "heater_power_W");
        for (JsonNode row : plain.path("softens")) {
            assertThat(keys(row)).containsExactlyInAnyOrder("from", "softens", "after_s");
        }
        assertThat(keys(row(plain, "printing", BOTH)))
                .containsExactlyInAnyOrder("from", "actions", "verdict", "until_s");
        assertThat(keys(row(plain, "printing", HOLD))).containsExactlyInAnyOrder("from", "actions", "verdict");

        JsonNode drawn = race(Repository.exampleSheet(), "--draws", 3).json();
        assertThat(drawn.path("uncertainty").path("draws").asInt()).isEqualTo(3);
    }

    @Test
    void fiveFactsGiveAVerdictWithABandAndTheThreeWidestInputs() throws IOException {
        CommandRun run = race(OutputSchemaTest.FIVE_FACTS);
        JsonNode race = run.json();
        JsonNode uncertainty = race.path("uncertainty");
        assertThat(uncertainty.path("draws").asInt()).isGreaterThanOrEqualTo(20);
        assertThat(uncertainty.path("widest")).hasSize(3);
        assertThat(race.path("verdict").path("sentence").asString()).contains("draws");
        assertThat(run.code()).isEqualTo(race.path("verdict").path("safe").asBoolean() ? 0 : 1);
    }

    @Test
    void sameSeedSameNumbers() throws IOException {
        String first =
                race(Repository.exampleSheet(), "--draws", 4, "--seed", 7).out();
        assertThat(race(Repository.exampleSheet(), "--draws", 4, "--seed", 7).out())
                .isEqualTo(first);
        assertThat(race(Repository.exampleSheet(), "--draws", 4, "--seed", 8).out())
                .isNotEqualTo(first);
    }
}
