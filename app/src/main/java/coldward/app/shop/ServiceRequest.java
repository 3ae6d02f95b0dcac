package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.quantity.Ticker;
import coldward.watch.Journal;
import coldward.watch.Watch;
import coldward.watch.fitted.FittedFan;
import java.util.SortedMap;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** A fan was fitted while the watch runs: the watch alone writes its journal. */
final class ServiceRequest {

    private final Watch watch;
    private final Ticker ticker;

    ServiceRequest(Watch watch, Ticker ticker) {
        this.watch = watch;
        this.ticker = ticker;
    }

    ObjectNode answer(JsonNode request) {
        SortedMap<String, Object> facts = new TreeMap<>();
        request.path("facts")
                .forEachEntry((name, value) ->
                        facts.put(name, value.isNumber() ? (Object) value.asLong() : value.asString()));
        watch.keep(
                new Journal.Entry(ticker.wallMillis(), request.path("printer").asString(""), FittedFan.ENTRY, facts));
        return Json.object().put("kept", true);
    }
}
