package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.build.Build;
import coldward.model.build.Origin;
import coldward.quantity.CannotRun;
import coldward.quantity.InputError;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is shown reads back to the same build, and what is patched changes nothing else; over seeded random sheets. */
class RoundTripTest {

    private static final int SHEETS = 150;

    @TempDir
    Path folder;

    private Build read(String name, String text) throws IOException {
        return Sheets.read(Files.writeString(folder.resolve(name), text));
    }

    private static void assertSame(Build one, Build other, String text) {
        assertThat(other.withHotEnd(one.hotEnd())).as(text).satisfies(b -> {
            assertThat(b.printer()).isEqualTo(one.printer());
            assertThat(b.reading()).isEqualTo(one.reading());
            assertThat(b.trip()).isEqualTo(one.trip());
            assertThat(b.response()).isEqualTo(one.response());
            assertThat(b.spuriousTripsPerYear()).isEqualTo(one.spuriousTripsPerYear());
            assertThat(b.spreads()).isEqualTo(one.spreads());
        });
        assertThat(other.hotEnd()).as(text).isEqualTo(one.hotEnd());
    }

    @Test
    void whatIsShownInFullReadsBack() throws IOException {
        RandomSheets sheets = new RandomSheets(7);
        for (int i = 0; i < SHEETS; i++) {
            String text = sheets.sheet();
            Build build = read("sheet.yaml", text);
            Path file = folder.resolve("sheet.yaml");
            String full = Sheets.show(file, true);
            Build again = read("again.yaml", full);
            assertSame(build, again, text + "\n-----\n" + full);
            assertThat(again.restsOnClasses()).isFalse();
            String brief = Sheets.show(file, false);
            assertSame(build, read("brief.yaml", brief), text + "\n-----\n" + brief);
            if (i % 25 == 0) {
                assertThat(Sheets.check(file).problems()).as(text).isEmpty();
                assertThat(Sheets.check(folder.resolve("again.yaml")).problems())
                        .as(full)
                        .isEmpty();
            }
        }
    }

    @Test
    void everyValueShownHasItsOrigin() {
        String full = Sheets.show(SheetsTest.HERON, true);
        assertThat(full)
                .contains("printer: heron  # given")
                .contains("name: PLA  # given")
                .contains("softens_at: 60 degC  # default, PLA, table of plastics")
                .contains("block_fan_latency: 1 s  # default, common practice, no source")
                .contains("actions: [hold, heater-off, block-fan]  # given");
        assertThat(full.lines().filter(l -> !l.endsWith(":") && !l.startsWith("#")))
                .allMatch(l -> l.contains("  # "));
    }

    @Test
    void randomPatchesSurvive() throws IOException {
        RandomSheets sheets = new RandomSheets(11);
        Random random = new Random(13);
        for (int i = 0; i < SHEETS; i++) {
            String text = sheets.sheet();
            String before = text;
            for (int j = 0; j < 4; j++) {
                String key = RandomSheets.FREE.get(random.nextInt(RandomSheets.FREE.size()));
                String value = key.equals("printer") ? "plover" : RandomSheets.within(random, RandomSheets.key(key));
                text = SheetPatch.set(text, key, value);
                Build build = read("patched.yaml", text);
                assertThat(build.origins())
                        .as(key + ": " + value + "\n" + before + "\n-----\n" + text)
                        .containsEntry(key, new Origin(Origin.Kind.GIVEN, "", value));
            }
            List<String> comments = comments(before);
            assertThat(comments(text)).as(before + "\n-----\n" + text).isEqualTo(comments);
        }
    }

    private static List<String> comments(String text) {
        return text.lines()
                .flatMap(l -> l.contains("# ") ? Stream.of(l.substring(l.indexOf("# "))) : Stream.empty())
                .toList();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "a: 1 # c\\n|b|2|a: 1 # c\\nb: 2\\n",
                "a: 1|b|2|a: 1\\nb: 2\\n",
                "a: 1 # c\\n|a|2 mm|a: 2 mm # c\\n",
                "a: {b: 1, c: 2} # c\\nd: 3\\n|a.b|9|a: {b: 9, c: 2} # c\\nd: 3\\n",
                "a: {b: 1} # c\\n|a.c|9|a: {b: 1, c: 9} # c\\n",
                "a: {} # c\\n|a.c|9|a: {c: 9} # c\\n",
                "a: # c\\n  b: 1 # d\\n\\n# e\\nf: 2\\n|a.c|9|a: # c\\n  b: 1 # d\\n  c: 9\\n\\n# e\\nf: 2\\n",
                "a: # c\\n  b: 1\\n|a.x.y|9|a: # c\\n  b: 1\\n  x: {y: 9}\\n",
                "a: 1\\n|x.y.z|9|a: 1\\nx: {y: {z: 9}}\\n",
                "a:\\nb: 1\\n|a|9|a: 9\\nb: 1\\n",
                "a: # c\\nb: 1\\n|a.x|9|a: {x: 9} # c\\nb: 1\\n",
                "sink: compact # c\\n|sink.measured.on|0.3 W/K|sink: {class: compact, measured: {on: 0.3 W/K}} # c\\n",
                "plastic: 'PLA'\\n|plastic.softens_at|58 degC|plastic: {name: 'PLA', softens_at: 58 degC}\\n",
                "a: [1, 2] # c\\n|a|[3]|a: [3] # c\\n",
                "a:\\n  - 1\\n  - 2\\nb: 1\\n|a|[3]|a: [3]\\nb: 1\\n",
                "a: \"x\\\\\\\"y\" # c\\n|a|z|a: z # c\\n",
                "a: {b: 1, # c\\n    d: 2}\\n|a.e|3|a: {b: 1, # c\\n    d: 2, e: 3}\\n",
                "{a: 1}|b|2|{a: 1, b: 2}",
                "a: \uD83D\uDD25 # c\\nb: 1 # d\\n|b|2|a: \uD83D\uDD25 # c\\nb: 2 # d\\n",
                "a: 1\\r\\nb: 2\\r\\n|c|3|a: 1\\r\\nb: 2\\r\\nc: 3\\r\\n",
                "a: &x 1\\nb: *x\\n|b|2|a: &x 1\\nb: 2\\n",
            })
    void patchesInPlace(String before, String key, String value, String after) {
        assertThat(SheetPatch.set(unescaped(before), key, value)).isEqualTo(unescaped(after));
    }

    private static String unescaped(String text) {
        return text.replace("\\r", "\r").replace("\\n", "\n").replace("\\\\\\", "\\");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "a: [1]|a.b|2|a is a list here",
                "a: &x {c: 1}\\nb: *x\\n|b.c|2|is an alias here",
                "reading: none|reading.duty|40 %|not a map",
                "a: 1|a.b|2|not a map",
                "a: 1|b|'2\\n3'|one line",
                "a: 1|b||one line",
                "a: 1|b|{|not YAML",
                "c: {a: 1}|c.b|2 # d|leave comments out",
            })
    void refusesWhatItCannotSetSafely(String before, String key, String value, String hint) {
        String yaml = value == null ? "" : unescaped(value);
        assertThatThrownBy(() -> SheetPatch.set(unescaped(before), key, yaml))
                .isInstanceOf(InputError.class)
                .hasMessageContaining(hint);
    }

    @Test
    void aFileIsReplacedWholeOrNotAtAll() throws IOException {
        Path file = folder.resolve("heron.yaml");
        Files.copy(SheetsTest.HERON, file);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r-----"));
        Map<String, String> values = new LinkedHashMap<>();
        values.put("sink.measured.on", "0.34 W/K");
        values.put("sink.measured.still", "0.04 W/K");
        SheetPatch.apply(file, values);
        assertThat(Sheets.read(file).hotEnd().sink().measured()).isPresent();
        assertThat(file).content().contains("# or `reading: none`");
        assertThat(Files.getPosixFilePermissions(file)).isEqualTo(PosixFilePermissions.fromString("rw-r-----"));
        String good = Files.readString(file);
        values.put("reading.counter.deep", "1");
        assertThatThrownBy(() -> SheetPatch.apply(file, values)).isInstanceOf(InputError.class);
        assertThat(file).hasContent(good);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactly(file);
        }
        Path gone = folder.resolve("gone/heron.yaml");
        assertThatThrownBy(() -> SheetPatch.replace(gone, good))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("is as it was");
    }
}
