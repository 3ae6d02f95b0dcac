package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.quantity.DataError;
import coldward.sheet.yaml.Tree;
import coldward.sheet.yaml.YamlFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Reader and published schema agree: what the reader takes fits the schema, and what does not fit the schema the reader
 * refuses. The reader sees more (ranges with units, metals, fits between parts), never less.
 */
class SchemaAgreementTest {

    @TempDir
    Path folder;

    private static List<DataError> bySchema(String text) {
        Tree tree = YamlFile.parse("sheet.yaml", text);
        List<DataError> found = new ArrayList<>();
        SchemaCheck.sheet(tree, found);
        return found;
    }

    private boolean takenByReader(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.yaml"), text);
        try {
            return Sheets.read(file).printer() != null;
        } catch (DataError | coldward.quantity.DataErrors e) {
            return false;
        }
    }

    @Test
    void whatTheReaderTakesFits() throws IOException {
        RandomSheets sheets = new RandomSheets(17);
        for (int i = 0; i < 120; i++) {
            String text = sheets.sheet();
            assertThat(takenByReader(text)).as(text).isTrue();
            assertThat(bySchema(text)).as(text).isEmpty();
        }
    }

    /** Of the malformed sheets, those that the schema refuses are refused by the reader too, and many are. */
    @Test
    void whatDoesNotFitIsRefused() throws IOException {
        String example = Files.readString(SheetsTest.HERON);
        int refused = 0;
        for (var change : MalformedSheetTest.changes().toList()) {
            String text = example.replace((String) change.get()[0], (String) change.get()[1]);
            List<DataError> found;
            try {
                found = bySchema(text);
            } catch (DataError e) {
                // not YAML at all: no matter for the schema
                continue;
            }
            if (!found.isEmpty()) {
                refused++;
                assertThat(takenByReader(text)).as(text).isFalse();
            }
        }
        assertThat(refused).isGreaterThan(25);
    }

    /** Malformed in ways that a schema can see. */
    static List<String> seen() {
        return List.of(
                "nozzle: 235",
                "nozzle: 235 mm",
                "nozzle: 2,5 degC",
                "nozzle: [1]",
                "nozzle: true",
                "nozzle:",
                "feed: -1 mm^3/s",
                "nozzel: 235 degC",
                "plastic: 5",
                "plastic: {nam: PLA}",
                "neck: thick titanium",
                "neck: []",
                "neck: [{material: titanium}]",
                "fan: {class: 40x10 axial}",
                "fan: {curve: [{flow: 1 l/s, pressure: 0 Pa}], rated_speed: 8000 rpm}",
                "sink: {fins: 2.5}",
                "sink: {fins: 0}",
                "duct: {loss: 1 m}",
                "duct: {loss: -1}",
                "reading: nothing",
                "reading: {counter: eyes}",
                "reading: {pulses_per_turn: 13}",
                "trip: {confirmations: 3}",
                "response: {actions: [hold, hold]}",
                "response: {actions: [stop]}",
                "response: {actions: hold}",
                "printer: 12",
                "printer: ''",
                "printer: ' '",
                "spreads: {nek: 10 %}",
                "fan: {rated_speed: 8000 rpm, curve_with_duct: maybe}");
    }

    @ParameterizedTest
    @MethodSource("seen")
    void bothRefuse(String line) throws IOException {
        String key = line.substring(0, line.indexOf(':') + 1);
        String text = Files.readString(SheetsTest.HERON)
                        .replaceAll("(?m)^" + (key.equals("nozzel:") ? "nozzle:" : key) + ".*\\n( .*\\n)*", "")
                + line + "\n";
        assertThat(takenByReader(text)).as(text).isFalse();
        assertThat(bySchema(text)).as(text).isNotEmpty();
    }

    @Test
    void aSheetBasedOnAnotherMayLeaveThingsOut() {
        assertThat(bySchema("based_on: heron.yaml\nfan: {speed_tolerance: 5 %}\n"))
                .isEmpty();
        assertThat(bySchema("fan: {speed_tolerance: 5 %}\n")).isNotEmpty();
    }

    @Test
    void theExampleShopFits() {
        assertThat(Shops.check(Path.of("src/test/resources/shops/brook-lane.yaml"), Map.of()))
                .isEmpty();
        List<DataError> found = new ArrayList<>();
        SchemaCheck.shop(
                YamlFile.parse("shop.yaml", "shop: x\nprinters: [{sheet: a.yaml, link: {https: {}}}]\n"), found);
        assertThat(found)
                .singleElement()
                .satisfies(e -> assertThat(e.getMessage()).contains("shop.yaml:2"));
    }
}
