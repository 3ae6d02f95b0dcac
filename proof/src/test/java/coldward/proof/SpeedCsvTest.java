package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.app.history.BaselineSpell;
import coldward.app.history.SpeedCsv;
import coldward.app.history.Told;
import coldward.model.baseline.Recording;
import coldward.model.shop.ReadName;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import coldward.watch.guard.GuardEvent;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Recordings of speeds as people have them: what is read, and what is refused and how. */
class SpeedCsvTest {

    @TempDir
    private Path folder = Path.of("");

    private Path file(String text) throws IOException {
        return Files.write(folder.resolve("a.csv"), text.getBytes(StandardCharsets.UTF_8));
    }

    private static List<GuardEvent.Report> read(Path file) {
        List<GuardEvent.Report> all = new ArrayList<>();
        SpeedCsv.read(file, all::add);
        return all;
    }

    @Test
    void rfc4180WithQuotesAndCrlfAndAByteOrderMark() throws IOException {
        // RFC 4180, 2: lines end with CRLF (1), the last may be without (2), fields may be quoted (5)
        Path file =
                file("\uFEFF\"time_s\",speed_rpm,nozzle_degC,note\r\n0,\"7980\",210.5,\"a, \"\"b\"\"\"\r\n0.25,7950,,");
        List<GuardEvent.Report> all = new ArrayList<>();
        Told told = SpeedCsv.read(file, all::add);
        assertThat(told).isEqualTo(new Told(2, false, List.of("note")));
        assertThat(all.get(0).reads().get(ReadName.SPEED)).isEqualTo(7980);
        assertThat(all.get(0).reads().get(ReadName.NOZZLE)).isCloseTo(483.65, within(1e-9));
        assertThat(all.get(1).at()).isEqualTo(250_000_000L);
        assertThat(all.get(1).reads().has(ReadName.NOZZLE)).isFalse();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            time_s;speed_rpm\\n0;7980\\n1;7981
            time_s\\tspeed_rpm\\n0\\t7980\\n1\\t7981
            # of heron\\n\\ntime_s,speed_rpm\\n0,7980\\n# pause\\n\\n1,7981
            speed_rpm,time_s\\r7980,0\\r7981,1
            """)
    void otherSeparatorsAndLineEnds(String text) throws IOException {
        String real = text.replace("\\n", "\n").replace("\\t", "\t").replace("\\r", "\r");
        assertThat(read(file(real)))
                .extracting(r -> r.reads().get(ReadName.SPEED))
                .containsExactly(7980.0, 7981.0);
    }

    @Test
    void timesWithOffsetAreInstants() throws IOException {
        // RFC 3339, 5.8: the two denote the same instant
        Path file = file("time,speed_rpm\n1996-12-19T16:39:57-08:00,1\n1996-12-20T00:39:57Z,2\n");
        List<GuardEvent.Report> all = read(file);
        assertThat(all.get(0).at()).isEqualTo(all.get(1).at()).isEqualTo(851042397_000_000_000L);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            time_s,speed_rpm\\n0,fast | :2: speed_rpm: is 'fast' but must be a number, or empty if not read
            time_s,speed_rpm\\n0,NaN | :2: speed_rpm: is 'NaN' but must be a number, or empty if not read
            time_s;speed_rpm\\n0;7980,5 | :2: speed_rpm: is '7980,5'; write a decimal point
            time_s,speed_rpm\\n0,7980,5 | :2: 3 cells but the first line names 2 columns; a number with a decimal comma
            time_s,speed_rpm\\n0,-1 | :2: speed_rpm: is '-1' but must be between 0 and 200000 rpm
            time_s,speed_rpm\\n0,1e9 | :2: speed_rpm: is '1e9' but must be between 0 and 200000 rpm
            time_s,speed_rpm,nozzle_degC\\n0,1,5000 | :2: nozzle_degC: is '5000' but must be between -60 and 1000 degC
            time_s,speed_rpm,asked\\n0,1,maybe | :2: asked: is 'maybe' but must be 1 or 0, yes or no
            time_s,speed_rpm\\n5,1\\n4,1 | :3: time_s: is '4', 1 s before the row above; times must not go back
            time_s,speed_rpm\\n,1 | :2: time_s: is empty but every row needs its time
            time_s,speed_rpm\\n1e12,1 | :2: time_s: is '1e12' but must be between -9e9 and 9e9 s; are these milliseconds?
            time,speed_rpm\\n2026-11-25T09:30:00,1 | :2: time: is '2026-11-25T09:30:00' but must be ISO 8601 with Z
            time_s,rpm\\n0,1 | :1: has no column speed_rpm; it has 'rpm', 'time_s'
            seconds,speed_rpm\\n0,1 | :1: has no column time_s (seconds) or time (ISO 8601)
            time,time_s,speed_rpm\\n0,0,1 | :1: has both time_s and time
            time_s,speed_rpm,speed_rpm\\n0,1,1 | :1: speed_rpm: two columns have this name
            time_s,speed_rpm,asked,duty\\n0,1,1,1 | :1: asked: has both asked and duty
            time_s,speed_rpm | : the file names columns but has no row below them
            # nothing | : the file is empty
            """)
    void whatCannotBeUsedIsNamedWithItsPlace(String text, String told) throws IOException {
        Path file = file(text.replace("\\n", "\n"));
        assertThatThrownBy(() -> read(file))
                .isInstanceOf(DataError.class)
                .hasMessageStartingWith(file.toString())
                .hasMessageContaining(told);
    }

    @Test
    void filesThatAreSomethingElseAreRefusedWithoutReadingThemWhole() throws IOException {
        Path binary = Files.write(folder.resolve("b.csv"), new byte[] {(byte) 0xff, (byte) 0xfe, 0, 1, (byte) 0xc0});
        assertThatThrownBy(() -> read(binary)).isInstanceOf(DataError.class).hasMessageContaining("not UTF-8");
        Path one = file("time_s,speed_rpm\n0,\"" + "7".repeat(100_000) + "\"\n");
        assertThatThrownBy(() -> read(one)).isInstanceOf(DataError.class).hasMessageContaining("not well-formed");
        Path late = Files.write(
                folder.resolve("c.csv"),
                ("time_s,speed_rpm\n" + "0,1\n".repeat(50_000) + "1,\u00ff\n").getBytes(StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> read(late)).isInstanceOf(DataError.class).hasMessageContaining("not UTF-8");
        assertThatThrownBy(() -> read(folder)).isInstanceOf(DataError.class).hasMessageContaining("not a file");
        assertThatThrownBy(() -> read(folder.resolve("none.csv")))
                .isInstanceOf(DataError.class)
                .hasMessageContaining("no such file");
    }

    @Test
    void noBytesMakeItFailInAnotherWay() throws IOException {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(20261125);
        String good = "time_s,speed_rpm,duty\n0,7980,1\n0.25,7950,1\n0.5,0,0\n";
        int refused = 0;
        for (int i = 0; i < 3_000; i++) {
            byte[] bytes = good.getBytes(StandardCharsets.UTF_8);
            for (int n = random.nextInt(1, 4); n > 0; n--) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            }
            Path file = Files.write(folder.resolve("d.csv"), bytes);
            try {
                assertThat(read(file)).allMatch(r -> r.reads() != null);
            } catch (DataError e) {
                refused++;
            }
        }
        assertThat(refused).isBetween(1_000, 3_000);
    }

    private static GuardEvent.Report at(double seconds, double rpm, double duty) {
        return new GuardEvent.Report(
                Math.round(seconds * 1e9),
                new coldward.watch.guard.Reads.Builder()
                        .with(ReadName.SPEED, rpm)
                        .with(ReadName.DUTY, duty)
                        .build());
    }

    @Test
    void theLongestSpellAtOneDutyWithoutAGapIsUsed() {
        BaselineSpell spell = new BaselineSpell(323.15);
        double t = 0;
        for (int i = 0; i < 100; i++, t += 0.25) {
            spell.accept(at(t, 8000 + 30 * (i % 3), 1));
        }
        for (int i = 0; i < 50; i++, t += 0.25) {
            spell.accept(at(t, 0, 0));
        }
        double began = t;
        for (int i = 0; i < 400; i++, t += 0.25) {
            spell.accept(at(t, 6000 + 15 * (i % 5), 0.7));
        }
        t += 1;
        for (int i = 0; i < 300; i++, t += 0.25) {
            spell.accept(at(t, 6000, 0.7));
        }
        BaselineSpell.Found found = spell.found();
        Recording recording = found.recording();
        assertThat(recording.reports()).hasSize(360).contains(6000.0, 6060.0).doesNotContain(8000.0, 0.0);
        assertThat(recording.interval()).isCloseTo(0.25, within(1e-9));
        assertThat(recording.resolution()).isEqualTo(15);
        assertThat(found.from() / 1e9).isCloseTo(began + BaselineSpell.SPIN_UP_S, within(1e-6));
        assertThat(found.of()).isEqualTo(850);
    }

    @Test
    void timesToTheSecondGiveTheRightInterval() {
        BaselineSpell spell = new BaselineSpell(323.15);
        for (int i = 0; i < 400; i++) {
            spell.accept(at(Math.floor(i / 4.0), 8000, 1));
        }
        Recording recording = spell.found().recording();
        assertThat(recording.reports()).hasSize(400);
        assertThat(recording.interval()).isCloseTo(0.25, within(0.002));
    }

    @Test
    void nothingToUseIsSaid() {
        BaselineSpell spell = new BaselineSpell(323.15);
        for (int i = 0; i < 30; i++) {
            spell.accept(at(i, 0, 0));
        }
        assertThatThrownBy(spell::found)
                .isInstanceOf(InputError.class)
                .hasMessageContaining("no spell with the fan asked");
    }
}
