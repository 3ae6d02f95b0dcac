package coldward.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.shop.ReadName;
import coldward.quantity.CannotRun;
import coldward.watch.guard.Reads;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HistoryTest {

    /** 2026-11-25T09:00:00Z. */
    private static final long NINE = 1_795_597_200_000L;

    @TempDir
    private Path folder = Path.of("");

    private static RandomGenerator random(long seed) {
        return RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
    }

    /**
     * A printing machine read four times a second: the fan's speed as a counter over 0.5 s and 2 pulses a turn shows it
     * (steps of 60 rpm) or in single rpm, AR(1); nozzle and cold side to 0.1 degC, the nozzle with sensor noise; polls that
     * come a few ms early or late.
     */
    private static List<Reported> printing(long from, int count, double step, RandomGenerator random) {
        List<Reported> reports = new ArrayList<>();
        double x = 0;
        for (int i = 0; i < count; i++) {
            x = 0.5 * x + Math.sqrt(1 - 0.25) * 30 * random.nextGaussian();
            double speed = random.nextDouble() < 0.001 ? 0 : Math.rint((8000 + x) / step) * step;
            reports.add(new Reported(
                    from + 250L * i + Math.round(2 * random.nextGaussian()),
                    new Reads.Builder()
                            .with(ReadName.SPEED, speed)
                            .with(ReadName.DUTY, 1)
                            .with(ReadName.NOZZLE, Math.rint(2100 + 1.5 * random.nextGaussian()) / 10 + 273.15)
                            .with(ReadName.NOZZLE_TARGET, 210 + 273.15)
                            .with(ReadName.COLD_SIDE, Math.rint(350 + 5 * Math.sin(i / 3000.0)) / 10 + 273.15)
                            .with(ReadName.WORKING, 1)
                            .build()));
        }
        return reports;
    }

    private static List<Reported> read(HistoryReading reading, String printer, long from, long to) {
        List<Reported> all = new ArrayList<>();
        reading.read(printer, from, to, (at, reads) -> all.add(new Reported(at, reads)));
        return all;
    }

    @ParameterizedTest
    @ValueSource(doubles = {60, 30, 1})
    void twoBytesAReportAtMost(double step) throws SQLException {
        List<Reported> reports = printing(NINE, 3 * 14_400, step, random(1));
        try (StateFolder state = StateFolder.open(folder)) {
            SqliteHistory.open(state, told -> {}).close();
            long empty = fileSize();
            try (SqliteHistory history = SqliteHistory.open(state, told -> {})) {
                reports.forEach(r -> history.keep("heron", r.wallMillis(), r.reads()));
                // the hour after the last closes it
                history.keep("heron", NINE + 4 * 3_600_000L, Reads.ofSpeed(0));
            }
            // everything that the file gains: blocks, minutes, indexes, half-empty pages
            double each = (double) (fileSize() - empty) / reports.size();
            assertThat(each).as("bytes a report, steps of " + step + " rpm").isBetween(0.2, 2.0);
        }
        assertThat(read(HistoryReading.open(folder), "heron", NINE - 100, NINE + 4 * 3_600_000L))
                .isEqualTo(reports);
    }

    private long fileSize() throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("history.db"));
                Statement statement = connection.createStatement()) {
            statement.execute("VACUUM");
            try (ResultSet row =
                    statement.executeQuery("SELECT page_count * page_size FROM pragma_page_count, pragma_page_size")) {
                row.next();
                return row.getLong(1);
            }
        }
    }

    @Test
    void blocksGiveBackWhatWasPutIn() {
        RandomGenerator random = random(2);
        ReadName[] names = ReadName.values();
        for (int round = 0; round < 200; round++) {
            List<Reported> reports = new ArrayList<>();
            long at = NINE;
            for (int i = random.nextInt(1, 200); i > 0; i--) {
                at += random.nextInt(20) == 0 ? random.nextLong(-100_000_000_000L, 100_000_000_000L) : 250;
                Reads.Builder reads = new Reads.Builder();
                for (ReadName name : names) {
                    if (random.nextInt(3) > 0) {
                        reads.with(name, value(name, random));
                    }
                }
                reports.add(new Reported(at, reads.build()));
            }
            assertThat(Block.unpack(Block.pack(reports, round % 2 == 0))).contains(reports);
        }
    }

    private static double value(ReadName name, RandomGenerator random) {
        return switch (name.dimension()) {
            case TEMPERATURE -> random.nextInt(-600, 10_000) / 10.0 + 273.15;
            case FEED -> random.nextInt(0, 1000) * 1e-9;
            case SHARE -> name == ReadName.REPORT ? random.nextLong(0, 1L << 50) : random.nextInt(0, 256) / 1000.0;
            default -> random.nextInt(0, 200_000) / 10.0;
        };
    }

    @Test
    void whatHasMoreDecimalsIsRoundedToAThousandth() {
        RandomGenerator random = random(3);
        List<Reported> reports = new ArrayList<>();
        for (int i = 0; i < 500; i++) {
            reports.add(new Reported(NINE + i, Reads.ofSpeed(8000 + 50 * random.nextGaussian())));
        }
        List<Reported> back = Block.unpack(Block.pack(reports, true)).orElseThrow();
        for (int i = 0; i < 500; i++) {
            assertThat(back.get(i).reads().get(ReadName.SPEED))
                    .isCloseTo(reports.get(i).reads().get(ReadName.SPEED), within(0.0005 + 1e-9));
        }
        List<Reported> huge =
                List.of(new Reported(NINE, Reads.ofSpeed(1e300)), new Reported(NINE + 1, Reads.ofSpeed(-7.5e-300)));
        assertThat(Block.unpack(Block.pack(huge, true))).contains(huge);
    }

    @Test
    void damageIsNoticedAndNeverMore() {
        byte[] good = Block.pack(printing(NINE, 300, 30, random(4)), true);
        RandomGenerator random = random(5);
        int noticed = 0;
        for (int i = 0; i < 2_000; i++) {
            byte[] bad = good.clone();
            bad[random.nextInt(bad.length)] ^= (byte) (1 << random.nextInt(8));
            noticed += Block.unpack(bad).isEmpty() ? 1 : 0;
        }
        // a flipped bit may also make other, possible numbers: only no other failure is promised
        assertThat(noticed).isGreaterThan(500);
        assertThat(Block.unpack(new byte[0])).isEmpty();
    }

    @Test
    void partsOfThePresentHourAreReadToo() {
        List<Reported> reports = printing(NINE + 3_590_000, 80, 30, random(6));
        try (StateFolder state = StateFolder.open(folder);
                SqliteHistory history = SqliteHistory.open(state, told -> {})) {
            reports.forEach(r -> history.keep("robin", r.wallMillis(), r.reads()));
            HistoryReading reading = HistoryReading.open(folder);
            // the promise: what is older than 5 s is on disk
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(5_000));
            assertThat(read(reading, "robin", 0, Long.MAX_VALUE)).isEqualTo(reports);
            assertThat(read(reading, "robin", NINE + 3_600_000, Long.MAX_VALUE))
                    .isEqualTo(reports.stream()
                            .filter(r -> r.wallMillis() >= NINE + 3_600_000)
                            .toList());
            assertThat(reading.printers()).containsExactly("robin");
            assertThat(read(reading, "finch", 0, Long.MAX_VALUE)).isEmpty();
        }
    }

    @Test
    void goesOnAfterAnEndAndAClockThatJumps() {
        List<Reported> all = new ArrayList<>();
        long[] starts = {NINE, NINE + 86_400_000, NINE + 1_000, NINE + 40L * 86_400_000};
        for (long start : starts) {
            try (StateFolder state = StateFolder.open(folder);
                    SqliteHistory history = SqliteHistory.open(state, told -> {})) {
                List<Reported> some = printing(start, 50, 30, random(start));
                some.forEach(r -> history.keep("wren", r.wallMillis(), r.reads()));
                all.addAll(some);
            }
        }
        HistoryReading reading = HistoryReading.open(folder);
        assertThat(read(reading, "wren", 0, Long.MAX_VALUE)).containsExactlyInAnyOrderElementsOf(all);
        assertThat(reading.end("wren")).hasValue(NINE + 40L * 86_400_000 + 60_000);
        assertThat(reading.end("finch")).isEmpty();
    }

    @Test
    void minutesAgreeWithTheirReports() {
        List<Reported> reports = printing(NINE + 30_000, 1_000, 30, random(7));
        try (StateFolder state = StateFolder.open(folder)) {
            // two runs within one minute: the second adds to what the first has kept
            for (int half = 0; half < 2; half++) {
                try (SqliteHistory history = SqliteHistory.open(state, told -> {})) {
                    reports.subList(500 * half, 500 * half + 500)
                            .forEach(r -> history.keep("plover", r.wallMillis(), r.reads()));
                }
            }
        }
        List<HistoryReading.Minute> minutes = HistoryReading.open(folder).minutes("plover", 0, Long.MAX_VALUE);
        assertThat(minutes).hasSize(5);
        assertThat(minutes.stream().mapToInt(HistoryReading.Minute::reports).sum())
                .isEqualTo(1_000);
        for (HistoryReading.Minute minute : minutes) {
            List<Reported> in = reports.stream()
                    .filter(r -> Math.floorDiv(r.wallMillis(), 60_000) * 60_000 == minute.startMillis())
                    .toList();
            var speeds =
                    in.stream().mapToDouble(r -> r.reads().get(ReadName.SPEED)).summaryStatistics();
            assertThat(minute.low()).isEqualTo(speeds.getMin());
            assertThat(minute.high()).isEqualTo(speeds.getMax());
            assertThat(minute.mean()).isCloseTo(speeds.getAverage(), within(0.11));
            assertThat(minute.nozzleHigh().orElseThrow())
                    .isCloseTo(
                            in.stream()
                                            .mapToDouble(r -> r.reads().get(ReadName.NOZZLE))
                                            .max()
                                            .orElseThrow()
                                    - 273.15,
                            within(0.051));
        }
    }

    @Test
    void aDiskThatRefusesIsToldOnceAndNeverStopsTheCaller() throws SQLException {
        List<String> told = java.util.Collections.synchronizedList(new ArrayList<>());
        try (StateFolder state = StateFolder.open(folder)) {
            try (SqliteHistory history = SqliteHistory.open(state, told::add)) {
                try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("history.db"));
                        Statement statement = other.createStatement()) {
                    // as a full disk does: every write is refused
                    statement.execute(
                            "CREATE TRIGGER full BEFORE INSERT ON part BEGIN SELECT RAISE(ABORT, 'no room'); END");
                    history.keep("heron", NINE, Reads.ofSpeed(8000));
                    LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(2L * SqliteHistory.PAUSE_MILLIS + 1_000));
                    assertThat(told).hasSize(1);
                    assertThat(told.getFirst())
                            .contains("The history could not be written to")
                            .contains("goes on");
                    statement.execute("DROP TRIGGER full");
                }
                history.keep("heron", NINE + 250, Reads.ofSpeed(8010));
            }
        }
        assertThat(told).hasSize(2);
        assertThat(told.get(1)).contains("is written again; 0 reports were lost");
        assertThat(read(HistoryReading.open(folder), "heron", 0, Long.MAX_VALUE))
                .hasSize(2);
    }

    @Test
    void whatIsNoHistoryIsRefusedInWords() throws IOException, SQLException {
        assertThatThrownBy(() -> HistoryReading.open(folder))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("There is no history");
        Path database = folder.resolve("history.db");
        Files.writeString(
                database, "something else, long enough to be looked at as the head of a database file ".repeat(20));
        assertThatThrownBy(() -> HistoryReading.open(folder))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("begin a new history");
        Files.delete(database);
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + database);
                Statement statement = connection.createStatement()) {
            statement.execute("PRAGMA user_version = 9");
        }
        assertThatThrownBy(() -> HistoryReading.open(folder))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("has the form 9");
    }
}
