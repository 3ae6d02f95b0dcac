package coldward.store;

import coldward.quantity.CannotRun;
import coldward.quantity.InputError;
import coldward.watch.Journal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;

/**
 * Reads and proves a journal without touching it: no lock is taken, so it works while a watch is writing. Each call
 * sees the journal as it was when the call began.
 */
public final class JournalReading {

    private static final String COLUMNS =
            "SELECT number, wall_millis, printer, kind, facts, previous, hash FROM journal";

    private final Path database;

    private JournalReading(Path database) {
        this.database = database;
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
        List<Journal.Kept> found = new ArrayList<>();
        walkOf(printer, kinds, " ORDER BY number", row -> found.add(kept(row)));
        return found;
    }

    /** The newest entry of a printer, empty name for the watch itself, of these kinds; empty if there is none. */
    public Optional<Journal.Kept> latest(String printer, String... kinds) {
        List<Journal.Kept> found = new ArrayList<>();
        walkOf(printer, kinds, " ORDER BY number DESC LIMIT 1", row -> found.add(kept(row)));
        return found.stream().findFirst();
    }

    private void walkOf(String printer, String[] kinds, String order, Predicate<Row> each) {
        List<Object> values = new ArrayList<>();
        values.add(printer);
        Collections.addAll(values, (Object[]) kinds);
        String ofKinds = kinds.length == 0
                ? ""
                : " AND kind IN (" + String.join(", ", Collections.nCopies(kinds.length, "?")) + ")";
        walk(" WHERE printer = ?" + ofKinds + order, values, each);
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
        walk(" WHERE number >= ? ORDER BY number", List.of(from), row -> {
            reader.accept(kept(row));
            return true;
        });
    }

    /** How many of the newest entries, oldest of them first; for showing what happened lately. */
    public List<Journal.Kept> newest(int count) {
        List<Journal.Kept> found = new ArrayList<>();
        walk(" ORDER BY number DESC LIMIT ?", List.of(Math.max(0, count)), row -> found.add(kept(row)));
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
        walk(" ORDER BY number", List.of(), prover::fits);
        return prover.proof();
    }

    /** Rows one by one, each handed on before the next is fetched, until there is no more or enough were seen. */
    private void walk(String which, List<?> values, Predicate<Row> each) {
        try (Connection connection = Sqlite.reading(database);
                PreparedStatement query = connection.prepareStatement(COLUMNS + which)) {
            for (int i = 0; i < values.size(); i++) {
                query.setObject(i + 1, values.get(i));
            }
            try (ResultSet rows = query.executeQuery()) {
                while (rows.next() && each.test(row(rows))) {
                    // the reader has it
                }
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The journal cannot be read from", e);
        }
    }

    private static Row row(ResultSet rows) throws SQLException {
        return new Row(
                rows.getLong(1),
                rows.getLong(2),
                rows.getString(3),
                rows.getString(4),
                rows.getString(5),
                rows.getString(6),
                rows.getString(7));
    }

    private Journal.Kept kept(Row row) {
        return row.kept()
                .orElseThrow(() -> new CannotRun("Entry " + row.number() + " of the journal in " + database
                        + " cannot be read: its facts are not what a journal writes. 'journal prove' says where the"
                        + " record stops being whole."));
    }
}
