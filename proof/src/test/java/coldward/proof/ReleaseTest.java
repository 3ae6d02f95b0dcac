package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** A trip is taken back by name and with a reason only, through the running watch, and the journal keeps both. */
class ReleaseTest {

    @TempDir
    Path folder;

    private static CommandRun release(RiggedShop shop, String printer, String name, String reason) {
        return CommandRun.of("release", shop.file(), printer, "--name", name, "--reason", reason, "--json");
    }

    @Test
    void clearsATripByNameOnly() {
        try (RiggedShop shop = RiggedShop.in(folder, 3)) {
            CommandRun nobody = release(shop, "heron", "J. Brook", "new fan");
            assertThat(nobody.code()).isEqualTo(4);
            assertThat(nobody.err()).contains("no watch runs", "coldward watch");

            try (WatchProcess watch = WatchProcess.on(shop.file())) {
                watch.awaitState("turning");
                CommandRun early = release(shop, "heron", "J. Brook", "nothing is wrong");
                assertThat(early.code()).as(early.err()).isEqualTo(1);
                OutputSchemas.assertFits("release", early.out());
                assertThat(early.json().path("released").asBoolean(true)).isFalse();

                shop.failHeron("stop");
                watch.awaitNotice("made-safe");

                CommandRun blankName = release(shop, "heron", " ", "new fan");
                assertThat(blankName.code()).isEqualTo(3);
                assertThat(blankName.err()).contains("name").doesNotContain("Exception");
                CommandRun blankReason = release(shop, "heron", "J. Brook", "");
                assertThat(blankReason.code()).isEqualTo(3);
                assertThat(blankReason.err()).contains("reason");
                CommandRun stranger = release(shop, "plover", "J. Brook", "new fan");
                assertThat(stranger.code()).isEqualTo(3);
                assertThat(stranger.err()).contains("plover", "heron");
                CommandRun anonymous = CommandRun.of("release", shop.file(), "heron", "--reason", "new fan");
                assertThat(anonymous.code()).isEqualTo(2);

                CommandRun released = release(shop, "heron", "J. Brook", "new fan fitted");
                assertThat(released.code()).as(released.err()).isZero();
                OutputSchemas.assertFits("release", released.out());
                watch.awaitNotice("released");
                assertThat(release(shop, "heron", "J. Brook", "again").code()).isEqualTo(1);
                watch.assertEveryLineFits();
                watch.stop();
            }

            CommandRun proof = CommandRun.of("journal", "prove", shop.file(), "--json");
            assertThat(proof.code()).isZero();
            OutputSchemas.assertFits("journal-prove", proof.out());
            CommandRun read = CommandRun.of("journal", "read", shop.file(), "--all", "--json");
            OutputSchemas.assertFits("journal-read", read.out());
            JsonNode kept = only(read.json(), "release");
            assertThat(kept.path("printer").asString()).isEqualTo("heron");
            assertThat(kept.path("facts").path("name").asString()).isEqualTo("J. Brook");
            assertThat(kept.path("facts").path("reason").asString()).isEqualTo("new fan fitted");
            assertThat(only(read.json(), "trip").path("number").asInt())
                    .isLessThan(kept.path("number").asInt());
            assertThat(only(read.json(), "watch-stopped").has("printer")).isFalse();

            String anchor = proof.json().path("entries").asInt() + ":"
                    + proof.json().path("head").asString();
            assertThat(CommandRun.of("journal", "prove", shop.file(), "--anchor", anchor)
                            .code())
                    .isZero();
            CommandRun cut =
                    CommandRun.of("journal", "prove", shop.file(), "--json", "--anchor", "999999:" + "0".repeat(64));
            assertThat(cut.code()).isEqualTo(1);
            OutputSchemas.assertFits("journal-prove", cut.out());
        }
    }

    private static JsonNode only(JsonNode journal, String kind) {
        JsonNode found = null;
        for (JsonNode entry : journal.path("entries")) {
            if (entry.path("kind").asString().equals(kind)) {
                assertThat(found)
                        .as("one entry of kind %s in %s", kind, journal)
                        .isNull();
                found = entry;
            }
        }
        if (found == null) {
            throw new AssertionError("no entry of kind " + kind + " in " + journal);
        }
        return found;
    }
}
