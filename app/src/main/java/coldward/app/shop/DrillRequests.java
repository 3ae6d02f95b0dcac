package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.watch.PrinterView;
import coldward.watch.drill.DrillKind;
import coldward.watch.drill.Drills;
import coldward.watch.drill.FailureMoment;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The drill's side of the control socket: begin, the fan fails now, how does it stand, give up. */
final class DrillRequests {

    private final Drills drills;

    DrillRequests(Drills drills) {
        this.drills = drills;
    }

    Map<String, Function<JsonNode, ObjectNode>> all() {
        Map<String, Function<JsonNode, ObjectNode>> all = new LinkedHashMap<>();
        all.put("drill-begin", this::begin);
        all.put("drill-failed", this::failed);
        all.put("drill-look", this::look);
        all.put("drill-give-up", this::giveUp);
        return all;
    }

    private static String printer(JsonNode request) {
        return request.path("printer").asString("");
    }

    private ObjectNode begin(JsonNode request) {
        String how = request.path("how").asString("");
        Optional<DrillKind> kind = DrillKind.of(how);
        if (kind.isEmpty()) {
            return Json.object().put("error", "unknown kind of drill '" + how + "'");
        }
        double lowered = request.path("lowered").asDouble(-1);
        Drills.Begin begin = drills.begin(
                printer(request),
                kind.get(),
                lowered >= 0 && lowered <= 1 ? Optional.of(lowered) : Optional.empty(),
                request.path("although_working").asBoolean(false));
        return switch (begin) {
            case Drills.Begin.Refused refused -> Json.object().put("refused", refused.why());
            case Drills.Begin.Ready ready -> {
                ObjectNode node = Json.object();
                Json.put(node, "speed_rpm", ready.speed());
                ready.forecast().ifPresent(f -> DrillReport.forecast(node, f));
                yield node;
            }
        };
    }

    private ObjectNode failed(JsonNode request) {
        Optional<FailureMoment.By> by = FailureMoment.By.of(request.path("by").asString(""));
        boolean told = by.isPresent() && drills.failed(printer(request), by.get());
        return Json.object().put("told", told);
    }

    private ObjectNode giveUp(JsonNode request) {
        return Json.object().put("given_up", drills.giveUp(printer(request)));
    }

    private ObjectNode look(JsonNode request) {
        ObjectNode node = Json.object();
        Optional<Drills.Look> look = drills.look(printer(request));
        look.ifPresent(l -> {
            l.sinceFailure().ifPresent(s -> Json.put(node, "since_failure_s", s));
            PrinterView view = l.view();
            node.put("fan", view.fan().word());
            Json.put(node, "speed_rpm", view.speed());
            node.put("confirmations", view.confirmations());
            view.trip().ifPresent(trip -> {
                ObjectNode actions = node.putObject("actions");
                trip.actions()
                        .forEach(a -> actions.put(
                                a.action().word(), a.progress().name().toLowerCase(java.util.Locale.ROOT)));
            });
            l.result().ifPresent(r -> {
                ObjectNode facts = node.putObject("result");
                r.facts().forEach((name, value) -> {
                    if (value instanceof Long number) {
                        facts.put(name, number);
                    } else {
                        facts.put(name, value.toString());
                    }
                });
            });
        });
        return node;
    }
}
