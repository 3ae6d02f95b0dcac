package coldward.store;

import coldward.quantity.CannotRun;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Properties;
import org.jspecify.annotations.Nullable;
import org.sqlite.JDBC;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** How the database is opened, and what its refusals mean to a person. */
final class Sqlite {

    private static final int BUSY_MILLIS = 5_000;

    private Sqlite() {}

    /** The writing connection: write-ahead log, synced at every commit, writing from the start of a transaction. */
    static Connection writing(Path database) throws SQLException {
        return connect(database, writer().toProperties());
    }

    /** The same as often as the migration tool asks for one. */
    static SQLiteDataSource source(Path database) {
        SQLiteDataSource source = new SQLiteDataSource(writer());
        source.setUrl(url(database));
        return source;
    }

    private static SQLiteConfig writer() {
        SQLiteConfig config = new SQLiteConfig();
        config.setJournalMode(SQLiteConfig.JournalMode.WAL);
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
        config.setBusyTimeout(BUSY_MILLIS);
        return config;
    }

    /** A connection that can only read; it needs no lock and does not hinder the writer. */
    static Connection reading(Path database) throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setReadOnly(true);
        config.setBusyTimeout(BUSY_MILLIS);
        return connect(database, config.toProperties());
    }

    private static Connection connect(Path database, Properties properties) throws SQLException {
        if (Files.exists(database) && !Files.isRegularFile(database)) {
            throw new CannotRun(
                    "The " + kept(database) + " cannot be opened in " + database + ": it is not a file. Move it away.");
        }
        // not through DriverManager: its search of the class path finds every other driver first
        return JDBC.createConnection(url(database), properties);
    }

    /** One statement that gives nothing back. */
    static void execute(Connection connection, String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    /** What a database keeps, in a word. */
    private static String kept(Path database) {
        return database.endsWith(StateFolder.HISTORY) ? "history" : "journal";
    }

    /** The writing connection of the history: the disk is waited for at checkpoints only, never at a commit. */
    static Connection writingLazily(Path database) throws SQLException {
        SQLiteConfig config = writer();
        config.setSynchronous(SQLiteConfig.SynchronousMode.NORMAL);
        return connect(database, config.toProperties());
    }

    private static String url(Path database) {
        return JDBC.PREFIX + database;
    }

    /** What a failure of the database means and what helps, or the failure's own text where we know no better. */
    static CannotRun told(Path database, String tried, Throwable failure) {
        SQLiteException inner = sqlite(failure);
        String text = inner == null ? String.valueOf(failure.getMessage()) : meaning(inner, kept(database));
        return new CannotRun(tried + " " + database + ": " + text, failure);
    }

    private static String meaning(SQLiteException failure, String kept) {
        SQLiteErrorCode code = failure.getResultCode();
        // the low byte is the kind, the rest says where it happened (SQLite, Result and Error Codes, section 2)
        return switch (SQLiteErrorCode.getErrorCode(code.code & 0xff)) {
            case SQLITE_FULL -> "the disk is full. Nothing of this was kept; make room, and it goes on by itself.";
            case SQLITE_READONLY ->
                "it cannot be written to. The file and its folder must belong to the user who runs this.";
            case SQLITE_CANTOPEN ->
                "it cannot be opened. It must be a file in a folder that the user who runs this may use.";
            case SQLITE_NOTADB ->
                "the file is there but is not a database. Move it away to begin a new " + kept
                        + "; it is left as it is.";
            case SQLITE_CORRUPT ->
                "the database is damaged. Keep a copy, then move it away to begin a new " + kept
                        + "; it is left as it is.";
            case SQLITE_IOERR -> "the disk refused (" + code + "). Nothing of this was kept.";
            case SQLITE_BUSY, SQLITE_LOCKED -> "another program holds it for writing. Close that program.";
            default -> code + ", " + failure.getMessage();
        };
    }

    private static @Nullable SQLiteException sqlite(Throwable failure) {
        for (Throwable at = failure; at != null; at = at.getCause()) {
            if (at instanceof SQLiteException found) {
                return found;
            }
        }
        return null;
    }
}
