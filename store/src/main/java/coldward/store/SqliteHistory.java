package coldward.store;

import coldward.model.shop.ReadName;
import coldward.quantity.CannotRun;
import coldward.watch.History;
import coldward.watch.guard.Reads;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Consumer;

/**
 * The history on SQLite, in a file of its own. Keeping only puts a report into memory; one thread writes every
 * {@value #PAUSE_MILLIS} ms what has come, and packs every hour into one block once it is over. A disk that is full or slow
 * is waited for by that thread alone: reports stay in memory, at most {@value #MOST_WAITING}, then the newest are lost,
 * and both the trouble and its end are told. A hard end loses what was not yet written.
 */
public final class SqliteHistory implements History, AutoCloseable {

    /** ms between two writes. */
    static final int PAUSE_MILLIS = 4_000;

    /** Reports that wait for the disk: some tens of MB, four minutes of a thousand fans. */
    static final int MOST_WAITING = 1_000_000;

    /** Printers whose past hours are packed with one write; some hundredths of a second each. */
    private static final int PACKED_AT_ONCE = 25;

    static final long HOUR_MILLIS = 3_600_000;
    static final long MINUTE_MILLIS = 60_000;

    private static final double ZERO_CELSIUS = 273.15;

    private static final String MINUTES =
            "INSERT INTO minute VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (printer, minute) DO UPDATE SET"
                    + " mean = CAST(round((mean * reports + excluded.mean * excluded.reports) * 1.0"
                    + " / (reports + excluded.reports)) AS INTEGER),"
                    + " reports = reports + excluded.reports, low = min(low, excluded.low),"
                    + " high = max(high, excluded.high),"
                    + " nozzle_high = max(coalesce(nozzle_high, excluded.nozzle_high),"
                    + " coalesce(excluded.nozzle_high, nozzle_high)),"
                    + " cold_side_high = max(coalesce(cold_side_high, excluded.cold_side_high),"
                    + " coalesce(excluded.cold_side_high, cold_side_high))";

    private record Waiting(String printer, Reported report) {}

    private final Path database;
    private final Connection connection;
    private final Consumer<String> told;
    private final Thread writer;

    // guarded by this
    private List<Waiting> waiting = new ArrayList<>();
    private boolean closed;
    private long lost;

    // the writer's own
    private final Map<String, Long> ids = new HashMap<>();
    private final Map<Long, Long> hours = new HashMap<>();
    private final Set<Long> overdue = new LinkedHashSet<>();
    private boolean troubled;

    private SqliteHistory(Path database, Connection connection, Consumer<String> told) {
        this.database = database;
        this.connection = connection;
        this.told = told;
        this.writer = Thread.ofPlatform().name("coldward-history").unstarted(this::run);
    }

    /**
     * The history of a state folder, made if need be.
     *
     * @param folder held by this process; stays open until after the history is closed
     * @param told gets a sentence when the history cannot be written and when it can again, on the history's own thread
     * @throws CannotRun if the database cannot be opened or is of another form
     */
    public static SqliteHistory open(StateFolder folder, Consumer<String> told) {
        Path database = folder.path().resolve(StateFolder.HISTORY);
        try {
            Connection connection = Sqlite.writingLazily(database);
            try {
                HistoryTables.prepare(database, connection);
                SqliteHistory history = new SqliteHistory(database, connection, told);
                history.writer.start();
                return history;
            } catch (SQLException | RuntimeException e) {
                try {
                    connection.close();
                } catch (SQLException again) {
                    e.addSuppressed(again);
                }
                throw e;
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The history cannot be opened in", e);
        }
    }

    @Override
    public void keep(String printer, long wallMillis, Reads reads) {
        synchronized (this) {
            if (closed || waiting.size() >= MOST_WAITING) {
                lost++;
            } else {
                waiting.add(new Waiting(printer, new Reported(wallMillis, reads)));
            }
        }
    }

    /** Reports that could not be kept so far. */
    public synchronized long lost() {
        return lost;
    }

    /** Writes what is waiting, once, then gives the database free. Closing twice does nothing more. */
    @Override
    public void close() {
        synchronized (this) {
            closed = true;
            notifyAll();
        }
        boolean interrupted = false;
        while (writer.isAlive()) {
            try {
                writer.join();
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void run() {
        boolean last;
        do {
            last = pause();
            List<Waiting> batch = take();
            if (!batch.isEmpty()) {
                write(batch, last);
            }
        } while (!last);
        try {
            connection.close();
        } catch (SQLException e) {
            // everything is committed; the next to open it finds the log and goes on from there
            System.getLogger(SqliteHistory.class.getName())
                    .log(System.Logger.Level.WARNING, "the history was not closed cleanly", e);
        }
    }

    /** Waits for the next write; true if it is the last. */
    @SuppressWarnings("WaitNotInLoop") // woken early it writes early, which does no harm
    private synchronized boolean pause() {
        if (!closed) {
            try {
                wait(PAUSE_MILLIS);
            } catch (InterruptedException e) {
                // only close() ends the writer; an early write does no harm
            }
        }
        return closed;
    }

    private synchronized List<Waiting> take() {
        List<Waiting> batch = waiting;
        waiting = new ArrayList<>();
        return batch;
    }

    private void write(List<Waiting> batch, boolean last) {
        try {
            Sqlite.execute(connection, "BEGIN IMMEDIATE");
            insert(batch);
            Sqlite.execute(connection, "COMMIT");
        } catch (SQLException | RuntimeException e) {
            ids.clear();
            hours.clear();
            overdue.clear();
            try {
                Sqlite.execute(connection, "ROLLBACK");
            } catch (SQLException again) {
                // some failures end the transaction themselves, after which there is nothing to roll back
                e.addSuppressed(again);
            }
            putBack(batch, last);
            if (!troubled) {
                troubled = true;
                told.accept(Sqlite.told(database, "The history could not be written to", e)
                                .getMessage()
                        + " The watch goes on; reports wait in memory.");
            }
            return;
        }
        if (troubled) {
            troubled = false;
            told.accept("The history is written again; " + lost() + " reports were lost so far.");
        }
    }

    private synchronized void putBack(List<Waiting> batch, boolean last) {
        if (last) {
            lost += batch.size();
            return;
        }
        List<Waiting> all = new ArrayList<>(batch);
        all.addAll(waiting);
        if (all.size() > MOST_WAITING) {
            lost += all.size() - MOST_WAITING;
            all = new ArrayList<>(all.subList(0, MOST_WAITING));
        }
        waiting = all;
    }

    private void insert(List<Waiting> batch) throws SQLException {
        // by printer and hour, in the order of arrival
        Map<String, Map<Long, List<Reported>>> sorted = new LinkedHashMap<>();
        for (Waiting each : batch) {
            sorted.computeIfAbsent(each.printer(), p -> new LinkedHashMap<>())
                    .computeIfAbsent(Math.floorDiv(each.report().wallMillis(), HOUR_MILLIS), h -> new ArrayList<>())
                    .add(each.report());
        }
        try (PreparedStatement parts = connection.prepareStatement(
                        "INSERT INTO part (printer, hour, reports, body) VALUES (?, ?, ?, ?)");
                PreparedStatement minutes = connection.prepareStatement(MINUTES)) {
            for (Map.Entry<String, Map<Long, List<Reported>>> one : sorted.entrySet()) {
                long printer = id(one.getKey());
                for (Map.Entry<Long, List<Reported>> hour : one.getValue().entrySet()) {
                    add(parts, printer, hour.getKey(), hour.getValue().size(), Block.pack(hour.getValue(), false));
                    minutes(minutes, printer, hour.getValue());
                }
            }
            parts.executeBatch();
            minutes.executeBatch();
        }
        for (Map.Entry<String, Map<Long, List<Reported>>> one : sorted.entrySet()) {
            long printer = id(one.getKey());
            long now = one.getValue().keySet().stream().reduce((a, b) -> b).orElseThrow();
            Long before = hours.put(printer, now);
            if (before == null || before != now || one.getValue().size() > 1) {
                overdue.add(printer);
            }
        }
        // all printers' hours end together: packed a few at a time, so that what comes meanwhile is written soon
        int packed = 0;
        for (Iterator<Long> each = overdue.iterator(); each.hasNext() && packed < PACKED_AT_ONCE; packed++) {
            long printer = each.next();
            packOver(printer, Objects.requireNonNull(hours.get(printer)));
            each.remove();
        }
    }

    private static void add(PreparedStatement rows, long printer, long hour, int reports, byte[] body)
            throws SQLException {
        rows.setLong(1, printer);
        rows.setLong(2, hour);
        rows.setInt(3, reports);
        rows.setBytes(4, body);
        rows.addBatch();
    }

    private static void minutes(PreparedStatement rows, long printer, List<Reported> reports) throws SQLException {
        Map<Long, List<Reads>> minutes = new LinkedHashMap<>();
        for (Reported each : reports) {
            if (each.reads().has(ReadName.SPEED)) {
                minutes.computeIfAbsent(Math.floorDiv(each.wallMillis(), MINUTE_MILLIS), m -> new ArrayList<>())
                        .add(each.reads());
            }
        }
        for (Map.Entry<Long, List<Reads>> minute : minutes.entrySet()) {
            double[] speeds = minute.getValue().stream()
                    .mapToDouble(r -> r.get(ReadName.SPEED))
                    .sorted()
                    .toArray();
            double sum = 0;
            for (double speed : speeds) {
                sum += speed;
            }
            rows.setLong(1, printer);
            rows.setLong(2, minute.getKey());
            rows.setInt(3, speeds.length);
            rows.setLong(4, tenths(speeds[0]));
            rows.setLong(5, tenths(sum / speeds.length));
            rows.setLong(6, tenths(speeds[speeds.length - 1]));
            highest(rows, 7, ReadName.NOZZLE, minute.getValue());
            highest(rows, 8, ReadName.COLD_SIDE, minute.getValue());
            rows.addBatch();
        }
    }

    private static long tenths(double value) {
        return Math.round(value * 10);
    }

    private static void highest(PreparedStatement rows, int column, ReadName name, List<Reads> reads)
            throws SQLException {
        var highest = reads.stream()
                .filter(r -> r.has(name))
                .mapToDouble(r -> r.get(name))
                .max();
        if (highest.isPresent()) {
            rows.setLong(column, tenths(highest.getAsDouble() - ZERO_CELSIUS));
        } else {
            rows.setNull(column, java.sql.Types.INTEGER);
        }
    }

    /** Packs every hour of a printer but the present one: over, or left from before an end. */
    private void packOver(long printer, long present) throws SQLException {
        Map<Long, List<byte[]>> bodies = new LinkedHashMap<>();
        Map<Long, Integer> counts = new HashMap<>();
        try (PreparedStatement query = connection.prepareStatement(
                "SELECT hour, body, reports FROM part WHERE printer = ? AND hour <> ? ORDER BY hour, id")) {
            query.setLong(1, printer);
            query.setLong(2, present);
            try (ResultSet rows = query.executeQuery()) {
                while (rows.next()) {
                    bodies.computeIfAbsent(rows.getLong(1), h -> new ArrayList<>())
                            .add(rows.getBytes(2));
                    counts.merge(rows.getLong(1), rows.getInt(3), Integer::sum);
                }
            }
        }
        if (bodies.isEmpty()) {
            return;
        }
        try (PreparedStatement blocks = connection.prepareStatement(
                        "INSERT INTO block (printer, hour, reports, body) VALUES (?, ?, ?, ?)");
                PreparedStatement over =
                        connection.prepareStatement("DELETE FROM part WHERE printer = ? AND hour <> ?")) {
            for (Map.Entry<Long, List<byte[]>> hour : bodies.entrySet()) {
                add(blocks, printer, hour.getKey(), counts.getOrDefault(hour.getKey(), 0), Block.join(hour.getValue()));
            }
            blocks.executeBatch();
            over.setLong(1, printer);
            over.setLong(2, present);
            over.executeUpdate();
        }
    }

    private long id(String printer) throws SQLException {
        Long known = ids.get(printer);
        if (known != null) {
            return known;
        }
        try (PreparedStatement insert =
                connection.prepareStatement("INSERT OR IGNORE INTO printer (name) VALUES (?)")) {
            insert.setString(1, printer);
            insert.executeUpdate();
        }
        try (PreparedStatement query = connection.prepareStatement("SELECT id FROM printer WHERE name = ?")) {
            query.setString(1, printer);
            try (ResultSet row = query.executeQuery()) {
                if (!row.next()) {
                    throw new SQLException("the printer's row is not there after it was written");
                }
                ids.put(printer, row.getLong(1));
                return row.getLong(1);
            }
        }
    }
}
