package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Build;
import coldward.model.build.Origin;
import coldward.model.wiring.Board;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Use;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.quantity.DataError;
import coldward.sheet.keys.WiringClasses;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WiringSheetTest {

    private static final Path HERON = Path.of("src/test/resources/sheets/heron.yaml");

    private static final String WIRING = """
            wiring:
              hottest: 70 degC
              boards:
                - name: main
                  class: 24 V board, 3.3 V logic
                  ports: [{name: fan, current_limit: 2 A}, {name: spare, switched: fixed, rail: 24V, plus: 7, minus: 8, current_limit: 1 A}]
              fan: {class: 24 V 30x10 three-wire, running_current: 60 mA}
              diodes: [{name: d1, class: small-signal Schottky}]
              wires:
                - {from: main.1, to: fan.plus, class: harness, length: 0.8 m, colour: red}
                - {from: main.2, to: fan.minus, gauge: 26 AWG, length: 0.8 m, colour: black}
                - {from: fan.third, to: d1.cathode, class: fan lead, length: 300 mm}
                - {name: signal, from: d1.anode, to: main.3, class: harness, length: 0.5 m, colour: white}
              connectors: [{name: x1, class: 2.5 mm crimp, contacts: [main.1, main.2, main.3]}]
              names:
                - {contact: main.3, on_board: FAN, in_drawing: K4-3, in_settings: "7",
                   settled_by: {test: buzzed out, found: tach, date: 3 May}}
            """;

    private static final String BARE =
            "wiring: {boards: [{name: main, class: \"24 V board, 3.3 V logic\"}]," + " fan: 24 V 30x10 two-wire}\n";

    @TempDir
    Path folder;

    private Path sheet(String wiring) throws IOException {
        return Files.writeString(folder.resolve("heron.yaml"), Files.readString(HERON) + "\n" + wiring);
    }

    private static Wiring wiring(Build build) {
        return build.wiring().orElseThrow();
    }

    @Test
    void aSheetWithoutWiringHasNone() {
        assertThat(Sheets.read(HERON).wiring()).isEmpty();
        assertThat(Sheets.read(HERON).origins().keySet()).noneMatch(k -> k.startsWith("wiring"));
    }

    @Test
    void classesAreJoinedByNameWithWhatIsGiven() throws IOException {
        Build build = Sheets.read(sheet(WIRING));
        Wiring wiring = wiring(build);
        Board main = wiring.board("main").orElseThrow();
        assertThat(main.ports()).extracting(Port::name).containsExactly("fan", "spare");
        assertThat(main.ports().getFirst().currentLimit()).isEqualTo(2);
        assertThat(main.ports().getFirst().switching()).isEqualTo(Port.Switching.LOW_SIDE);
        assertThat(wiring.fan().runningCurrent()).isEqualTo(0.06);
        assertThat(wiring.fan().startVoltage()).isEqualTo(12);
        assertThat(wiring.fan().ratedVoltage()).isEqualTo(24);
        assertThat(wiring.hottest()).isCloseTo(343.15, within(1e-9));
        assertThat(wiring.coldest()).isCloseTo(273.15, within(1e-9));
        assertThat(wiring.wires()).extracting(w -> w.name()).containsExactly("w1", "w2", "w3", "signal");
        assertThat(wiring.wires().get(1).gauge()).isCloseTo(26, within(1e-6));
        assertThat(wiring.wires().get(2).colour()).isEmpty();
        assertThat(wiring.uses(ContactId.parse("main.3"))).hasOnlyElementsOfType(Use.AtInput.class);
        assertThat(wiring.namesOf(ContactId.parse("main.3")).orElseThrow().agree())
                .isFalse();
        assertThat(wiring.contactRating(ContactId.parse("main.1"))).hasValue(3);
        assertThat(wiring.contactRating(WiredFan.PLUS)).isEmpty();
        assertThat(build.origins())
                .containsEntry("wiring.boards[0].ports[0].current_limit", new Origin(Origin.Kind.GIVEN, "", "2 A"))
                .hasEntrySatisfying("wiring.boards[0].ports[0].rail", o -> {
                    assertThat(o.kind()).isEqualTo(Origin.Kind.CLASS);
                    assertThat(o.detail()).startsWith("24 V board, 3.3 V logic: input: ");
                })
                .hasEntrySatisfying("wiring.coldest", o -> assertThat(o.kind()).isEqualTo(Origin.Kind.DEFAULT));
    }

    @Test
    void theFullSheetReadsBackToTheSameWiring() throws IOException {
        Build build = Sheets.read(sheet(WIRING));
        Path full = Files.writeString(folder.resolve("full.yaml"), Sheets.show(folder.resolve("heron.yaml"), true));
        Wiring again = wiring(Sheets.read(full));
        assertThat(again.boards()).isEqualTo(wiring(build).boards());
        assertThat(again.wires()).isEqualTo(wiring(build).wires());
        assertThat(again.fan()).isEqualTo(wiring(build).fan());
        assertThat(again.names()).isEqualTo(wiring(build).names());
        assertThat(Sheets.check(full).problems()).isEmpty();
        Path given = Files.writeString(folder.resolve("given.yaml"), Sheets.show(folder.resolve("heron.yaml"), false));
        assertThat(wiring(Sheets.read(given))).isEqualTo(wiring(build));
    }

    @Test
    void everyClassMakesAWiringAndHasASource() throws IOException {
        for (String board : WiringClasses.of("boards").keySet()) {
            assertThat(wiring(Sheets.read(sheet(BARE.replace("24 V board, 3.3 V logic", board))))
                            .boards()
                            .getFirst()
                            .rails())
                    .isNotEmpty();
        }
        for (String fan : WiringClasses.of("fan").keySet()) {
            double volts = Double.parseDouble(fan.substring(0, fan.indexOf(' ')));
            String text = Files.readString(HERON).replace("rated_voltage: 24 V", "rated_voltage: " + volts + " V");
            Path file = Files.writeString(
                    folder.resolve("heron.yaml"), text + "\n" + BARE.replace("24 V 30x10 two-wire", fan));
            assertThat(wiring(Sheets.read(file)).fan().ratedVoltage()).isEqualTo(volts);
        }
        for (String kind : WiringClasses.kinds()) {
            assertThat(WiringClasses.of(kind).values()).isNotEmpty().allSatisfy(e -> {
                assertThat(e.source()).isNotBlank();
                assertThat(e.meaning()).isNotBlank();
            });
        }
    }

    /** E-BAT85-0.1 to -100 of published.csv: highest forward voltage at 25 degC, to the 10 mV of the fit. */
    @ParameterizedTest
    @CsvSource({"1e-4, 0.240", "1e-3, 0.320", "1e-2, 0.400", "1e-1, 0.800"})
    void theSmallSignalSchottkyIsFittedToItsDataSheet(double amperes, double volts) throws IOException {
        Wiring wiring = wiring(Sheets.read(sheet(WIRING)));
        Part part = wiring.part("d1").orElseThrow();
        assertThat(part).isInstanceOfSatisfying(Part.SeriesDiode.class, d -> {
            double thermal = 8.617333262e-5 * 298.15;
            double forward = d.kind().emission()
                            * thermal
                            * Math.log1p(amperes / d.kind().saturation())
                    + amperes * d.kind().seriesResistance();
            assertThat(forward).isCloseTo(volts, within(0.0105));
            assertThat(d.kind().source()).contains("1996");
        });
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "to: fan.plus | to: fan.pluss | wiring.wires[0].to | fan has fan.plus, fan.minus, fan.third",
                "to: main.3 | to: main.9 | wiring.wires[3].to | no board, part or fan has that contact",
                "gauge: 26 AWG | gauge: 26 | wiring.wires[1].gauge | has no unit",
                "from: main.2 | from: main | wiring.wires[1].from | a contact such as main.3",
                "class: harness, length: 0.8 m | class: harnes, length: 0.8 m | wiring.wires[0].class | did you mean harness",
                "class: harness, length: 0.8 m | length: 0.8 m | wiring.wires[0].gauge | or name a class: fan lead; harness",
                "running_current: 60 mA | running_current: 600 mA | wiring.fan.running_current | at most starting_current",
                "running_current: 60 mA | third_wire: none | wiring.fan.third_wire | but the fan is a three-wire one",
                "current_limit: 2 A | rail: 25V | wiring.boards[0] | the board's rails are 24V, 5V, 3V3",
                "current_limit: 2 A | raill: 24V | wiring.boards[0].ports[0].raill | did you mean rail?",
                "name: d1 | name: main | wiring | that name is taken",
                "name: d1 | name: 1d | wiring.diodes[0].name | a word of letters, digits",
                "contacts: [main.1, main.2, main.3] | contacts: [main.1, main.1] | wiring.connectors[0].contacts | has it already",
                "contacts: [main.1, main.2, main.3] | contacts: [] | wiring.connectors[0].contacts | at least one",
                "contact: main.3 | contact: main.4 | wiring.names[0].contact | main has main.1, main.2",
                "found: tach | found: | wiring.names[0].settled_by.found | has no value",
                "hottest: 70 degC | hottest: 70 degC, | wiring.hottest | unit",
                "hottest: 70 degC | coldest: 90 degC | wiring.coldest | must not be above hottest",
                "plus: 7 | plus: 7.5 | wiring.boards[0].ports[1].plus | a contact's number or word",
                "switched: fixed | switched: sideways | wiring.boards[0].ports[1].switched | low-side",
                "name: signal | name: w1 | wiring | that name is taken"
            })
    void whatIsWrongIsToldAtItsPlace(String from, String to, String key, String words) throws IOException {
        assertThat(WIRING).contains(from);
        Path file = sheet(WIRING.replace(from, to));
        assertThat(Sheets.check(file).problems())
                .as("%s", Sheets.check(file).problems())
                .anySatisfy(p -> {
                    assertThat(p.key()).isEqualTo(key);
                    assertThat(p).hasMessageContaining(words);
                    assertThat(p.line()).isBetween(20, 45);
                    assertThat(p.file()).isEqualTo(file.toString());
                });
    }

    @Test
    void anotherSheetInheritsTheWiringAndChangesAKey() throws IOException {
        sheet(WIRING);
        Path robin = Files.writeString(
                folder.resolve("robin.yaml"),
                "based_on: heron.yaml\nprinter: robin\nwiring: {hottest: 80 degC, fan: {start_voltage: 14 V}}\n");
        Build build = Sheets.read(robin);
        assertThat(wiring(build).hottest()).isCloseTo(353.15, within(1e-9));
        assertThat(wiring(build).fan().startVoltage()).isEqualTo(14);
        assertThat(wiring(build).fan().runningCurrent()).isEqualTo(0.06);
        assertThat(Optional.ofNullable(build.origins().get("wiring.wires[0].length")))
                .hasValueSatisfying(o -> assertThat(o.kind()).isEqualTo(Origin.Kind.INHERITED));
    }

    @Test
    void aWiringWithoutBoardsOrFanIsRefused() throws IOException {
        Path file = sheet("wiring: {}\n");
        assertThatThrownBy(() -> Sheets.read(file))
                .hasMessageContaining("wiring.boards")
                .hasMessageContaining("wiring.fan");
        Path empty = sheet("wiring: {boards: [], fan: 24 V 30x10 two-wire}\n");
        assertThatThrownBy(() -> Sheets.read(empty))
                .isInstanceOf(DataError.class)
                .hasMessageContaining("at least 1");
    }
}
