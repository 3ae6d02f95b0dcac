package coldward.store;

import coldward.quantity.CannotRun;
import coldward.quantity.InputError;
import coldward.watch.Journal;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * The journal on SQLite. One platform thread owns the writing connection; whatever has queued up while it waited for
 * the disk goes into one transaction, so that a burst costs one sync. A stage completes after the commit.
 *
 * <p>What depends on a stage runs on a thread of its own per commit and may wait for further appends; the order in
 * which two commits' stages are told is not promised. A batch that cannot be written is written not at all, its stages
 * complete with {@link CannotRun}, and the next append tries anew: a disk that has room again is simply used again.
 */
public final class SqliteJournal implements Journal {

    /** How much may wait for a disk that does not answer: some tens of MB, hours of a large shop. */
    private static final int MOST_WAITING = 65_536;

    private static final int MOST_IN_ONE_COMMIT = 1_024;

    private static final String INSERT =
            "INSERT INTO journal (number, wall_millis, printer, kind, facts, previous, hash)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?)";

    private record Waiting(Entry entry, CompletableFuture<Kept> told) {}

    private record Head(long number, String hash) {}

    private final Path database;
    private final Connection connection;
    private final JournalReading reading;
    private final Thread writer;

    // guarded by this
    private List<Waiting> waiting = new ArrayList<>();
    private boolean closed;

    // the writer's own
    private @Nullable Head head;

    private SqliteJournal(Path database, Connection connection, Head head) {
        this.database = database;
        this.connection = connection;
        this.head = head;
        this.reading = JournalReading.ofOpened(database);
        this.writer = Thread.ofPlatform().name("coldward-journal").unstarted(this::write);
    }

    /**
     * The journal of a state folder, made if need be.
     *
     * @param folder held by this process; stays open until after the journal is closed
     * @throws CannotRun if the database cannot be opened or written, is not a journal, or is of a newer form
     */
    public static SqliteJournal open(StateFolder folder) {
        Path database = folder.database();
        try {
            Connection connection = Sqlite.writing(database);
            try {
                Schema.prepare(database, connection);
                SqliteJournal journal = new SqliteJournal(database, connection, headOf(connection));
                journal.writer.start();
                return journal;
            } catch (SQLException | RuntimeException e) {
                try {
                    connection.close();
                } catch (SQLException again) {
                    e.addSuppressed(again);
                }
                throw e;
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The journal cannot be opened in", e);
        }
    }

    @Override
    public CompletionStage<Kept> append(Entry entry) {
        try {
            // now rather than in the writer: one unfit entry must not take a whole batch with it
            Chain.text(1, entry);
        } catch (InputError e) {
            return CompletableFuture.failedFuture(e);
        }
        CompletableFuture<Kept> told = new CompletableFuture<>();
        synchronized (this) {
            if (closed) {
                return CompletableFuture.failedFuture(
                        new CannotRun("The journal in " + database + " is closed: nothing more is kept."));
            }
            if (waiting.size() >= MOST_WAITING) {
                return CompletableFuture.failedFuture(new CannotRun("The journal in " + database + " has "
                        + MOST_WAITING + " entries waiting for the disk and takes no more until it answers."));
            }
            waiting.add(new Waiting(entry, told));
            notifyAll();
        }
        return told.minimalCompletionStage();
    }

    @Override
    public List<Kept> of(String printer, String... kinds) {
        return reading.of(printer, kinds);
    }

    @Override
    public Optional<Kept> latest(String printer, String... kinds) {
        return reading.latest(printer, kinds);
    }

    @Override
    public void read(long from, Consumer<Kept> reader) {
        reading.read(from, reader);
    }

    /** The same journal, for reading and proving. */
    public JournalReading reading() {
        return reading;
    }

    /** Writes what is waiting, then gives the database free. Closing twice does nothing more. */
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
                // what was promised to be written is written all the same
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void write() {
        for (List<Waiting> batch = next(); !batch.isEmpty(); batch = next()) {
            keep(batch);
        }
        try {
            connection.close();
        } catch (SQLException e) {
            // everything is committed; the next to open it finds the log and goes on from there
            System.getLogger(SqliteJournal.class.getName())
                    .log(System.Logger.Level.WARNING, "the journal was not closed cleanly", e);
        }
    }

    /** The next batch; empty once closed and written out. */
    private synchronized List<Waiting> next() {
        while (waiting.isEmpty() && !closed) {
            try {
                wait();
            } catch (InterruptedException e) {
                // only close() ends the writer: giving in to an interrupt would lose what is waiting
            }
        }
        List<Waiting> batch = waiting;
        if (batch.size() > MOST_IN_ONE_COMMIT) {
            waiting = new ArrayList<>(batch.subList(MOST_IN_ONE_COMMIT, batch.size()));
            return List.copyOf(batch.subList(0, MOST_IN_ONE_COMMIT));
        }
        waiting = new ArrayList<>();
        return batch;
    }

    private void keep(List<Waiting> batch) {
        List<Kept> kept;
        try {
            // said outright: the driver's own commit() opens the next transaction at once and so would hold the log
            Sqlite.execute(connection, "BEGIN IMMEDIATE");
            kept = insert(batch);
            Sqlite.execute(connection, "COMMIT");
        } catch (SQLException | RuntimeException e) {
            // what the disk holds now is asked of the disk, not assumed
            head = null;
            undo(e);
            CannotRun told = Sqlite.told(database, "The journal could not be written to", e);
            tell(() -> batch.forEach(w -> w.told().completeExceptionally(told)));
            return;
        }
        Kept last = kept.getLast();
        head = new Head(last.number(), last.hash());
        tell(() -> {
            for (int i = 0; i < kept.size(); i++) {
                batch.get(i).told().complete(kept.get(i));
            }
        });
    }

    private void undo(Exception failure) {
        try {
            Sqlite.execute(connection, "ROLLBACK");
        } catch (SQLException e) {
            // some failures end the transaction themselves, after which there is nothing to roll back
            failure.addSuppressed(e);
        }
    }

    private List<Kept> insert(List<Waiting> batch) throws SQLException {
        Head from = head == null ? headOf(connection) : head;
        long number = from.number();
        String hash = from.hash();
        List<Kept> kept = new ArrayList<>(batch.size());
        try (PreparedStatement rows = connection.prepareStatement(INSERT)) {
            for (Waiting one : batch) {
                String previous = hash;
                number++;
                hash = Chain.hash(previous, number, one.entry());
                kept.add(new Kept(number, one.entry(), hash));
                rows.setLong(1, number);
                rows.setLong(2, one.entry().wallMillis());
                rows.setString(3, one.entry().printer());
                rows.setString(4, one.entry().kind());
                rows.setString(5, CanonicalJson.of(one.entry().facts()));
                rows.setString(6, previous);
                rows.setString(7, hash);
                rows.addBatch();
            }
            rows.executeBatch();
        }
        return kept;
    }

    private static Head headOf(Connection connection) throws SQLException {
        try (PreparedStatement newest =
                        connection.prepareStatement("SELECT number, hash FROM journal ORDER BY number DESC LIMIT 1");
                ResultSet row = newest.executeQuery()) {
            return row.next() ? new Head(row.getLong(1), row.getString(2)) : new Head(0, Chain.BEGINNING);
        }
    }

    private static void tell(Runnable news) {
        // never on the writing thread: what people hang on a stage may block, or append and wait
        Thread.ofVirtual().name("coldward-journal-news").start(news);
    }
}
