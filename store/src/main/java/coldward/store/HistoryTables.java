package coldward.store;

import coldward.quantity.CannotRun;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/** The history's tables, and which form they have. */
final class HistoryTables {

    /** The form that this program writes and reads. */
    private static final int PRESENT = 1;

    private static final List<String> MAKE = List.of(
            "CREATE TABLE printer (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE) STRICT",
            // one hour of a printer, packed once the hour is over
            "CREATE TABLE block (id INTEGER PRIMARY KEY, printer INTEGER NOT NULL REFERENCES printer(id),"
                    + " hour INTEGER NOT NULL, reports INTEGER NOT NULL, body BLOB NOT NULL) STRICT",
            "CREATE INDEX block_by_hour ON block (printer, hour)",
            // the hour that is not over yet, in parts of a few seconds
            "CREATE TABLE part (id INTEGER PRIMARY KEY, printer INTEGER NOT NULL REFERENCES printer(id),"
                    + " hour INTEGER NOT NULL, reports INTEGER NOT NULL, body BLOB NOT NULL) STRICT",
            "CREATE INDEX part_by_hour ON part (printer, hour)",
            // speeds in tenths of an rpm, temperatures in tenths of a degC: half the room of floating-point numbers
            "CREATE TABLE minute (printer INTEGER NOT NULL REFERENCES printer(id), minute INTEGER NOT NULL,"
                    + " reports INTEGER NOT NULL, low INTEGER NOT NULL, mean INTEGER NOT NULL, high INTEGER NOT NULL,"
                    + " nozzle_high INTEGER, cold_side_high INTEGER, PRIMARY KEY (printer, minute)) STRICT, WITHOUT ROWID",
            "PRAGMA user_version = " + PRESENT);

    private HistoryTables() {}

    static void prepare(Path database, Connection connection) throws SQLException {
        int found = form(connection);
        if (found == 0) {
            try (Statement statement = connection.createStatement()) {
                statement.execute("BEGIN IMMEDIATE");
                for (String each : MAKE) {
                    statement.execute(each);
                }
                statement.execute("COMMIT");
            }
        } else {
            known(database, found);
        }
    }

    static void check(Path database, Connection connection) throws SQLException {
        known(database, form(connection));
    }

    private static void known(Path database, int found) {
        if (found != PRESENT) {
            throw new CannotRun("The history in " + database + " has the form " + found + "; this Coldward knows "
                    + PRESENT + " only. Use the Coldward that wrote it, or move it away to begin a new one.");
        }
    }

    private static int form(Connection connection) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("PRAGMA user_version")) {
            return row.next() ? row.getInt(1) : 0;
        }
    }
}
