package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Action;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.ReadName;
import coldward.model.shop.Shop;
import coldward.quantity.DataError;
import coldward.quantity.DataErrors;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class ShopsTest {

    private static final Path SHOP = Path.of("src/test/resources/shops/brook-lane.yaml");
    private static final String SECRET = "k3ep-0ut";

    @TempDir
    Path folder;

    @BeforeEach
    void sheets() throws IOException {
        Files.createDirectories(folder.resolve("shops"));
        Files.createDirectories(folder.resolve("sheets"));
        Files.copy(SheetsTest.HERON, folder.resolve("sheets/heron.yaml"));
        Files.copy(SHOP.resolveSibling("finch.yaml"), folder.resolve("shops/finch.yaml"));
    }

    private Path shop(String text) throws IOException {
        return Files.writeString(folder.resolve("shops/shop.yaml"), text);
    }

    private static <T> T link(Shop.Printer printer, Class<T> type) {
        return type.cast(printer.link());
    }

    @Test
    void theExampleReads() {
        Shop shop = Shops.read(SHOP);
        assertThat(shop.name()).isEqualTo("brook lane");
        assertThat(shop.state())
                .isEqualTo(Path.of("src/test/resources/shops/state").toString());
        assertThat(shop.printers()).extracting(Shop.Printer::name).containsExactly("heron", "finch-1", "finch 2");
        LinkSpec.Http heron = link(shop.printers().getFirst(), LinkSpec.Http.class);
        assertThat(heron.base()).isEqualTo("http://localhost:7070/heron");
        assertThat(heron.every()).isEqualTo(0.5);
        assertThat(heron.reads())
                .containsEntry(ReadName.SPEED, new LinkSpec.HttpRead("/fan", "/speed_rpm", 1, 0))
                .containsEntry(ReadName.NOZZLE, new LinkSpec.HttpRead("/heat", "/nozzle_degC", 1, 273.15))
                .containsEntry(ReadName.BLOCK_FAN, new LinkSpec.HttpRead("/heat", "/block_fan_percent", 0.01, 0))
                .containsEntry(ReadName.WORKING, new LinkSpec.HttpRead("/job", "/feeding", 1, 0));
        assertThat(heron.acts())
                .containsEntry(Action.HOLD, new LinkSpec.HttpAct("POST", "/do/hold", Optional.empty()))
                .containsEntry(
                        Action.HEATER_OFF,
                        new LinkSpec.HttpAct("POST", "/do/heater-off", Optional.of("{\"heat\":0,\"at\":\"heron\"}")));
        assertThat(heron.proofs())
                .containsEntry(Action.HOLD, new LinkSpec.Proof(ReadName.WORKING, 0, 0, 5))
                .containsEntry(Action.HEATER_OFF, new LinkSpec.Proof(ReadName.NOZZLE_TARGET, 273.15, 1, 2))
                .containsEntry(Action.BLOCK_FAN, new LinkSpec.Proof(ReadName.BLOCK_FAN, 1, 0.05, 2));
        assertThat(shop.printers().getFirst().rules().unheardAfter()).isEqualTo(5);
        assertThat(shop.printers().getFirst().rules().unheardRespondsAfter()).isEmpty();
    }

    @Test
    void likeCopiesAndNamesAreReplaced() {
        List<Shop.Printer> printers = Shops.read(SHOP).printers();
        LinkSpec.Http second = link(printers.get(2), LinkSpec.Http.class);
        assertThat(second.base()).isEqualTo("http://localhost:7070/finch%202");
        assertThat(second.every()).isEqualTo(2);
        assertThat(second.reads()).containsKeys(ReadName.SPEED, ReadName.NOZZLE_TARGET);
        assertThat(second.acts().get(Action.HEATER_OFF))
                .isEqualTo(
                        new LinkSpec.HttpAct("POST", "/do/heater-off", Optional.of("{\"heat\":0,\"at\":\"finch 2\"}")));
        // the longer of five reports of 0.5 s and four polls of 2 s
        assertThat(printers.get(2).rules().unheardAfter()).isCloseTo(8, within(1e-12));
        assertThat(printers.get(2).rules().unheardRespondsAfter()).hasValue(30);
        assertThat(printers.get(2).rules().contradictedResponds()).isTrue();
    }

    @Test
    void theExampleFitsItsSchema() {
        assertThat(Shops.check(SHOP, Map.of())).isEmpty();
    }

    @Test
    void secretsComeFromTheEnvironmentOrAFileAndStayOutOfTexts() throws IOException {
        Files.writeString(folder.resolve("shops/heron.token"), SECRET + "\n");
        Path file = shop(example()
                .replace(
                        "every: 500 ms}",
                        "every: 500 ms, headers: {Authorization: {env: HERON_TOKEN}, X-Shop: {file: heron.token}}}"));
        LinkSpec.Http link = link(
                Shops.read(file, Map.of("HERON_TOKEN", "Bearer " + SECRET))
                        .printers()
                        .getFirst(),
                LinkSpec.Http.class);
        assertThat(link.headers())
                .containsEntry("Authorization", "Bearer " + SECRET)
                .containsEntry("X-Shop", SECRET);
        assertThat(link.toString()).doesNotContain(SECRET);
        assertThatThrownBy(() -> Shops.read(file, Map.of("HERON_TOKEM", SECRET)))
                .hasMessageContainingAll("HERON_TOKEN is not set", "there is HERON_TOKEM")
                .message()
                .doesNotContain(SECRET);
        assertThatThrownBy(() -> Shops.read(file, Map.of("HERON_TOKEN", SECRET + "\r\nX: y")))
                .hasMessageContaining("one line of plain text")
                .message()
                .doesNotContain(SECRET);
    }

    private static String example() throws IOException {
        return Files.readString(SHOP);
    }

    static Stream<Arguments> changes() {
        return Stream.of(
                change("shop: brook lane", "", "shop:", "is missing; write for example shop: brook lane"),
                change(
                        "shop: brook lane",
                        "shop: brook lane\nnotices: []",
                        "shop.yaml:2: notices",
                        "a list where a map is wanted"),
                change("printers:", "printers: {}\nx:", "shop.yaml:3: printers", "a list of maps is wanted"),
                change("../sheets/heron.yaml", "../sheets/herons.yaml", "shop.yaml:4: sheet", "no such file"),
                change("../sheets/heron.yaml", "../sheets", "shop.yaml:4: sheet", "this is a folder"),
                change("finch.yaml", "../sheets/heron.yaml\n    name: heron", "names", "keep one of the two"),
                change(
                        "[finch-1, finch 2]",
                        "[heron]",
                        "shop.yaml:22: printers[1].names",
                        "printer heron is listed twice"),
                change("[finch-1, finch 2]", "[a/b]", "printers[1].names", "is not a name of letters"),
                change("[finch-1, finch 2]", "[]", "printers[1].names", "at least one text"),
                change(
                        "http://localhost:7070/heron",
                        "localhost:7070",
                        "shop.yaml:6: printers[0].link.http.base",
                        "http or https"),
                change(
                        "http://localhost:7070/heron",
                        "http://me:" + SECRET + "@h/heron",
                        "printers[0].link.http.base",
                        "headers: {Authorization: {env: NAME}}"),
                change(
                        "http://localhost:7070/heron",
                        "http://local host/",
                        "printers[0].link.http.base",
                        "http://localhost:7070/heron"),
                change(
                        "http://localhost:7070/heron",
                        "http://localhost:7070/heron?a=1",
                        "printers[0].link.http.base",
                        "plain address"),
                change("every: 500 ms", "every: 500", "printers[0].link.http.every", "has no unit"),
                change("every: 500 ms", "every: 1 ms", "printers[0].link.http.every", "between 50 ms and 1 h"),
                change(
                        ", every: 500 ms",
                        "",
                        "printers[0].link.http.every",
                        "is missing; write for example every: 500 ms"),
                change(
                        "every: 500 ms",
                        "every: 500 ms, headers: {Authorization: " + SECRET + "}",
                        "printers[0].link.http.headers.Authorization",
                        "{env: HERON_TOKEN}"),
                change(
                        "every: 500 ms",
                        "every: 500 ms, headers: {Authorization: {value: " + SECRET + "}}",
                        "printers[0].link.http.headers.Authorization",
                        "known here: env, file"),
                change(
                        "every: 500 ms",
                        "every: 500 ms, headers: {\"bad name\": {env: PATH}}",
                        "printers[0].link.http.headers",
                        "RFC 9110"),
                change(
                        "every: 500 ms",
                        "every: 500 ms, headers: {A: {env: X, file: y}}",
                        "printers[0].link.http.headers.A",
                        "exactly one of env and file"),
                change(
                        "every: 500 ms",
                        "every: 500 ms, headers: {A: {file: nothing}}",
                        "printers[0].link.http.headers.A.file",
                        "put the value there"),
                change(
                        "pointer: /speed_rpm",
                        "pointer: speed_rpm",
                        "shop.yaml:8: printers[0].link.reads.speed.pointer",
                        "JSON Pointer (RFC 6901)"),
                change(
                        "pointer: /speed_rpm",
                        "pointer: /a~2b",
                        "printers[0].link.reads.speed.pointer",
                        "JSON Pointer (RFC 6901)"),
                change("path: /fan", "path: fan", "printers[0].link.reads.speed.path", "begins with /"),
                change(", unit: rpm", "", "printers[0].link.reads.speed.unit", "accepted: rpm, 1/min"),
                change("unit: rpm", "unit: degC", "printers[0].link.reads.speed.unit", "no unit of speed of turn"),
                change(
                        "/feeding}",
                        "/feeding, unit: s}",
                        "printers[0].link.reads.working.unit",
                        "has no unit; take it out"),
                change(
                        "        speed: {path: /fan, pointer: /speed_rpm, unit: rpm}\n",
                        "",
                        "printers[0].link.reads.speed",
                        "or reading: none in the sheet"),
                change(
                        "        nozzle_target: {path: /heat, pointer: /target_degC, unit: degC}\n",
                        "",
                        "printers[0].link.proofs.heater-off.read",
                        "nozzle_target is not among the reads; map it"),
                change(
                        "        hold: {method: POST, path: /do/hold}\n",
                        "",
                        "printers[0].link.acts.hold",
                        "take it out of the sheet's response"),
                change(
                        "        hold: {read: working, is: false, within: 5 s}\n",
                        "",
                        "printers[0].link.proofs.hold",
                        "nothing would show that hold has taken effect"),
                change("is: false", "is: 0 degC", "printers[0].link.proofs.hold.is", "true or false"),
                change("is: 0 degC", "is: 0", "printers[0].link.proofs.heater-off.is", "has no unit"),
                change(
                        "tolerance: 5 %",
                        "tolerance: -5 %", "printers[0].link.proofs.block-fan.tolerance", "0 or above"),
                change("read: working", "read: workin", "printers[0].link.proofs.hold.read", "did you mean working?"),
                change(
                        "method: POST, path: /do/hold",
                        "method: SEND, path: /do/hold",
                        "printers[0].link.acts.hold.method",
                        "POST, PUT"),
                change(
                        "body: {heat: 0, at: \"{name}\"}",
                        "body: '{heat: 0'",
                        "printers[0].link.acts.heater-off.body",
                        "is not JSON"),
                change("like: heron", "like: hern", "link.like", "did you mean heron?"),
                change("like: heron", "like: finch-1", "link.like", "in a circle"),
                change(
                        "  - sheet: finch.yaml",
                        "  - sheet: ../sheets/heron.yaml\n    link: {like: heron}\n  - sheet: finch.yaml",
                        "printers[1].sheet",
                        "printer heron is listed twice"),
                change(
                        "unheard_responds_after: 30 s",
                        "unheard_respond_after: 30 s",
                        "printers[1].rules",
                        "did you mean unheard_responds_after?"),
                change(
                        "contradicted_responds: yes",
                        "contradicted_responds: maybe",
                        "contradicted_responds",
                        "yes or no is wanted"));
    }

    private static Arguments change(String what, String by, String place, String remedy) {
        return Arguments.of(what, by, place, remedy);
    }

    @ParameterizedTest
    @MethodSource("changes")
    void isToldWithPlaceAndRemedy(String what, String by, String place, String remedy) throws IOException {
        assertThat(example()).contains(what);
        Path file = shop(example().replace(what, by));
        List<DataError> found = Shops.check(file, Map.of());
        String all = found.stream().map(Throwable::getMessage).collect(Collectors.joining("\n"));
        assertThat(found)
                .as(all)
                .isNotEmpty()
                .anySatisfy(e -> assertThat(e.getMessage()).contains(place, remedy));
        assertThat(all).doesNotContain(SECRET);
        assertThatThrownBy(() -> Shops.read(file, Map.of())).isInstanceOfAny(DataError.class, DataErrors.class);
    }

    @Test
    void severalMachinesNeedDifferentLinks() throws IOException {
        Path file = shop(example().replace("{name}", "same"));
        assertThatThrownBy(() -> Shops.read(file, Map.of()))
                .isInstanceOf(DataError.class)
                .hasMessageContainingAll("printers[1].names", "put {name} where they differ");
    }

    @Test
    void whatIsWrongInALinkThatOthersCopyIsToldOnce() throws IOException {
        Path file = shop(example().replace("unit: rpm", "unit: V"));
        assertThat(Shops.check(file, Map.of())).hasSize(1);
    }

    @Test
    void whatIsWrongInASheetIsToldThere() throws IOException {
        Files.writeString(folder.resolve("shops/finch.yaml"), "printer: finch\nplastic: PLA\n");
        Path file = shop(example().replace("every: 500 ms", "every: 500"));
        assertThat(Shops.check(file, Map.of()))
                .extracting(e -> Path.of(e.file()).getFileName() + ":" + e.key())
                .contains(
                        "finch.yaml:nozzle",
                        "finch.yaml:neck",
                        "finch.yaml:fan",
                        "shop.yaml:printers[0].link.http.every");
    }
}
