package coldward.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A process killed at a random instant loses nothing that it had been told was kept. */
class KillTest {

    private static final int ROUNDS = 5;

    @Test
    void whatWasAcknowledgedSurvivesBeingKilled(@TempDir Path state) throws Exception {
        Random random = new Random(2026);
        Map<Long, String> acknowledged = new LinkedHashMap<>();
        for (int round = 0; round < ROUNDS; round++) {
            int before = acknowledged.size();
            killed(state, random, acknowledged);
            assertThat(acknowledged.size())
                    .as("acknowledged in round %d", round)
                    .isGreaterThan(before);

            // first as a reader finds it, with the write-ahead log of the dead process still lying there
            assertThat(JournalReading.open(state).prove()).isInstanceOf(Proof.Whole.class);
            try (StateFolder folder = StateFolder.open(state);
                    SqliteJournal journal = SqliteJournal.open(folder)) {
                Map<Long, String> found = new HashMap<>();
                journal.read(1, kept -> found.put(kept.number(), kept.hash()));
                assertThat(found).as("round %d", round).containsAllEntriesOf(acknowledged);
                assertThat(journal.reading().prove())
                        .isInstanceOfSatisfying(
                                Proof.Whole.class,
                                whole -> assertThat(whole.count()).isEqualTo(found.size()));
                journal.append(Children.entry("", "watch-started", round))
                        .thenAccept(kept -> acknowledged.put(kept.number(), kept.hash()))
                        .toCompletableFuture()
                        .join();
            }
        }
    }

    private static void killed(Path state, Random random, Map<Long, String> acknowledged) throws Exception {
        Process child = Children.start("", Children.Appending.class, state);
        try (BufferedReader lines =
                new BufferedReader(new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
            assertThat(lines.readLine()).isEqualTo("open");
            // counted from an acknowledgement, so that a slow machine still gets somewhere in every round
            int from = 1 + random.nextInt(40);
            int millis = random.nextInt(200);
            Thread killer = Thread.ofPlatform().unstarted(() -> {
                try {
                    child.waitFor(millis, TimeUnit.MILLISECONDS);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } finally {
                    // through the handle: Process.destroyForcibly would also close the pipe that is being read
                    child.toHandle().destroyForcibly();
                }
            });
            int seen = 0;
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                String[] words = line.split(" ", -1);
                // the pipe may end in the middle of a line; a whole one has all 64 digits
                if (words.length == 2 && words[1].length() == 64) {
                    acknowledged.put(Long.valueOf(words[0]), words[1]);
                    seen++;
                    if (seen == from) {
                        killer.start();
                    }
                }
            }
            killer.join();
            assertThat(child.waitFor()).as("ended by SIGKILL").isEqualTo(128 + 9);
        }
    }
}
