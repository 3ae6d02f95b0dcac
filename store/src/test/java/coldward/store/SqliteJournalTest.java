package coldward.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.CannotRun;
import coldward.quantity.InputError;
import coldward.watch.Journal;
import coldward.watch.Journal.Entry;
import coldward.watch.Journal.Kept;
import java.io.BufferedReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SqliteJournalTest {

    @TempDir
    Path state;

    private interface Work {
        void with(SqliteJournal journal) throws Exception;
    }

    private void inJournal(Work work) throws Exception {
        try (StateFolder folder = StateFolder.open(state);
                SqliteJournal journal = SqliteJournal.open(folder)) {
            work.with(journal);
        }
    }

    private static Kept kept(Journal journal, Entry entry) {
        return journal.append(entry).toCompletableFuture().join();
    }

    @Test
    void hashesAsAShellDoes() throws Exception {
        // printf '%064d{"facts":{"after_ms":3100,"speed":"0 rpm"},"kind":"trip","number":1,"printer":"heron",
        // "wall_ms":1700000000000}' 0 | sha256sum (in one line, GNU coreutils 9)
        inJournal(journal -> {
            Kept first = kept(
                    journal,
                    new Entry(
                            1_700_000_000_000L,
                            "heron",
                            "trip",
                            new TreeMap<>(Map.of("speed", "0 rpm", "after_ms", 3100L))));
            assertThat(first.hash()).isEqualTo("bf1c074e44bb9dc59d1e44c103b5ac1e1663ce571933711bed0eb30eef29f1fa");
            Kept second = kept(journal, new Entry(1, "", "watch-ended", new TreeMap<>()));
            // the same with that hash in place of the zeros and
            // {"facts":{},"kind":"watch-ended","number":2,"printer":"","wall_ms":1}
            assertThat(second.hash()).isEqualTo("a600af9f670736012de43b27e59a7eef4fd06e3cc20362f60748e6397fede7f7");
        });
    }

    @Test
    void keepsEverythingAcrossReopening() throws Exception {
        List<Kept> told = new ArrayList<>();
        String odd = "tab\t quote\" back\\slash nul\u0000 smiley\ud83d\ude02 \u20ac\u2028";
        inJournal(journal -> {
            told.add(kept(journal, new Entry(-5, odd, "odd", new TreeMap<>(Map.of(odd, odd)))));
            told.add(kept(journal, new Entry(0, "", "limits", new TreeMap<>(Map.of("a", -(1L << 53) + 1)))));
        });
        inJournal(journal -> {
            told.add(kept(journal, Children.entry("heron", "trip", 3)));
            List<Kept> found = new ArrayList<>();
            journal.read(0, found::add);
            assertThat(found).isEqualTo(told);
            assertThat(found).extracting(Kept::number).containsExactly(1L, 2L, 3L);
            assertThat(journal.of(odd)).containsExactly(told.getFirst());
            assertThat(journal.reading().prove())
                    .isEqualTo(new Proof.Whole(3, told.getLast().hash(), false));
        });
    }

    @Test
    void findsByPrinterAndKind() throws Exception {
        inJournal(journal -> {
            kept(journal, Children.entry("heron", "trip", 1));
            kept(journal, Children.entry("robin", "trip", 2));
            kept(journal, Children.entry("heron", "release", 3));
            kept(journal, Children.entry("", "watch-started", 4));
            kept(journal, Children.entry("heron", "drill", 5));

            assertThat(journal.of("heron")).extracting(Kept::number).containsExactly(1L, 3L, 5L);
            assertThat(journal.of("heron", "drill", "trip"))
                    .extracting(Kept::number)
                    .containsExactly(1L, 5L);
            assertThat(journal.of("")).extracting(Kept::number).containsExactly(4L);
            assertThat(journal.of("wren")).isEmpty();
            assertThat(journal.of("heron", "' OR 1=1 --")).isEmpty();
            assertThat(journal.reading().newest(2)).extracting(Kept::number).containsExactly(4L, 5L);
        });
    }

    @Test
    void manyThreadsAreKeptEachInItsOwnOrder() throws Exception {
        int threads = 8;
        int each = 500;
        inJournal(journal -> {
            List<CompletableFuture<Kept>> stages = new ArrayList<>();
            List<Thread> running = new ArrayList<>();
            for (int t = 0; t < threads; t++) {
                String printer = "printer-" + t;
                running.add(Thread.ofVirtual().start(() -> {
                    for (int i = 0; i < each; i++) {
                        CompletableFuture<Kept> stage = journal.append(Children.entry(printer, "report", i))
                                .toCompletableFuture();
                        synchronized (stages) {
                            stages.add(stage);
                        }
                    }
                }));
            }
            for (Thread thread : running) {
                thread.join();
            }
            stages.forEach(CompletableFuture::join);
            for (int t = 0; t < threads; t++) {
                List<Kept> own = journal.of("printer-" + t);
                assertThat(own).hasSize(each);
                for (int i = 0; i < each; i++) {
                    assertThat(own.get(i).entry().facts().get("count")).isEqualTo((long) i);
                }
            }
            assertThat(journal.reading().prove())
                    .isInstanceOfSatisfying(
                            Proof.Whole.class,
                            whole -> assertThat(whole.count()).isEqualTo((long) threads * each));
        });
    }

    @Test
    void astageIsToldOnlyOnceTheEntryCanBeReadElsewhere() throws Exception {
        inJournal(journal -> {
            for (int i = 1; i <= 20; i++) {
                long number = kept(journal, Children.entry("heron", "trip", i)).number();
                // another connection, no lock, while the writer is open
                assertThat(JournalReading.open(state).of("heron"))
                        .extracting(Kept::number)
                        .contains(number);
            }
        });
    }

    @Test
    void newsMayAppendAndWait() throws Exception {
        inJournal(journal -> {
            Kept second = journal.append(Children.entry("heron", "trip", 1))
                    .thenApply(first -> kept(journal, Children.entry("heron", "release", 2)))
                    .toCompletableFuture()
                    .get(10, TimeUnit.SECONDS);
            assertThat(second.number()).isEqualTo(2);
        });
    }

    @Test
    void closingWritesWhatWaits() throws Exception {
        List<CompletableFuture<Kept>> stages = new ArrayList<>();
        inJournal(journal -> {
            for (int i = 0; i < 3000; i++) {
                stages.add(journal.append(Children.entry("heron", "report", i)).toCompletableFuture());
            }
            journal.close();
            assertThatThrownBy(() -> kept(journal, Children.entry("heron", "late", 1)))
                    .hasCauseInstanceOf(CannotRun.class)
                    .hasMessageContaining("is closed");
        });
        assertThat(stages)
                .allSatisfy(stage -> assertThat(stage.get(10, TimeUnit.SECONDS)).isNotNull());
        assertThat(JournalReading.open(state).prove())
                .isInstanceOfSatisfying(
                        Proof.Whole.class, whole -> assertThat(whole.count()).isEqualTo(3000));
    }

    @Test
    void anunfitEntryHarmsNoOther() throws Exception {
        inJournal(journal -> {
            CompletableFuture<Kept> good =
                    journal.append(Children.entry("heron", "trip", 1)).toCompletableFuture();
            assertThatThrownBy(() -> kept(journal, new Entry(1, "heron", "trip", new TreeMap<>(Map.of("n", 1L << 60)))))
                    .hasCauseInstanceOf(InputError.class)
                    .hasMessageContaining("n is 1152921504606846976");
            assertThatThrownBy(() -> kept(journal, new Entry(1, "half\ud83d", "trip", new TreeMap<>())))
                    .hasCauseInstanceOf(InputError.class);
            assertThat(good.join().number()).isEqualTo(1);
            assertThat(kept(journal, Children.entry("heron", "trip", 2)).number())
                    .isEqualTo(2);
        });
    }

    @Test
    void abatchThatTheDatabaseRefusesIsKeptNotAtAllAndTheNextGoesOn() throws Exception {
        inJournal(journal -> {
            kept(journal, Children.entry("heron", "trip", 1));
            raw("CREATE TRIGGER refuse BEFORE INSERT ON journal WHEN NEW.kind = 'refused'"
                    + " BEGIN SELECT RAISE(ABORT, 'not this one'); END");
            assertThatThrownBy(() -> kept(journal, Children.entry("heron", "refused", 2)))
                    .isInstanceOf(CompletionException.class)
                    .hasCauseInstanceOf(CannotRun.class)
                    .hasMessageContaining("could not be written")
                    .hasMessageContaining("not this one");
            assertThat(kept(journal, Children.entry("heron", "trip", 3)).number())
                    .isEqualTo(2);
            assertThat(journal.reading().prove()).isInstanceOf(Proof.Whole.class);
        });
    }

    @Test
    void afullDiskIsToldAndNothingIsHalfWritten() throws Exception {
        // a limit of the operating system on the size of files (512-byte blocks): writes then fail as on a full
        // disk; large enough for what Java itself unpacks
        Process child = Children.start("ulimit -f 12000", Children.Filling.class, state);
        List<String> lines;
        try (BufferedReader reader = child.inputReader(StandardCharsets.UTF_8)) {
            lines = reader.lines().toList();
        }
        assertThat(child.waitFor()).isZero();
        assertThat(lines).hasSize(3);
        assertThat(lines.subList(0, 2))
                .allSatisfy(line -> assertThat(line)
                        .startsWith("The journal could not be written to ")
                        .contains("Nothing of this was kept"));
        long kept = Long.parseLong(lines.getLast().substring("kept ".length()));
        assertThat(kept).isPositive();
        assertThat(JournalReading.open(state).prove())
                .isInstanceOfSatisfying(
                        Proof.Whole.class, whole -> assertThat(whole.count()).isEqualTo(kept));
        inJournal(journal -> assertThat(
                        kept(journal, Children.entry("heron", "trip", 1)).number())
                .isEqualTo(kept + 1));
    }

    @Test
    void afileThatIsNoDatabaseIsNamedAndLeftAlone() throws Exception {
        Path database = Files.writeString(state.resolve("journal.db"), "dear diary, ".repeat(1000));
        assertThatThrownBy(() -> inJournal(journal -> {}))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining(database.toString())
                .hasMessageContaining("is not a database");
        assertThatThrownBy(() -> JournalReading.open(state))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("is not a database");
        assertThat(Files.readString(database)).startsWith("dear diary").hasSize(12_000);
    }

    @Test
    void adatabaseOfSomebodyElseIsLeftAlone() throws Exception {
        raw("CREATE TABLE recipes (name TEXT)");
        assertThatThrownBy(() -> inJournal(journal -> {}))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("tables of another program");
        assertThatThrownBy(() -> JournalReading.open(state))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("holds no journal");
    }

    @Test
    void afolderInTheDatabasesPlaceIsNamed() throws Exception {
        Files.createDirectory(state.resolve("journal.db"));
        assertThatThrownBy(() -> inJournal(journal -> {}))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("is not a file");
        assertThatThrownBy(() -> JournalReading.open(state))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("is not a file");
    }

    @Test
    void anewerFormIsRefusedAndLeftAlone() throws Exception {
        inJournal(journal -> kept(journal, Children.entry("heron", "trip", 1)));
        raw("UPDATE flyway_schema_history SET version = '7' WHERE version = '1'");
        assertThatThrownBy(() -> inJournal(journal -> {}))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("newer Coldward (form 7");
        assertThatThrownBy(() -> JournalReading.open(state))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("newer Coldward (form 7");
    }

    @Test
    void thePresentFormIsThatOfTheNewestMigration() throws Exception {
        inJournal(journal -> {});
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + state.resolve("journal.db"));
                Statement statement = connection.createStatement();
                var row = statement.executeQuery("SELECT max(CAST(version AS INTEGER)) FROM flyway_schema_history")) {
            assertThat(row.getInt(1)).isEqualTo(Schema.PRESENT);
        }
    }

    @Test
    void nojournalYetIsSaid() {
        assertThatThrownBy(() -> JournalReading.open(state))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("There is no journal in " + state);
        assertThat(state).isEmptyDirectory();
    }

    @Test
    void isDurableAsSqliteUnderstandsIt() throws Exception {
        // sqlite.org, "PRAGMA synchronous": in WAL mode FULL (2) syncs the log at every commit, NORMAL does not
        inJournal(journal -> {
            try (Connection connection = Sqlite.writing(state.resolve("journal.db"));
                    Statement statement = connection.createStatement()) {
                try (var row = statement.executeQuery("PRAGMA synchronous")) {
                    assertThat(row.getInt(1)).isEqualTo(2);
                }
                try (var row = statement.executeQuery("PRAGMA journal_mode")) {
                    assertThat(row.getString(1)).isEqualTo("wal");
                }
            }
        });
    }

    private void raw(String sql) throws Exception {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + state.resolve("journal.db"));
                Statement statement = connection.createStatement()) {
            statement.executeUpdate(sql);
        }
    }
}
