package coldward.proof;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** {@code coldward watch --json} in a process of its own. */
final class WatchProcess implements AutoCloseable {

    private static final JsonMapper JSON = JsonMapper.shared();

    private final ChildJvm child;

    private WatchProcess(ChildJvm child) {
        this.child = child;
    }

    static WatchProcess on(Path shop) {
        return new WatchProcess(ChildJvm.start("watch", "--json", shop));
    }

    /** Waits until heron's fan is said to be in a state. */
    void awaitState(String state) {
        await("heron is " + state, e -> e.path("state").asString("").equals(state));
    }

    /** Waits until people are told of something. */
    JsonNode awaitNotice(String kind) {
        return await("a notice of " + kind, e -> e.path("kind").asString("").equals(kind));
    }

    /** Waits until heron is said to be in a state and people are told of something, whichever comes first. */
    void awaitStateAndNotice(String state, String kind) {
        Set<String> missing = new HashSet<>(Set.of(state, kind));
        await("heron " + state + " and a notice of " + kind, e -> {
            missing.remove(e.path("state").asString(""));
            missing.remove(e.path("kind").asString(""));
            return missing.isEmpty();
        });
    }

    private JsonNode await(String what, Predicate<JsonNode> wanted) {
        return child.await(what, line -> Optional.of(event(line)).filter(wanted));
    }

    private static JsonNode event(String line) {
        try {
            return JSON.readTree(line);
        } catch (JacksonException e) {
            throw new AssertionError("not a line of JSON: " + line, e);
        }
    }

    /** Every line so far fits the published schema. */
    void assertEveryLineFits() {
        for (String line : child.outputLines()) {
            OutputSchemas.assertFits("watch", line);
        }
    }

    void killHard() {
        child.killHard();
    }

    void stop() {
        child.stop();
    }

    long pid() {
        return child.pid();
    }

    String errors() {
        return child.errors();
    }

    @Override
    public void close() {
        child.close();
    }
}
