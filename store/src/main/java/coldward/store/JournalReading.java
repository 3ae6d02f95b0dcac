package coldward.store;

import coldward.quantity.CannotRun;
import coldward.quantity.InputError;
import coldward.watch.Journal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jdbi.v3.core.ConnectionException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.result.ResultIterator;
import org.jdbi.v3.core.statement.Query;

/**
 * Reads and proves a journal without touching it: no lock is taken, so it works while a watch is writing. Each call
 * sees the journal as it was when the call began.
 */
public final class JournalReading {

    private static final String COLUMNS =
            "SELECT number, wall_millis, printer, kind, facts, previous, hash FROM journal";

    private final Path database;
    private final Jdbi jdbi;

    private JournalReading(Path database) {
        this.database = database;
        this.jdbi = Jdbi.create(() -> Sqlite.reading(database));
    }

    /**
     * A state folder's journal.
     *
     * @param folder the state folder
     * @throws CannotRun if there is none yet, or it cannot be read, or its form is another than this program's
     */
    public static JournalReading open(Path folder) {
        Path database = StateFolder.database(folder);
        if (!Files.exists(database)) {
            throw new CannotRun("There is no journal in " + folder + ": no watch has written there yet.");
        }
        try (Connection connection = Sqlite.reading(database)) {
            Schema.check(database, connection);
        } catch (SQLException e) {
            throw Sqlite.told(database, "The journal cannot be read from", e);
        }
        return new JournalReading(database);
    }

    /** For the writer, which has made sure of the form itself. */
    static JournalReading ofOpened(Path database) {
        return new JournalReading(database);
    }

    /**
     * Entries of a printer, oldest first.
     *
     * @param printer its name; empty for the watch itself
     * @param kinds only these; none for all
     */
    public List<Journal.Kept> of(String printer, String... kinds) {
        List<String> wanted = Arrays.asList(kinds.clone());
        String where = wanted.isEmpty()
                ? " WHERE printer = :printer ORDER BY number"
                : " WHERE printer = :printer AND kind IN (<kinds>) ORDER BY number";
        List<Journal.Kept> found = new ArrayList<>();
        walk(
                handle -> {
                    Query query = handle.createQuery(COLUMNS + where).bind("printer", printer);
                    return wanted.isEmpty() ? query : query.bindList("kinds", wanted);
                },
                row -> found.add(kept(row)));
        return found;
    }

    /**
     * Hands every entry from a number on to the reader, oldest first, without holding them all.
     *
     * @param from the first number, at least 0
     * @param reader gets each; what it throws ends the reading and is passed on
     */
    public void read(long from, Consumer<Journal.Kept> reader) {
        if (from < 0) {
            throw new InputError("from", "from is " + from + " but must be at least 0");
        }
        walk(
                handle -> handle.createQuery(COLUMNS + " WHERE number >= :from ORDER BY number")
                        .bind("from", from),
                row -> reader.accept(kept(row)));
    }

    /** How many of the newest entries, oldest of them first; for showing what happened lately. */
    public List<Journal.Kept> newest(int count) {
        List<Journal.Kept> found = new ArrayList<>();
        walk(
                handle -> handle.createQuery(COLUMNS + " ORDER BY number DESC LIMIT :count")
                        .bind("count", Math.max(0, count)),
                row -> found.add(kept(row)));
        return found.reversed();
    }

    /** Goes through the whole chain. Streams: the memory needed does not grow with the journal. */
    public Proof prove() {
        return prove(Optional.empty());
    }

    /**
     * Goes through the whole chain and compares with what was noted earlier, so that a cut end or a rewritten record
     * shows too.
     */
    public Proof prove(Proof.Anchor anchor) {
        return prove(Optional.of(anchor));
    }

    private Proof prove(Optional<Proof.Anchor> anchor) {
        Prover prover = new Prover(anchor);
        try (Handle handle = open()) {
            try (ResultIterator<Row> rows = rows(handle.createQuery(COLUMNS + " ORDER BY number"))) {
                return prover.over(rows);
            }
        } catch (JdbiException e) {
            throw Sqlite.told(database, "The journal cannot be read from", e);
        }
    }

    private void walk(java.util.function.Function<Handle, Query> asked, Consumer<Row> each) {
        try (Handle handle = open();
                ResultIterator<Row> rows = rows(asked.apply(handle))) {
            walk(rows, each);
        } catch (JdbiException e) {
            throw Sqlite.told(database, "The journal cannot be read from", e);
        }
    }

    private static void walk(Iterator<Row> rows, Consumer<Row> each) {
        while (rows.hasNext()) {
            each.accept(rows.next());
        }
    }

    private Handle open() {
        try {
            return jdbi.open();
        } catch (ConnectionException e) {
            throw Sqlite.told(database, "The journal cannot be read from", e);
        }
    }

    private static ResultIterator<Row> rows(Query query) {
        return query.map((row, context) -> new Row(
                        row.getLong(1),
                        row.getLong(2),
                        row.getString(3),
                        row.getString(4),
                        row.getString(5),
                        row.getString(6),
                        row.getString(7)))
                .iterator();
    }

    private Journal.Kept kept(Row row) {
        return row.kept()
                .orElseThrow(() -> new CannotRun("Entry " + row.number() + " of the journal in " + database
                        + " cannot be read: its facts are not what a journal writes. 'journal prove' says where the"
                        + " record stops being whole."));
    }
}
