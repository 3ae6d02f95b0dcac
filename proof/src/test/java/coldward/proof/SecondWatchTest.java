package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One watch per shop: a second one refuses to start, and says who holds the shop. */
class SecondWatchTest {

    @TempDir
    Path folder;

    @Test
    void refusesToStartWhileOneRuns() {
        try (RiggedShop shop = RiggedShop.in(folder, 4)) {
            try (WatchProcess first = WatchProcess.on(shop.file())) {
                first.awaitState("turning");
                CommandRun second = CommandRun.of("watch", shop.file());
                assertThat(second.code()).isEqualTo(4);
                assertThat(second.out()).isEmpty();
                assertThat(second.err())
                        .contains("process " + first.pid(), "one watch per shop", "Stop that one first")
                        .doesNotContain("\tat ", "Exception");
                first.killHard();
            }
            try (WatchProcess third = WatchProcess.on(shop.file())) {
                third.awaitState("turning");
                third.assertEveryLineFits();
                third.stop();
                assertThat(third.errors()).isEmpty();
            }
        }
    }
}
