package coldward.store;

import coldward.quantity.CannotRun;
import coldward.watch.guard.Reads;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/** Reads a state folder's history; works while a watch is writing. Each call sees it as it was when the call began. */
public final class HistoryReading {

    private static final long DAY_MILLIS = 86_400_000;

    /** Times that blocks can be of: the years 1 to 9999. */
    private static final long EARLIEST = -62_135_596_800_000L;

    private static final long LATEST = 253_402_300_799_999L;

    private static final double TENTHS = 10;

    private final Path database;

    private HistoryReading(Path database) {
        this.database = database;
    }

    /** Gets reports one by one. */
    @FunctionalInterface
    public interface Reader {

        /**
         * One report.
         *
         * @param wallMillis when, wall time, ms since 1970
         * @param reads what the machine said
         */
        void report(long wallMillis, Reads reads);
    }

    /**
     * One minute of a printer; speeds and temperatures to a tenth.
     *
     * @param startMillis its beginning, ms since 1970
     * @param reports how many with a speed
     * @param low smallest speed, rpm
     * @param mean mean speed, rpm
     * @param high greatest speed, rpm
     * @param nozzleHigh highest nozzle temperature, degC; empty where it was not read
     * @param coldSideHigh highest cold-side temperature, degC; empty where it was not read
     */
    public record Minute(
            long startMillis,
            int reports,
            double low,
            double mean,
            double high,
            OptionalDouble nozzleHigh,
            OptionalDouble coldSideHigh) {}

    /**
     * A state folder's history.
     *
     * @throws CannotRun if there is none yet, or it cannot be read, or its form is another than this program's
     */
    public static HistoryReading open(Path folder) {
        Path database = folder.resolve(StateFolder.HISTORY);
        if (!Files.exists(database)) {
            throw new CannotRun("There is no history in " + folder + ": no watch has written there yet.");
        }
        try (Connection connection = Sqlite.reading(database)) {
            HistoryTables.check(database, connection);
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be read from", e);
        }
        return new HistoryReading(database);
    }

    /** The printers that something was kept of, by name. */
    public List<String> printers() {
        List<String> names = new ArrayList<>();
        try (Connection connection = Sqlite.reading(database);
                PreparedStatement query = connection.prepareStatement("SELECT name FROM printer ORDER BY name");
                ResultSet rows = query.executeQuery()) {
            while (rows.next()) {
                names.add(rows.getString(1));
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be read from", e);
        }
        return names;
    }

    /** When the newest minute with a report of a printer ends, ms since 1970; empty if there is none. */
    public OptionalLong end(String printer) {
        try (Connection connection = Sqlite.reading(database);
                PreparedStatement query = connection.prepareStatement("SELECT max(m.minute) FROM minute m"
                        + " JOIN printer p ON p.id = m.printer WHERE p.name = ?")) {
            query.setString(1, printer);
            try (ResultSet row = query.executeQuery()) {
                if (row.next()) {
                    long minute = row.getLong(1);
                    return row.wasNull()
                            ? OptionalLong.empty()
                            : OptionalLong.of((minute + 1) * SqliteHistory.MINUTE_MILLIS);
                }
                return OptionalLong.empty();
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be read from", e);
        }
    }

    /**
     * Hands on every report of a printer within a time, oldest hour first, within an hour as they came. Holds one hour in
     * memory. After a clock that was put back, times may go back within it.
     *
     * @param from first time, ms since 1970
     * @param to first time that is not wanted any more
     * @return how many
     * @throws CannotRun if a block cannot be read
     */
    public long read(String printer, long from, long to, Reader reader) {
        long first = Math.floorDiv(Math.max(from, EARLIEST), SqliteHistory.HOUR_MILLIS);
        long last = Math.floorDiv(Math.min(to, LATEST), SqliteHistory.HOUR_MILLIS);
        long count = 0;
        // what is packed between two statements of two transactions would be missed or seen twice: it is one statement
        String sql = "SELECT 0 AS kind, b.id, b.hour, b.body FROM block b JOIN printer p ON p.id = b.printer"
                + " WHERE p.name = ?1 AND b.hour BETWEEN ?2 AND ?3"
                + " UNION ALL SELECT 1, t.id, t.hour, t.body FROM part t JOIN printer p ON p.id = t.printer"
                + " WHERE p.name = ?1 AND t.hour BETWEEN ?2 AND ?3 ORDER BY 3, 1, 2";
        for (long day = first; day <= last; ) {
            // a few days a statement: its sorting would otherwise take room for the whole history
            long end = Math.min(last, day + 10 * DAY_MILLIS / SqliteHistory.HOUR_MILLIS);
            count += read(sql, printer, day, end, from, to, reader);
            day = next(printer, end);
        }
        return count;
    }

    private long read(String sql, String printer, long first, long last, long from, long to, Reader reader) {
        long count = 0;
        try (Connection connection = Sqlite.reading(database);
                PreparedStatement query = connection.prepareStatement(sql)) {
            query.setString(1, printer);
            query.setLong(2, first);
            query.setLong(3, last);
            try (ResultSet rows = query.executeQuery()) {
                while (rows.next()) {
                    long hour = rows.getLong(3);
                    List<Reported> reports = Block.unpack(rows.getBytes(4))
                            .orElseThrow(
                                    () -> new CannotRun("The history in " + database + " is damaged in the hour from "
                                            + java.time.Instant.ofEpochMilli(hour * SqliteHistory.HOUR_MILLIS) + " of "
                                            + printer
                                            + ". Read before or after it."));
                    for (Reported each : reports) {
                        if (each.wallMillis() >= from && each.wallMillis() < to) {
                            reader.report(each.wallMillis(), each.reads());
                            count++;
                        }
                    }
                }
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be read from", e);
        }
        return count;
    }

    /** The next hour after one that something is kept of; far in the future if there is none. */
    private long next(String printer, long hour) {
        try (Connection connection = Sqlite.reading(database);
                PreparedStatement query = connection.prepareStatement(
                        "SELECT min(hour) FROM (SELECT min(b.hour) AS hour FROM block b JOIN printer p ON p.id ="
                                + " b.printer WHERE p.name = ?1 AND b.hour > ?2 UNION ALL SELECT min(t.hour) FROM part t"
                                + " JOIN printer p ON p.id = t.printer WHERE p.name = ?1 AND t.hour > ?2)")) {
            query.setString(1, printer);
            query.setLong(2, hour);
            try (ResultSet row = query.executeQuery()) {
                long found = row.next() ? row.getLong(1) : 0;
                return found <= hour ? Long.MAX_VALUE : found;
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be read from", e);
        }
    }

    /** The minutes of a printer within a time, oldest first. */
    public List<Minute> minutes(String printer, long from, long to) {
        List<Minute> minutes = new ArrayList<>();
        try (Connection connection = Sqlite.reading(database);
                PreparedStatement query = connection.prepareStatement(
                        "SELECT m.minute, m.reports, m.low, m.mean, m.high, m.nozzle_high, m.cold_side_high"
                                + " FROM minute m JOIN printer p ON p.id = m.printer"
                                + " WHERE p.name = ? AND m.minute >= ? AND m.minute < ? ORDER BY m.minute")) {
            query.setString(1, printer);
            query.setLong(2, Math.floorDiv(Math.max(from, EARLIEST), SqliteHistory.MINUTE_MILLIS));
            query.setLong(3, Math.ceilDiv(Math.min(to, LATEST), SqliteHistory.MINUTE_MILLIS));
            try (ResultSet row = query.executeQuery()) {
                while (row.next()) {
                    minutes.add(new Minute(
                            row.getLong(1) * SqliteHistory.MINUTE_MILLIS,
                            row.getInt(2),
                            row.getLong(3) / TENTHS,
                            row.getLong(4) / TENTHS,
                            row.getLong(5) / TENTHS,
                            optional(row, 6),
                            optional(row, 7)));
                }
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be read from", e);
        }
        return minutes;
    }

    private static OptionalDouble optional(ResultSet row, int column) throws SQLException {
        double value = row.getLong(column) / TENTHS;
        return row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
