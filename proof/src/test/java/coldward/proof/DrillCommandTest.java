package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** A drill, what is told after it and a change of the fan, as a user types them, on a rig and a watch of their own. */
class DrillCommandTest {

    @TempDir
    Path folder;

    private static CommandRun drill(RiggedShop shop, Object... more) {
        Object[] words = new Object[5 + more.length];
        words[0] = "drill";
        words[1] = shop.file();
        words[2] = "heron";
        words[3] = "--how";
        words[4] = "stall";
        System.arraycopy(more, 0, words, 5, more.length);
        return CommandRun.of(words);
    }

    @Test
    void isDrilledLookedBackAtReleasedAndServed() {
        try (RiggedShop shop = RiggedShop.in(folder, 9)) {
            CommandRun nobody = drill(shop, "--rig");
            assertThat(nobody.code()).isEqualTo(4);
            assertThat(nobody.err()).contains("no watch runs");
            assertThat(CommandRun.of("drill", shop.file(), "heron").code()).isEqualTo(2);
            assertThat(CommandRun.of("drill", shop.file(), "heron", "--how", "shout")
                            .err())
                    .contains("pull, stall, cut-signal, low-supply");
            servedWithoutAWatch(shop);

            try (WatchProcess watch = WatchProcess.on(shop.file())) {
                watch.awaitState("turning");
                CommandRun busy = drill(shop, "--rig");
                assertThat(busy.code()).isEqualTo(4);
                assertThat(busy.err()).contains("running a job", "--although-working");
                assertThat(CommandRun.of("after", shop.file(), "heron").code()).isEqualTo(3);

                CommandRun drilled = drill(shop, "--rig", "--although-working", "--json");
                assertThat(drilled.code()).as(drilled.out() + drilled.err()).isZero();
                OutputSchemas.assertFits("drill", drilled.out());
                assertThat(drilled.json().path("result").asString()).isEqualTo("as-predicted");
                assertThat(drilled.json().path("does_not_test").asString()).contains("slow fan");

                CommandRun again = drill(shop, "--rig", "--although-working");
                assertThat(again.code()).isEqualTo(4);
                assertThat(again.err()).contains("tripped", "release");

                lookedBackAt(shop);
                listed(shop);
                served(shop);
                CommandRun released = CommandRun.of(
                        "release", shop.file(), "heron", "--name", "J. Brook", "--reason", "drill, stall");
                assertThat(released.code()).isZero();
                watch.stop();
            }
            assertThat(CommandRun.of("journal", "prove", shop.file()).code()).isZero();
        }
    }

    private static void lookedBackAt(RiggedShop shop) {
        CommandRun after = CommandRun.of("after", shop.file(), "heron", "--json");
        OutputSchemas.assertFits("after", after.out());
        assertThat(after.json().path("from").asString()).isEqualTo("recorded");
        assertThat(after.json().path("cause").asString()).isIn("blocked", "signal-lost");
        assertThat(after.code())
                .isEqualTo(after.json().path("instruction").asString().equals("resume") ? 0 : 1);
        assertThat(CommandRun.of("after", shop.file(), "heron").out()).contains("Deepest softening", "Next: ");
    }

    private static void listed(RiggedShop shop) {
        CommandRun list = CommandRun.of("drill", "list", shop.file(), "--json");
        OutputSchemas.assertFits("drill-list", list.out());
        assertThat(list.code()).as("passed today").isZero();
        JsonNode heron = list.json().path("printers").path(0);
        assertThat(heron.path("days_since").asInt(-1)).isZero();
        assertThat(heron.path("drill_every_days").asDouble()).isEqualTo(90);
        assertThat(heron.path("never_passed")).hasSize(3);
        assertThat(list.json().path("drills")).hasSize(1);
        assertThat(CommandRun.of("drill", "list", shop.file()).out()).contains("stall", "passed, as-predicted");
    }

    private static void servedWithoutAWatch(RiggedShop shop) {
        CommandRun none = CommandRun.of("service", "list", shop.file());
        assertThat(none.out()).contains("No fan has been entered yet");
        CommandRun first =
                CommandRun.of("service", shop.file(), "heron", "--fitted-fan", "F-1", "--lot", "2611", "--json");
        assertThat(first.code()).as(first.err()).isZero();
        OutputSchemas.assertFits("service", first.out());
        assertThat(first.json().path("warnings")).isEmpty();
    }

    private static void served(RiggedShop shop) {
        CommandRun second = CommandRun.of(
                "service",
                shop.file(),
                "heron",
                "--fitted-fan",
                "F-2",
                "--why",
                "worn",
                "--speed",
                "6000 rpm",
                "--json");
        assertThat(second.code()).as(second.err()).isZero();
        OutputSchemas.assertFits("service", second.out());
        assertThat(second.json().path("before").asString()).isEqualTo("F-1");
        assertThat(second.json().path("warnings").toString()).contains("6000 rpm", "8000 rpm");
        CommandRun bad = CommandRun.of("service", shop.file(), "heron", "--fitted-fan", "F-3", "--why", "bored");
        assertThat(bad.code()).isEqualTo(2);
        CommandRun stranger = CommandRun.of("service", shop.file(), "plover", "--fitted-fan", "F-3");
        assertThat(stranger.code()).isEqualTo(3);
        // the watch writes it without keeping the asker waiting
        JsonNode lives = CommandRun.of("service", "list", shop.file(), "--json").json();
        for (int i = 0; i < 50 && lives.path("lives").size() < 2; i++) {
            CommandRun list = CommandRun.of("service", "list", shop.file(), "--json");
            OutputSchemas.assertFits("service-list", list.out());
            lives = list.json();
        }
        assertThat(lives.path("lives")).hasSize(2);
        assertThat(lives.path("lives").path(0).path("ended_by").asString()).isEqualTo("worn");
    }
}
