package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.quantity.CannotRun;
import coldward.watch.Watch;
import coldward.watch.notices.NoticeBoard;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** What people tell a running watch, besides a release: that they have taken notice, and that it shall hold back. */
final class PeopleRequests {

    private static final long ANSWER_WITHIN = 10;

    private final Watch watch;
    private final NoticeBoard board;

    PeopleRequests(Watch watch, NoticeBoard board) {
        this.watch = watch;
        this.board = board;
    }

    /** The answers by the word after {@code do}. */
    Map<String, Function<JsonNode, ObjectNode>> all() {
        Map<String, Function<JsonNode, ObjectNode>> all = new LinkedHashMap<>();
        all.put("acknowledge", this::acknowledge);
        all.put("bypass", this::bypass);
        return all;
    }

    private ObjectNode acknowledge(JsonNode request) {
        Optional<String> printer =
                Optional.of(request.path("printer").asString("")).filter(p -> !p.isEmpty());
        // an unknown printer is told apart from one with nothing open
        printer.ifPresent(watch::view);
        int open = board.acknowledge(printer, request.path("name").asString(""));
        return Json.object().put("acknowledged", open);
    }

    private ObjectNode bypass(JsonNode request) {
        String printer = request.path("printer").asString("");
        long seconds = request.path("seconds").asLong(0);
        try {
            watch.bypass(
                            printer,
                            request.path("name").asString(""),
                            request.path("reason").asString(""),
                            Duration.ofSeconds(seconds))
                    .toCompletableFuture()
                    .get(ANSWER_WITHIN, TimeUnit.SECONDS);
            return Json.object().put("printer", printer).put("seconds", seconds);
        } catch (ExecutionException | TimeoutException e) {
            throw new CannotRun("the watch did not bypass in time", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("interrupted", e);
        }
    }
}
