package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.wiring.analysis.FindingCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a person gets to see of a wiring: findings, drawing, cautions, and a page for every code. */
class WiringAnswerTest {

    private static final Path PAGES = Repository.root().resolve("docs/findings");

    @TempDir
    Path folder;

    /** A sheet of the sample shop. */
    static String demo(String name) {
        return Repository.text(Repository.root().resolve("app/src/main/resources/coldward/demo/" + name));
    }

    /** heron with a pull-up of its own in the place of the internal one's help. */
    static String lifted() {
        return demo("heron.yaml").replace("  wires:\n", """
                          pull_ups: [{name: r1, resistance: 10 kohm}]
                          wires:
                            - {name: lift, from: main.3V3, to: r1.rail, class: fan lead, length: 50 mm}
                            - {name: lifted, from: r1.signal, to: d1.anode, class: fan lead, length: 50 mm}
                        """);
    }

    @Test
    void theMapOfPullUpsAndDiodesShowsTheBestPair() throws IOException {
        Path sheet = Files.writeString(folder.resolve("lifted.yaml"), lifted());
        Path svg = folder.resolve("pick.svg");
        CommandRun run = CommandRun.of("wiring", "pick", sheet, "--svg", svg);
        assertThat(run.code()).as(run.out() + run.err()).isZero();
        assertThat(run.out()).contains("best", "small-signal Schottky", "Disconnect the supply");
        assertThat(Files.readString(svg)).contains("best", "silicon signal", "Disconnect the supply");
        CommandRun none = wiring("heron.yaml");
        assertThat(none.code()).isZero();
        CommandRun without = CommandRun.of("wiring", "pick", folder.resolve("heron.yaml"));
        assertThat(without.code()).isEqualTo(3);
        assertThat(without.err()).contains("pull-up");
    }

    @BeforeEach
    void layOut() throws IOException {
        for (String name : List.of("heron.yaml", "robin.yaml", "finch.yaml")) {
            Files.writeString(folder.resolve(name), demo(name));
        }
    }

    private CommandRun wiring(String name, Object... more) {
        return CommandRun.of(Stream.concat(Stream.of("wiring", folder.resolve(name)), Arrays.stream(more))
                .toArray());
    }

    @Test
    void aSoundWiringEndsWithNought() {
        CommandRun run = wiring("heron.yaml");
        assertThat(run.code()).as(run.out() + run.err()).isZero();
        assertThat(run.out())
                .contains("works in every state and corner", "red, 24 AWG, 0.8 m")
                .contains("Disconnect the supply before touching wiring.")
                .contains("Mains parts are for licensed people and local codes.")
                .contains("A fan trip is not fire protection.");
    }

    @Test
    void aBareSignalWireBesideASwitchedMinusIsBackFed() {
        CommandRun run = wiring("finch.yaml");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).contains("W201", "back-feed", "docs/findings/W201.md", "band", "Disconnect the supply");
    }

    @Test
    void aLeakyDiodeInAWarmEnclosureIsFound() {
        CommandRun run = wiring("robin.yaml");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).contains("ERROR W205 at d1");
    }

    @Test
    void theDrawingCarriesFindingsAndCautions() throws IOException {
        Path svg = folder.resolve("finch.svg");
        assertThat(wiring("finch.yaml", "--svg", svg, "--narrow").code()).isEqualTo(1);
        assertThat(Files.readString(svg))
                .contains("viewBox=\"0 0 360 ", "W201", "CAUTION", "Disconnect the supply before touching wiring.");
    }

    @Test
    void aSheetWithoutWiringIsToldWhatToAdd() throws IOException {
        Path bare = Files.writeString(folder.resolve("wren.yaml"), OutputSchemaTest.FIVE_FACTS);
        CommandRun run = CommandRun.of("wiring", bare);
        assertThat(run.code()).isEqualTo(3);
        assertThat(run.err()).contains("says nothing of its wiring", "boards:");
    }

    @ParameterizedTest
    @EnumSource(FindingCode.class)
    void everyCodeHasAPage(FindingCode code) {
        assertThat(Repository.text(PAGES.resolve(code.code() + ".md")))
                .startsWith("# " + code.code() + ": " + code.title() + "\n")
                .contains("Severity: " + code.severity().shown() + ".")
                .contains("## What it is", "## Why it matters", "## How to measure it with a multimeter")
                .contains("## How to mend it", "Disconnect the supply before touching wiring");
        assertThat(Repository.text(PAGES.resolve("README.md")))
                .contains("| [%s](%s.md) | %s | %s |"
                        .formatted(code.code(), code.code(), code.severity().shown(), code.title()));
    }

    @Test
    void noOtherPageIsThere() throws IOException {
        List<String> codes =
                Arrays.stream(FindingCode.values()).map(c -> c.code() + ".md").toList();
        try (Stream<Path> pages = Files.list(PAGES)) {
            assertThat(pages.map(p -> p.getFileName().toString()).filter(n -> !n.equals("README.md")))
                    .containsExactlyInAnyOrderElementsOf(codes);
        }
    }
}
