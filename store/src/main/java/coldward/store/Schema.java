package coldward.store;

import coldward.quantity.CannotRun;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.OptionalInt;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;

/** Which form a database has, and bringing an older one up to the present form. */
final class Schema {

    /** The form that this program writes; one more with every migration. */
    static final int PRESENT = 1;

    private static final String HISTORY = "flyway_schema_history";

    private Schema() {}

    /**
     * Makes sure that the database has the present form.
     *
     * @throws CannotRun if it is not a journal, is damaged, or was written by a newer program
     */
    static void prepare(Path database, Connection connection) {
        OptionalInt found;
        try {
            found = version(connection);
            if (found.isEmpty() && holdsOthers(connection)) {
                throw new CannotRun("The database " + database
                        + " holds tables of another program. Move it away, or use another state folder.");
            }
        } catch (SQLException e) {
            throw Sqlite.told(database, "The journal cannot be opened in", e);
        }
        if (found.isPresent()) {
            refuseNewer(database, found.getAsInt());
            if (found.getAsInt() == PRESENT) {
                // the usual start: looking through the class path for migrations would cost most of it
                return;
            }
        }
        migrate(database);
    }

    /**
     * Makes sure that the database can be read by this program.
     *
     * @throws CannotRun if it is not a journal, or has another form
     */
    static void check(Path database, Connection connection) {
        OptionalInt found;
        try {
            found = version(connection);
        } catch (SQLException e) {
            throw Sqlite.told(database, "The journal cannot be read from", e);
        }
        int version = found.orElseThrow(
                () -> new CannotRun("The database " + database + " holds no journal: no watch has written to it."));
        refuseNewer(database, version);
        if (version < PRESENT) {
            throw new CannotRun("The journal in " + database + " has the older form " + version + " (now " + PRESENT
                    + "). Start the watch once: it brings the journal up to date.");
        }
    }

    private static void refuseNewer(Path database, int found) {
        if (found > PRESENT) {
            throw new CannotRun("The journal in " + database + " was written by a newer Coldward (form " + found
                    + ", this one knows " + PRESENT + "). Use that version, or another state folder.");
        }
    }

    private static OptionalInt version(Connection connection) throws SQLException {
        try (PreparedStatement tables =
                connection.prepareStatement("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?")) {
            tables.setString(1, HISTORY);
            try (ResultSet row = tables.executeQuery()) {
                if (!row.next()) {
                    return OptionalInt.empty();
                }
            }
        }
        try (PreparedStatement newest = connection.prepareStatement(
                        "SELECT max(CAST(version AS INTEGER)) FROM " + HISTORY + " WHERE success = 1");
                ResultSet row = newest.executeQuery()) {
            int version = row.next() ? row.getInt(1) : 0;
            return version == 0 ? OptionalInt.empty() : OptionalInt.of(version);
        }
    }

    private static boolean holdsOthers(Connection connection) throws SQLException {
        try (PreparedStatement tables = connection.prepareStatement(
                "SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> ?")) {
            tables.setString(1, HISTORY);
            try (ResultSet row = tables.executeQuery()) {
                return row.next();
            }
        }
    }

    private static void migrate(Path database) {
        try {
            Flyway.configure(Schema.class.getClassLoader())
                    .dataSource(Sqlite.source(database))
                    .locations("classpath:coldward/store/migration")
                    .loggers("slf4j")
                    .load()
                    .migrate();
        } catch (FlywayException e) {
            throw Sqlite.told(database, "The journal's tables cannot be made in", e);
        }
    }
}
