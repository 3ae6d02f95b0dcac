package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/**
 * {@code kill -9} of the watch while a fan fails: started again, the printer is or becomes tripped, the machine is made
 * safe, and the journal is whole. The moment within each phase is drawn, with a seed.
 */
class KillTest {

    @TempDir
    Path folder;

    @ParameterizedTest(name = "killed {1}..{2} ms after {0}")
    @CsvSource({
        "doubted, 0, 1500, 11",
        "tripped, 0, 0, 12",
        "tripped, 0, 400, 13",
        "tripped, 400, 1600, 14",
    })
    void isTrippedAndMadeSafeAfterwards(String phase, int earliest, int latest, long seed) {
        int millis = earliest + new Random(seed).nextInt(latest - earliest + 1);
        try (RiggedShop shop = RiggedShop.in(folder, seed)) {
            try (WatchProcess first = WatchProcess.on(shop.file())) {
                first.awaitState("turning");
                shop.failHeron("stop");
                first.awaitState(phase);
                LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(millis));
                first.killHard();
            }
            try (WatchProcess second = WatchProcess.on(shop.file())) {
                second.awaitStateAndNotice("tripped", "made-safe");
                assertSafe(shop);
                second.stop();
                second.assertEveryLineFits();
                assertThat(second.errors()).isEmpty();
            }
            CommandRun proof = CommandRun.of("journal", "prove", shop.file());
            assertThat(proof.code()).as(proof.out() + proof.err()).isZero();
            int trips = 0;
            int finished = 0;
            JsonNode journal = CommandRun.of("journal", "read", shop.file(), "--all", "--json")
                    .json();
            for (JsonNode entry : journal.path("entries")) {
                String kind = entry.path("kind").asString();
                trips += kind.equals("trip") ? 1 : 0;
                finished += kind.equals("response-finished") ? 1 : 0;
                assertThat(kind).isNotEqualTo("release");
            }
            assertThat(trips).as("trips in %s", journal).isEqualTo(1);
            assertThat(finished).as("finished responses in %s", journal).isEqualTo(1);
        }
    }

    /** As the machine itself is, whatever the watch believes. */
    private static void assertSafe(RiggedShop shop) {
        JsonNode actions = shop.heron("truth").path("actions");
        for (String action : new String[] {"hold", "heater-off", "block-fan"}) {
            assertThat(actions.path(action).path("in_effect").asBoolean())
                    .as("%s in %s", action, actions)
                    .isTrue();
        }
        assertThat(shop.heron("heat").path("nozzle_target_degC").asDouble()).isZero();
        assertThat(shop.heron("heat").path("block_fan_share").asDouble()).isEqualTo(1);
        assertThat(shop.heron("job").path("feeding").asBoolean(true)).isFalse();
    }
}
