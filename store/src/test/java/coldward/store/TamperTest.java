package coldward.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.CannotRun;
import coldward.store.Proof.Difference;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Whoever can write to the file can write to the table; the chain shows it. */
class TamperTest {

    private static final int ENTRIES = 20;

    @TempDir
    static Path untouched;

    private static final List<String> hashes = new ArrayList<>();

    @TempDir
    Path state;

    @BeforeAll
    static void fill() {
        hashes.clear();
        try (StateFolder folder = StateFolder.open(untouched);
                SqliteJournal journal = SqliteJournal.open(folder)) {
            for (int i = 1; i <= ENTRIES; i++) {
                hashes.add(journal.append(Children.entry("heron", "trip", i))
                        .toCompletableFuture()
                        .join()
                        .hash());
            }
        }
    }

    @BeforeEach
    void copy() throws Exception {
        Files.copy(untouched.resolve("journal.db"), state.resolve("journal.db"));
        assertThat(prove()).isEqualTo(new Proof.Whole(ENTRIES, hashes.getLast(), false));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "UPDATE journal SET kind = 'release' WHERE number = 7",
                "DELETE FROM journal WHERE number = 7",
                "DELETE FROM journal",
                "INSERT OR REPLACE INTO journal SELECT number, 0, printer, kind, facts, previous, hash FROM journal"
                        + " WHERE number = 7",
                "INSERT INTO journal SELECT 99, wall_millis, printer, kind, facts, previous, hash FROM journal"
                        + " WHERE number = 7",
            })
    void thetableItselfRefusesWhatIsNotAppending(String sql) {
        assertThatThrownBy(() -> raw(sql)).isInstanceOf(SQLException.class).hasMessageContaining("only grows");
        assertThat(prove()).isInstanceOf(Proof.Whole.class);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        UPDATE journal SET wall_millis = wall_millis + 1 WHERE number = 7           | 7  | CHANGED_ENTRY
        UPDATE journal SET printer = 'robin' WHERE number = 7                       | 7  | CHANGED_ENTRY
        UPDATE journal SET kind = 'release' WHERE number = 7                        | 7  | CHANGED_ENTRY
        UPDATE journal SET facts = '{"count":8,"note":"n7"}' WHERE number = 7       | 7  | CHANGED_ENTRY
        UPDATE journal SET facts = '{"note":"n7","count":7}' WHERE number = 7       | 7  | CHANGED_ENTRY
        UPDATE journal SET facts = '{"count":7, "note":"n7"}' WHERE number = 7      | 7  | CHANGED_ENTRY
        UPDATE journal SET facts = '{"count":7,"note":"n7"' WHERE number = 7        | 7  | UNREADABLE
        UPDATE journal SET facts = '[7]' WHERE number = 7                           | 7  | UNREADABLE
        UPDATE journal SET facts = '{"count":7.5,"note":"n7"}' WHERE number = 7     | 7  | UNREADABLE
        UPDATE journal SET facts = '{"count":7,"count":7,"note":"n7"}' WHERE number = 7 | 7 | UNREADABLE
        UPDATE journal SET facts = '' WHERE number = 7                              | 7  | UNREADABLE
        UPDATE journal SET hash = (SELECT hash FROM journal WHERE number = 6) WHERE number = 7 | 7 | CHANGED_ENTRY
        UPDATE journal SET previous = hash WHERE number = 7                         | 7  | CHANGED_ENTRY
        UPDATE journal SET hash = upper(hash) WHERE number = 20                     | 20 | CHANGED_ENTRY
        DELETE FROM journal WHERE number = 7                                        | 8  | MISSING_NUMBER
        DELETE FROM journal WHERE number < 3                                        | 3  | MISSING_NUMBER
        UPDATE journal SET number = 99 WHERE number = 20                            | 99 | MISSING_NUMBER
        INSERT INTO journal SELECT 21, wall_millis, printer, kind, facts, previous, hash FROM journal WHERE number = 7 | 21 | CHANGED_ENTRY
        """)
    void achangeIsNoticedWhereItWasMade(String sql, long number, Difference what) throws Exception {
        unguarded(sql);
        assertThat(prove()).isInstanceOfSatisfying(Proof.Broken.class, broken -> {
            assertThat(broken.number()).isEqualTo(number);
            assertThat(broken.what()).isEqualTo(what);
            assertThat(broken.sentence()).contains("broken at entry " + number).contains(what.words());
        });
    }

    @Test
    void exchangedRowsAreNoticed() throws Exception {
        unguarded(
                "UPDATE journal SET number = 1000 WHERE number = 7",
                "UPDATE journal SET number = 7 WHERE number = 8",
                "UPDATE journal SET number = 8 WHERE number = 1000");
        assertThat(prove())
                .isInstanceOfSatisfying(
                        Proof.Broken.class,
                        broken -> assertThat(broken.number()).isEqualTo(7));
    }

    @Test
    void arowPushedInBetweenIsNoticed() throws Exception {
        unguarded(
                "UPDATE journal SET number = number + 1000 WHERE number > 6",
                "UPDATE journal SET number = number - 999 WHERE number > 1000",
                "INSERT INTO journal SELECT 7, wall_millis, printer, kind, facts, previous, hash FROM journal"
                        + " WHERE number = 6");
        assertThat(prove())
                .isInstanceOfSatisfying(
                        Proof.Broken.class,
                        broken -> assertThat(broken.number()).isEqualTo(7));
    }

    @Test
    void anentryRewrittenWithAFittingHashDoesNotFitTheNext() throws Exception {
        String previous = hashes.get(5);
        String forged = Chain.hash(previous, 7, Children.entry("heron", "release", 7));
        unguarded("UPDATE journal SET kind = 'release', hash = '" + forged + "' WHERE number = 7");
        assertThat(prove()).isInstanceOfSatisfying(Proof.Broken.class, broken -> {
            assertThat(broken.number()).isEqualTo(8);
            assertThat(broken.what()).isEqualTo(Difference.WRONG_PREVIOUS);
        });
    }

    @Test
    void acutEndShowsOnlyAgainstAnAnchor() throws Exception {
        unguarded("DELETE FROM journal WHERE number > 15");
        // said in so many words, because nothing inside a chain can show it
        assertThat(prove()).isEqualTo(new Proof.Whole(15, hashes.get(14), false));
        assertThat(prove().sentence()).contains("cut off at the end would show only against a head hash");

        assertThat(JournalReading.open(state).prove(new Proof.Anchor(20, hashes.get(19))))
                .isInstanceOfSatisfying(
                        Proof.Broken.class, broken -> assertThat(broken.what()).isEqualTo(Difference.CUT_OFF));
        assertThat(JournalReading.open(state).prove(new Proof.Anchor(15, hashes.get(14))))
                .isEqualTo(new Proof.Whole(15, hashes.get(14), true));
        assertThat(JournalReading.open(state).prove(new Proof.Anchor(15, hashes.get(13))))
                .isInstanceOfSatisfying(Proof.Broken.class, broken -> {
                    assertThat(broken.number()).isEqualTo(15);
                    assertThat(broken.what()).isEqualTo(Difference.ANCHOR_DIFFERS);
                });
    }

    @Test
    void anunreadableEntryEndsAReadingClearly() throws Exception {
        unguarded("UPDATE journal SET facts = 'nothing' WHERE number = 7");
        List<Long> seen = new ArrayList<>();
        assertThatThrownBy(() -> JournalReading.open(state).read(5, kept -> seen.add(kept.number())))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("Entry 7")
                .hasMessageContaining("journal prove");
        assertThat(seen).containsExactly(5L, 6L);
    }

    private Proof prove() {
        return JournalReading.open(state).prove();
    }

    private void unguarded(String... sql) throws SQLException {
        List<String> all = new ArrayList<>(List.of(
                "DROP TRIGGER journal_keeps_what_it_has",
                "DROP TRIGGER journal_loses_nothing",
                "DROP TRIGGER journal_grows_at_its_end"));
        all.addAll(List.of(sql));
        raw(all.toArray(String[]::new));
    }

    private void raw(String... sql) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + state.resolve("journal.db"));
                Statement statement = connection.createStatement()) {
            for (String one : sql) {
                statement.executeUpdate(one);
            }
        }
    }
}
