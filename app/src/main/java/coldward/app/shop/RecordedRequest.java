package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.model.shop.ReadName;
import coldward.quantity.CannotRun;
import coldward.watch.Recorded;
import coldward.watch.guard.Reads;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What a running watch heard of a printer lately, over its control socket. */
public final class RecordedRequest {

    private final Recorded recent;

    RecordedRequest(Recorded recent) {
        this.recent = recent;
    }

    /** The watch's side. */
    ObjectNode answer(JsonNode request) {
        ObjectNode node = Json.object();
        ArrayNode rows = node.putArray("reports");
        for (Recorded.Report report : recent.between(
                request.path("printer").asString(""),
                request.path("from_ms").asLong(0),
                request.path("to_ms").asLong(Long.MAX_VALUE))) {
            ObjectNode row = rows.addObject().put("at_ms", report.wallMillis());
            for (ReadName name : ReadName.values()) {
                report.reads().find(name).ifPresent(value -> row.put(name.word(), value));
            }
        }
        return node;
    }

    /** The asker's side: nothing was recorded where no watch runs. */
    public static Recorded from(Path state) {
        return (printer, from, to) -> {
            JsonNode answer;
            try {
                answer = ControlSocket.ask(
                        state,
                        Json.object()
                                .put("do", "recorded")
                                .put("printer", printer)
                                .put("from_ms", from)
                                .put("to_ms", to));
            } catch (CannotRun e) {
                // no watch runs: the journal alone must do, which the answer then says
                return List.of();
            }
            List<Recorded.Report> reports = new ArrayList<>();
            for (JsonNode row : answer.path("reports")) {
                Reads.Builder reads = new Reads.Builder();
                for (ReadName name : ReadName.values()) {
                    if (row.has(name.word())) {
                        reads.with(name, row.path(name.word()).asDouble());
                    }
                }
                reports.add(new Recorded.Report(row.path("at_ms").asLong(), reads.build()));
            }
            return reports;
        };
    }
}
