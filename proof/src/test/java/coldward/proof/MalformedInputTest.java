package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Sheets and shop files that cannot be used, through the command line: exit code 3, a message with the place (file, line
 * and key where they exist) and with what would be right, and never a stack trace.
 */
class MalformedInputTest {

    private static final String NECK = "neck: {material: titanium, length: 2.1 mm, diameter: 3.0 mm, bore: 2.0 mm}";

    @TempDir
    Path folder;

    /** One change to the example sheet; the place told, and a part of the remedy. */
    static Stream<Arguments> sheetChanges() {
        return Stream.of(
                // units
                change("nozzle: 235 degC", "nozzle: 235 mm", ":4: nozzle", "accepted: degC"),
                change("nozzle: 235 degC", "nozzle: 235", ":4: nozzle", "write for example 235 degC"),
                change("nozzle: 235 degC", "nozzle: 235,5 degC", ":4: nozzle", "write a decimal point: 235.5 degC"),
                change("free_flow: 1.7 l/s", "free_flow: 1.7 Pa", ":12: fan.free_flow", "accepted: "),
                change("rated_speed: 8000 rpm", "rated_speed: 8000 Hz", ":12: fan.rated_speed", "accepted: rpm"),
                change("duty: 50 %", "duty: half", ":16: reading.duty", "for example"),
                // values
                change("feed: 5 mm^3/s", "feed: -5 mm^3/s", ":5: feed", "between 0 mm^3/s and"),
                change("length: 2.1 mm, d", "length: -2.1 mm, d", ":8: neck.length", "between"),
                change("heater: 50 W", "heater: .nan", ":7: hot_side.heater", "a finite number"),
                change("heater: 50 W", "heater: NaN W", ":7: hot_side.heater", "a finite number"),
                change("heater: 50 W", "heater: .inf", ":7: hot_side.heater", "a finite number"),
                change("heater: 50 W", "heater: 1e999 W", ":7: hot_side.heater", "reach"),
                change("nozzle: 235 degC", "nozzle: 2000 degC", ":4: nozzle", "between 100 degC and 600 degC"),
                change("confirmations: 3", "confirmations: 0", ":17: trip.confirmations", "between"),
                change("confirmations: 3", "confirmations: 2.5", ":17: trip.confirmations", "a whole number"),
                change("fins: 10", "fins: ten", ":10: sink.fins", "whole number"),
                change("air: 25 degC", "air: 65 degC", ":2: surroundings.air", "below the plastic's softens_at"),
                // keys and shapes
                change("nozzle: 235 degC", "nozzel: 235 degC", ":4: nozzel", "did you mean nozzle?"),
                change("nozzle: 235 degC", "nozzle: [235 degC]", ":4: nozzle", "a single value is wanted"),
                change("nozzle: 235 degC", "nozzle:", ":4: nozzle", "write for example nozzle: 235 degC"),
                change("nozzle: 235 degC", "", ":1: nozzle", "write for example nozzle: 235 degC"),
                change("nozzle: 235 degC", "nozzle: 235 degC\nnozzle: 240 degC", ":5: nozzle", "stands in line 4"),
                change("nozzle: 235 degC", "\tnozzle: 235 degC", ":4", "indent with spaces"),
                change("nozzle: 235 degC", "nozzle: {235 degC", ":5", "close every bracket"),
                change("nozzle: 235 degC", "nozzle: !job 235 degC", ":4", "leave it out"),
                change("counter: sampled", "counter: guessed", ":16: reading.counter", "sampled"),
                // words
                change("plastic: PLA ", "plastic: PLAA ", ":3: plastic", "did you mean PLA?"),
                change("material: titanium, ", "material: unobtainium, ", ":8: neck.material", "known metal"),
                change("material: titanium, ", "material: copper, ", ":8: neck.material", "shank: {material: copper}"),
                change(NECK, "neck: thin titanum", ":8: neck", "did you mean thin titanium?"),
                change("[hold, heater-off,", "[hold, heater_off,", ":18: response.actions", "did you mean heater-off?"),
                // other sheets
                change("printer: heron", "printer: heron\nbased_on: nowhere.yaml", ":2: based_on", "relative to"),
                change(
                        "printer: heron",
                        "printer: heron\nbased_on: bad.yaml",
                        ":2: based_on",
                        "take one based_on out"));
    }

    /** Whole files. */
    static Stream<Arguments> files() {
        return Stream.of(
                file("empty", new byte[0], "", "coldward sheet new"),
                file("only a comment", "# heron\n", "", "coldward sheet new"),
                file("binary", new byte[] {0x7f, 'E', 'L', 'F', 0, 1, 2, '\n'}, ":1", "save it as UTF-8"),
                file("not UTF-8", "printer: caf\u00e9".getBytes(StandardCharsets.ISO_8859_1), ":1", "as UTF-8"),
                file("huge", "x".repeat(2 << 20), "", "is it the right file?"),
                file("deep", "printer: " + "[".repeat(5000), ":1", "nested deeper"),
                file("alias bomb", bomb(), ":7", "aliases"),
                file("alias of itself", "printer: &a [*a]\n", ":1", "&a"),
                file("two documents", "printer: a\n---\nprinter: b\n", ":2", "one document"),
                file("a list", "- a\n- b\n", ":1", "a map is wanted"),
                file("prose", "the quick finch", ":1", "for example"));
    }

    /** One change to the shop file. */
    static Stream<Arguments> shopChanges() {
        return Stream.of(
                change("shop: brook lane", "", ":3: shop", "write for example shop: brook lane"),
                change("shop: brook lane", "shop: brook lane\nnotice: []", ":3: notice", "no such key"),
                change("printers:", "printers: {}\nx:", ":4: printers", "a list of maps is wanted"),
                change("sheet: heron.yaml", "sheet: hern.yaml", ":5: sheet", "check the path"),
                change("sheet: heron.yaml", "sheet: .", ":5: sheet", "name the YAML file"),
                change("- sheet: heron.yaml", "- sheet: heron.yaml\n    names: [heron, heron]", "names", "own name"),
                change("\"http://localhost:7070/heron\"", "7070", ":7: printers[0].link.http.base", "http"),
                change("every: 250 ms", "every: 250", ":7: printers[0].link.http.every", "250"),
                change("every: 250 ms", "every: -1 s", ":7: printers[0].link.http.every", "between 50 ms and"),
                change("every: 250 ms", "evry: 250 ms", ":7: printers[0].link.http.evry", "did you mean every?"),
                change("pointer: /speed_rpm", "pointer: speed_rpm", ":9: printers[0].link.reads.speed.pointer", "6901"),
                change("unit: rpm", "unit: degC", ":9: printers[0].link.reads.speed.unit", "accepted"),
                change("method: POST, path: /do/hold", "method: SEND, path: /do/hold", "acts.hold.method", "POST"),
                change("read: working", "read: workin", "proofs.hold.read", "did you mean working?"),
                change("is: false", "is: 0 degC", "proofs.hold.is", "true or false"),
                change(
                        "{http: {base: \"http://localhost:7070/robin\", every: 250 ms}, like: heron}",
                        "{http: {base: \"http://localhost:7070/robin\", every: 250 ms}, like: robin}",
                        "link.like",
                        "in a circle"),
                change("every: 250 ms", "every: 250 ms, headers: {Authorization: abc}", "headers", "{env: "));
    }

    private static Arguments change(String what, String by, String place, String remedy) {
        return Arguments.of(what, by, place, remedy);
    }

    private static Arguments file(String what, byte[] content, String line, String remedy) {
        return Arguments.of(what, content, line, remedy);
    }

    private static Arguments file(String what, String content, String line, String remedy) {
        return file(what, content.getBytes(StandardCharsets.UTF_8), line, remedy);
    }

    /** 4^20 values if every alias were followed. */
    private static String bomb() {
        StringBuilder out = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 20; i++) {
            String before = "*a" + (i - 1);
            out.append("a%d: &a%d [%s, %s, %s, %s]\n".formatted(i, i, before, before, before, before));
        }
        return out.toString();
    }

    private static void assertRefused(List<Object> words, String place, String remedy) {
        CommandRun run = CommandRun.of(words.toArray());
        assertThat(run.code()).as("%s: %s", words, run.err()).isEqualTo(3);
        assertThat(run.out()).as("%s", words).isEmpty();
        assertThat(run.err())
                .as("%s", words)
                .contains(place, remedy)
                .doesNotContain("\tat ", "Exception", "fault of Coldward");
    }

    private static List<List<Object>> onASheet(Path sheet) {
        return List.of(
                List.of("race", sheet),
                List.of("race", sheet, "--json"),
                List.of("choose", sheet),
                List.of("reading", sheet),
                List.of("sheet", "check", sheet),
                List.of("sheet", "show", sheet),
                List.of("measure", "sink", sheet, "--hot", "33", "--later", "44,50,50"));
    }

    private static List<List<Object>> onAShop(Path shop) {
        return List.of(
                List.of("watch", shop),
                List.of("rig", shop),
                List.of("journal", "read", shop),
                List.of("release", shop, "heron", "--name", "J. Brook", "--reason", "mended"));
    }

    @ParameterizedTest
    @MethodSource("sheetChanges")
    void aSheet(String what, String by, String place, String remedy) throws IOException {
        String example = Repository.exampleSheet();
        assertThat(example).contains(what);
        Path bad = Files.writeString(folder.resolve("bad.yaml"), example.replace(what, by));
        for (List<Object> words : onASheet(bad)) {
            assertRefused(words, "bad.yaml" + place, remedy);
        }
    }

    @ParameterizedTest
    @MethodSource("files")
    void aFile(String what, byte[] content, String line, String remedy) throws IOException {
        Path bad = Files.write(folder.resolve("bad.yaml"), content);
        for (List<Object> words : onASheet(bad)) {
            assertRefused(words, "bad.yaml" + line, remedy);
        }
        for (List<Object> words : onAShop(bad)) {
            assertRefused(words, "bad.yaml" + line, "");
        }
    }

    @Test
    void aFileThatIsNotThere() {
        Path none = folder.resolve("none.yaml");
        for (List<Object> words : onASheet(none)) {
            assertRefused(words, "none.yaml", "check the path");
        }
        for (List<Object> words : onAShop(none)) {
            assertRefused(words, "none.yaml", "check the path");
        }
    }

    @Test
    void aFolder() {
        for (List<Object> words : onASheet(folder)) {
            assertRefused(words, folder.toString(), "name the YAML file in it");
        }
        assertRefused(List.of("watch", folder), folder.toString(), "name the YAML file in it");
        assertRefused(List.of("rig", folder), folder.toString(), "name the YAML file in it");
    }

    @Test
    void sheetsInACircle() throws IOException {
        Path a = Files.writeString(folder.resolve("a.yaml"), "based_on: b.yaml\nprinter: a\n");
        Files.writeString(folder.resolve("b.yaml"), "printer: b\nbased_on: a.yaml\n");
        for (List<Object> words : onASheet(a)) {
            assertRefused(words, "b.yaml:2: based_on", "take one based_on out");
        }
    }

    @ParameterizedTest
    @MethodSource("shopChanges")
    void aShop(String what, String by, String place, String remedy) throws IOException {
        Path shop = coldward.app.shop.SampleShop.layOut(folder, 7070);
        String text = Repository.text(shop);
        assertThat(text).contains(what);
        Files.writeString(shop, text.replace(what, by));
        for (List<Object> words : onAShop(shop)) {
            assertRefused(words, "brook-lane.yaml", remedy);
            assertRefused(words, place, remedy);
        }
    }

    /** The shop file is sound, one of its sheets is not: the message leads there. */
    @Test
    void aShopWithABadSheet() throws IOException {
        Path shop = coldward.app.shop.SampleShop.layOut(folder, 7070);
        Path robin = folder.resolve("robin.yaml");
        Files.writeString(robin, Repository.text(robin).replace("air: 45 degC", "air: 45"));
        assertRefused(List.of("watch", shop), "robin.yaml:4: surroundings.air", "25 degC");
    }

    /** What is typed wrong, not written wrong in a file. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "rase heron.yaml",
                "race",
                "race a.yaml b.yaml",
                "race heron.yaml --draw 5",
                "race heron.yaml --draws",
                "race heron.yaml --draws many",
                "race heron.yaml --draws -1",
                "race heron.yaml --draws 100000000",
                "race heron.yaml --theme pink",
                "choose",
                "choose heron.yaml --necks unobtainium",
                "choose heron.yaml --plastics cheese",
                "measure",
                "measure sink heron.yaml",
                "measure sink heron.yaml --hot warm --later 44,50,50",
                "reading",
                "reading heron.yaml --true fast",
                "reading explain --true 9000",
                "reading explain --true 9000 --shown 3000 --pulses two",
                "sheet",
                "sheet chek heron.yaml",
                "sheet new new.yaml",
                "schema nothing",
                "journal",
                "journal prove heron.yaml --anchor 12",
                "watch",
                "release shop.yaml heron",
                "rig",
                "rig fail heron",
                "open --port many",
                "tour now",
            })
    void aCommandLine(String line) throws IOException {
        Path heron = Files.writeString(folder.resolve("heron.yaml"), Repository.exampleSheet());
        Path state = Files.createDirectories(folder.resolve("state"));
        Object[] words = line.isEmpty()
                ? new Object[0]
                : Stream.of(line.split(" ", -1))
                        .map(w -> w.equals("heron.yaml") ? (line.startsWith("journal") ? state : heron).toString() : w)
                        .toArray();
        CommandRun run = CommandRun.of(words);
        assertThat(run.code()).as(run.out() + run.err()).isEqualTo(2);
        assertThat(run.out() + run.err()).isNotBlank().doesNotContain("\tat ", "Exception");
    }
}
