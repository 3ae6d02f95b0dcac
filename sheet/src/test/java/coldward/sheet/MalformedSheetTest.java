package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.DataError;
import coldward.quantity.DataErrors;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Each malformed sheet gives a message with its place and with what would be right. */
class MalformedSheetTest {

    @TempDir
    Path folder;

    /** One change to the example, the line told (0: the file), the key told, and a part of the remedy. */
    static Stream<Arguments> changes() {
        return Stream.of(
                change("nozzle: 235 degC", "nozzle: 235 mm", 4, "nozzle", "accepted: degC, K, degF"),
                change("nozzle: 235 degC", "nozzle: 235", 4, "nozzle", "has no unit; write for example 235 degC"),
                change("feed: 5 mm^3/s", "feed: -5 mm^3/s", 5, "feed", "between 0 mm^3/s and 500 mm^3/s"),
                change("nozzle: 235 degC", "nozzle: .nan", 4, "nozzle", "not a finite number"),
                change("nozzle: 235 degC", "nozzle: NaN degC", 4, "nozzle", "not a finite number"),
                change("nozzle: 235 degC", "nozzle: .inf", 4, "nozzle", "not a finite number"),
                change("nozzle: 235 degC", "nozzle: 1e999 degC", 4, "nozzle", "out of the reach"),
                change("nozzle: 235 degC", "nozzel: 235 degC", 4, "nozzel", "did you mean nozzle?"),
                change("nozzle: 235 degC", "nozzle: 2000 degC", 4, "nozzle", "between 100 degC and 600 degC"),
                change("nozzle: 235 degC", "nozzle:", 4, "nozzle", "has no value; write for example nozzle: 235 degC"),
                change("nozzle: 235 degC", "nozzle: {a: 1}", 4, "nozzle", "a map where a single value is wanted"),
                change("nozzle: 235 degC", "nozzle: [235 degC]", 4, "nozzle", "a list where a single value is wanted"),
                change("nozzle: 235 degC", "nozzle: true", 4, "nozzle", "a number with a unit"),
                change("nozzle: 235 degC", "nozzle: 235,5 degC", 4, "nozzle", "write a decimal point: 235.5 degC"),
                change("length: 2.1 mm, d", "length: 2,1 mm, d", 8, "neck.length", "write a decimal point: 2.1 mm"),
                change(
                        "nozzle: 235 degC",
                        "nozzle: 235 degC\nnozzle: 240 degC",
                        5,
                        "nozzle",
                        "already stands in line 4"),
                change("nozzle: 235 degC", "\tnozzle: 235 degC", 4, "", "indent with spaces"),
                change(
                        "nozzle: 235 degC",
                        "nozzle: !!binary aGVyb24=",
                        4,
                        "",
                        "tag tag:yaml.org,2002:binary is not used"),
                change("nozzle: 235 degC", "nozzle: !job 235 degC", 4, "", "leave it out"),
                change("nozzle: 235 degC", "nozzle: *warm", 4, "", "write &warm before"),
                change("nozzle: 235 degC", "nozzle: {235 degC", 5, "", "close every bracket"),
                change("nozzle: 235 degC", "? [a, b]\n: c", 4, "", "a key must be a plain word"),
                change("printer: heron", "printer: 12", 1, "printer", "put it in quotes"),
                change("printer: heron", "", 2, "printer", "is missing; write for example printer: heron"),
                change("plastic: PLA ", "plastic: PLAA ", 3, "plastic.softens_at", "did you mean PLA?"),
                change("plastic: PLA ", "plastic: PA ", 3, "plastic.softens_at", "softens_at: 70 degC"),
                change(
                        "plastic: PLA ",
                        "plastic: {name: PLA, feeds_above: 55 degC} ",
                        3,
                        "plastic.feeds_above",
                        "above softens_at"),
                change("material: titanium, ", "material: unobtainium, ", 8, "neck.material", "is not a known metal"),
                change("material: titanium, ", "material: copper, ", 8, "neck.material", "shank: {material: copper}"),
                change("material: titanium, ", "material: aluminium, ", 8, "neck.material", "would pass"),
                change("material: titanium, ", "material: brass, ", 8, "neck.material", "would pass"),
                change("material: titanium, ", "class: thin titanum, ", 8, "neck.class", "did you mean thin titanium?"),
                change(
                        "neck: {material: titanium, length: 2.1 mm, diameter: 3.0 mm, bore: 2.0 mm}",
                        "neck: {bore: 2 mm}",
                        8,
                        "neck.material",
                        "or name a class: thin titanium"),
                change(
                        "neck: {material: titanium, length: 2.1 mm, diameter: 3.0 mm, bore: 2.0 mm}",
                        "neck: []",
                        8,
                        "neck.segments",
                        "at least 1"),
                change("neck: {", "bore: 2 mm\nneck: {", 8, "bore", "keep one of the two"),
                change(
                        "diameter: 3.0 mm, bore",
                        "diameter: 1.9 mm, bore",
                        8,
                        "neck.diameter",
                        "must be above the bore"),
                change(
                        "filament: {diameter: 1.75 mm",
                        "filament: {diameter: 2.85 mm",
                        6,
                        "filament.diameter",
                        "below the bore"),
                change("fins: 10", "fins: 10.5", 10, "sink.fins", "a whole number without unit"),
                change("fins: 10", "fins: 40", 10, "sink.fins", "leave no gap"),
                change("fin_diameter: 20 mm, ", "", 10, "sink.fin_diameter", "or name a class: round 22 mm"),
                change("loss: 1.0", "loss: 1,5", 14, "duct.loss", "write a decimal point"),
                change("loss: 1.0", "loss: 1 m", 14, "duct.loss", "a bare number"),
                change(
                        "free_flow: 1.7 l/s",
                        "free_flow: 1.7 l/s, curve: [{flow: 0 l/s, pressure: 35 Pa}, {flow: 1 l/s, pressure: 0 Pa}]",
                        12,
                        "fan.free_flow",
                        "keep one of the two"),
                change(
                        "free_flow: 1.7 l/s, shutoff_pressure: 35 Pa",
                        "curve: [{flow: 0 l/s, pressure: 35 Pa}]",
                        12,
                        "fan.curve",
                        "at least 2"),
                change(
                        "free_flow: 1.7 l/s, shutoff_pressure: 35 Pa",
                        "curve: [{flow: 0 l/s, pressure: 35 Pa}, {flow: 1 l/s, pressure: 40 Pa}]",
                        12,
                        "fan.curve",
                        "end at pressure 0"),
                change("hub_diameter: 16 mm", "hub_diameter: 30 mm", 13, "fan.hub_diameter", "below tip_diameter"),
                change("rated_speed: 8000 rpm, ", "", 12, "fan.rated_speed", "write for example rated_speed: 8000 rpm"),
                change("fan: {rated_voltage: 24 V", "fan: {class: 40x28 axial, rated_voltage: 24 V", 0, "", ""),
                change(
                        "rated_speed: 8000 rpm, speed_tolerance",
                        "class: 25x10 axial, rated_speed: 60000 rpm, speed_tolerance",
                        12,
                        "fan.rated_speed",
                        "instead of the class"),
                change("counter: sampled", "counter: edge", 16, "reading.sampled_every", "belongs to counter: sampled"),
                change(", sampled_every: 1 ms", "", 16, "reading.sampled_every", "sampled_every: 1 ms"),
                change(
                        "actions: [hold, heater-off, block-fan]",
                        "actions: [hold, heater_off]",
                        18,
                        "response.actions",
                        "did you mean heater-off?"),
                change(
                        "actions: [hold, heater-off, block-fan]",
                        "actions: []",
                        18,
                        "response.actions",
                        "at least one word"),
                change(
                        "actions: [hold, heater-off, block-fan]",
                        "actions: [hold, hold]",
                        18,
                        "response.actions",
                        "write it once"),
                change(
                        "block_loss_blown: 0.18 W/K",
                        "block_loss_blown: 0.05 W/K",
                        7,
                        "hot_side.block_loss_blown",
                        "at least block_loss"),
                change(
                        "block_loss: 0.06 W/K, ",
                        "block_cooldown: {from: 100 degC, to: 150 degC, time: 60 s}, ",
                        7,
                        "hot_side.block_cooldown",
                        "for example {from: 200 degC"),
                change(
                        "surroundings: {air: 25 degC}",
                        "surroundings: {air: 65 degC}",
                        2,
                        "surroundings.air",
                        "below the plastic's softens_at"),
                change(
                        "surroundings: {air: 25 degC}",
                        "surroundings: {air: 25 degC, lenght: 1 mm}",
                        2,
                        "surroundings.lenght",
                        "there is no such key"),
                change(
                        "surroundings: {air: 25 degC}",
                        "surroundings: {nozzle: 25 degC}",
                        2,
                        "surroundings.nozzle",
                        "known here: air, pressure"),
                change(
                        "surroundings: {air: 25 degC}",
                        "surroundings: {rated_speed: 5 rpm}",
                        2,
                        "surroundings.rated_speed",
                        "it belongs elsewhere: fan.rated_speed"),
                change("trip: {speed: 5200 rpm, ", "trip: {", 17, "trip.speed", "write for example speed: 5200 rpm"),
                change(
                        "limits: {softened_depth: 3 mm",
                        "limits: {softened_depth: 30 mm",
                        15,
                        "limits.softened_depth",
                        "below the sink's length"),
                change("shank: {diameter: 6 mm", "shank: {diameter: 12 mm", 9, "shank.diameter", "core_diameter"),
                change("printer: heron", "printer: heron\nbased_on: nowhere.yaml", 2, "based_on", "taken relative to"),
                change("printer: heron", "printer: heron\nbased_on: 7", 2, "based_on", "in quotes"),
                change(
                        "printer: heron",
                        "printer: heron\nspreads: {neck: 300 %}",
                        2,
                        "spreads.neck",
                        "between 0 and 2"),
                change("printer: heron", "printer: heron\nwirring: {}", 2, "wirring", "did you mean wiring"));
    }

    private static Arguments change(String what, String by, int line, String key, String remedy) {
        return Arguments.of(what, by, line, key, remedy);
    }

    @ParameterizedTest
    @MethodSource("changes")
    void isToldWithPlaceAndRemedy(String what, String by, int line, String key, String remedy) throws IOException {
        String example = Files.readString(SheetsTest.HERON);
        assertThat(example).contains(what);
        Path file = Files.writeString(folder.resolve("bad.yaml"), example.replace(what, by));
        if (remedy.isEmpty()) {
            assertThat(Sheets.read(file).printer()).isEqualTo("heron");
            return;
        }
        List<DataError> found = Sheets.check(file).problems();
        String all = found.stream().map(Throwable::getMessage).collect(Collectors.joining("\n"));
        assertThat(found).as(all).isNotEmpty().allSatisfy(e -> {
            assertThat(e.file()).isEqualTo(file.toString());
            assertThat(e.getMessage()).hasSizeLessThan(700).doesNotContain("Exception");
        });
        assertThat(found).as(all).anySatisfy(e -> {
            assertThat(e.line()).isEqualTo(line);
            assertThat(e.key()).isEqualTo(key);
            assertThat(e.getMessage()).contains(remedy);
        });
        assertThatThrownBy(() -> Sheets.read(file)).isInstanceOfAny(DataError.class, DataErrors.class);
    }

    @Test
    void everythingWrongIsToldAtOnce() throws IOException {
        String bad = Files.readString(SheetsTest.HERON)
                .replace("nozzle: 235 degC", "nozzle: 235")
                .replace("feed: 5", "fed: 5")
                .replace("fins: 10", "fins: ten")
                .replace("duty: 50 %", "duty: 150 %");
        Path file = Files.writeString(folder.resolve("bad.yaml"), bad);
        assertThatThrownBy(() -> Sheets.read(file))
                .isInstanceOfSatisfying(
                        DataErrors.class,
                        e -> assertThat(e.all()).extracting(DataError::line).containsExactly(4, 5, 10, 16))
                .hasMessageContainingAll("nozzle", "did you mean feed?", "sink.fins", "reading.duty");
    }

    /** Whole files, and a part of the message. */
    static Stream<Arguments> files() {
        return Stream.of(
                Arguments.of(new byte[0], 0, "is empty; `coldward sheet new`"),
                Arguments.of("# only a comment\n".getBytes(StandardCharsets.UTF_8), 0, "is empty"),
                Arguments.of("just words".getBytes(StandardCharsets.UTF_8), 1, "begin with for example printer: heron"),
                Arguments.of("- a\n- b\n".getBytes(StandardCharsets.UTF_8), 1, "a list where a map is wanted"),
                Arguments.of("printer: a\n---\nprinter: b\n".getBytes(StandardCharsets.UTF_8), 2, "one document"),
                Arguments.of(new byte[] {0x7f, 'E', 'L', 'F', 0, 1, 2, '\n'}, 1, "binary file"),
                Arguments.of("printer: h\nplastic: caf\u00e9".getBytes(StandardCharsets.ISO_8859_1), 2, "UTF-8"),
                Arguments.of("printer: heron".getBytes(StandardCharsets.UTF_16LE), 1, "UTF-8"),
                Arguments.of("printer: \u0007\n".getBytes(StandardCharsets.UTF_8), 0, "not YAML"),
                Arguments.of("x".repeat(2 << 20).getBytes(StandardCharsets.UTF_8), 0, "larger than 1 MiB"),
                Arguments.of(("printer: " + "[".repeat(5000)).getBytes(StandardCharsets.UTF_8), 1, "nested deeper"),
                Arguments.of("{a: ".repeat(900).getBytes(StandardCharsets.UTF_8), 1, "nested deeper"),
                Arguments.of(bomb().getBytes(StandardCharsets.UTF_8), 7, "aliases are followed"),
                Arguments.of("printer: &a [*a]\n".getBytes(StandardCharsets.UTF_8), 1, "names no finished value"));
    }

    private static String bomb() {
        StringBuilder out = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 20; i++) {
            String before = "*a" + (i - 1);
            out.append("a%d: &a%d [%s, %s, %s, %s]\n".formatted(i, i, before, before, before, before));
        }
        return out.toString();
    }

    @ParameterizedTest
    @MethodSource("files")
    void aFileThatIsNoSheetIsToldWithItsPlace(byte[] content, int line, String remedy) throws IOException {
        Path file = Files.write(folder.resolve("bad.yaml"), content);
        assertThat(Sheets.check(file).problems()).singleElement().satisfies(e -> {
            assertThat(e.line()).isEqualTo(line);
            assertThat(e.getMessage()).contains(file.toString()).contains(remedy);
        });
    }

    @Test
    void missingFolderAndUnreadable() throws IOException {
        assertThatThrownBy(() -> Sheets.read(folder.resolve("none.yaml")))
                .isInstanceOf(DataError.class)
                .hasMessageContaining("no such file");
        assertThatThrownBy(() -> Sheets.read(folder))
                .isInstanceOf(DataError.class)
                .hasMessageContaining("this is a folder; name the YAML file in it");
        Path locked = Files.writeString(folder.resolve("locked.yaml"), "printer: heron");
        Files.setPosixFilePermissions(locked, PosixFilePermissions.fromString("---------"));
        Assumptions.assumeFalse(Files.isReadable(locked), "this user may read everything");
        assertThatThrownBy(() -> Sheets.read(locked))
                .isInstanceOf(DataError.class)
                .hasMessageContaining("give yourself permission");
    }

    @Test
    void circlesAndLongChainsNameBothFiles() throws IOException {
        Path a = Files.writeString(folder.resolve("a.yaml"), "based_on: b.yaml\nprinter: a\n");
        Files.writeString(folder.resolve("b.yaml"), "printer: b\nbased_on: a.yaml\n");
        assertThatThrownBy(() -> Sheets.read(a))
                .isInstanceOf(DataError.class)
                .hasMessageContainingAll("b.yaml:2: based_on", "a.yaml", "take one based_on out");
        Path self = Files.writeString(folder.resolve("self.yaml"), "based_on: ./self.yaml\n");
        assertThatThrownBy(() -> Sheets.read(self)).hasMessageContaining("again");
        for (int i = 0; i < 12; i++) {
            Files.writeString(folder.resolve("c" + i + ".yaml"), "based_on: c" + (i + 1) + ".yaml\n");
        }
        assertThatThrownBy(() -> Sheets.read(folder.resolve("c0.yaml")))
                .isInstanceOf(DataError.class)
                .hasMessageContainingAll("c9.yaml", "c10.yaml", "at most 10");
    }
}
