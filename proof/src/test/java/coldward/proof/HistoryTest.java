package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** What a watch has heard can be judged, run again and taken away. */
class HistoryTest {

    @TempDir
    private Path folder = Path.of("");

    @Test
    void aWatchKeepsWhatItHears() throws IOException {
        try (RiggedShop shop = RiggedShop.in(folder, 5)) {
            try (WatchProcess watch = WatchProcess.on(shop.file())) {
                watch.awaitState("turning");
                LockSupport.parkNanos(TimeUnit.SECONDS.toNanos(12));
                // what is older than 5 s survives a hard end
                watch.killHard();
            }
            Path csv = folder.resolve("out.csv");
            CommandRun export = CommandRun.of("history", "export", "heron", "--shop", shop.file(), "--csv", csv);
            assertThat(export.code()).as(export.err()).isZero();
            List<String> lines = Files.readAllLines(csv);
            assertThat(lines.getFirst()).startsWith("time,speed_rpm,report,duty,");
            assertThat(lines).hasSizeGreaterThan(20);
            String shown = CommandRun.of("history", "export", "heron", "--shop", shop.file())
                    .out();
            assertThat(shown.lines().toList()).isEqualTo(lines);

            JsonNode kept = CommandRun.of(
                            "backtest", "heron", "--shop", shop.file(), "--trip", "5600/3", "--grace", "0 s", "--json")
                    .json();
            JsonNode file = CommandRun.of("backtest", csv, "--trip", "5600/3", "--grace", "0 s", "--json")
                    .json();
            assertThat(kept.path("reports").asInt()).isEqualTo(lines.size() - 1);
            assertThat(kept.path("settings")).isEqualTo(file.path("settings"));

            CommandRun minutes =
                    CommandRun.of("history", "export", "heron", "--shop", shop.file(), "--minutes", "--days", "2");
            assertThat(minutes.out().lines().toList()).hasSizeBetween(2, 3);
        }
        CommandRun none = CommandRun.of("baseline", "finch", "--shop", folder.resolve("none.yaml"));
        assertThat(none.code()).isEqualTo(3);
    }

    @Test
    void theBaselineSaysWhatIsWrongAndWhatToDo() throws IOException {
        Path recording = Files.writeString(folder.resolve("heron.csv"), Recordings.healthy(4_000, 30));
        Path svg = folder.resolve("heron.svg");
        CommandRun good = CommandRun.of("baseline", recording, "--svg", svg);
        assertThat(good.code()).as(good.err()).isZero();
        assertThat(good.out()).contains("Good enough to choose a trip from").contains("correlation        0.4");
        assertThat(good.out().lines()).allMatch(line -> line.length() <= 100);
        assertThat(Files.readString(svg)).contains("class=\"cw-healthy").contains("no outliers");

        Path brief = Files.writeString(folder.resolve("brief.csv"), Recordings.healthy(60, 30));
        CommandRun tooShort = CommandRun.of("baseline", brief);
        assertThat(tooShort.code()).isEqualTo(1);
        assertThat(tooShort.out()).contains("CAUTION  Too short").contains("Record ");

        CommandRun typo = CommandRun.of("baseline", "heron");
        assertThat(typo.code()).isEqualTo(2);
        assertThat(typo.err()).contains("heron --shop shop.yaml");
    }

    @Test
    void theBacktestRefusesWhatItCannotRun() throws IOException {
        Path recording = Files.writeString(folder.resolve("heron.csv"), Recordings.healthy(400, 30));
        assertThat(CommandRun.of("backtest", recording, "--trip", "fast").err()).contains("as 5600/3");
        assertThat(CommandRun.of("backtest", recording, "--trip", "5600/101").err())
                .contains("between 1 and 100");
        assertThat(CommandRun.of("backtest", recording).code()).isEqualTo(2);
        CommandRun two = CommandRun.of("backtest", recording, "--trip", "7990/1", "--trip", "5600/3");
        assertThat(two.code()).isZero();
        assertThat(two.out()).contains("7990 rpm, 1 in a row").contains("5600 rpm, 3 in a row");
    }
}
