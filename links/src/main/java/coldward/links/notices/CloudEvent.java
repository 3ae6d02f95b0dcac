package coldward.links.notices;

import coldward.watch.Notice;
import coldward.watch.notices.Message;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Messages as CloudEvents 1.0 in JSON, structured mode: the context attributes of the specification's section "Context
 * Attributes" and a {@code data} object. A repeat is an event of its own with an id of its own; the notice's first id is
 * in its data.
 */
public final class CloudEvent {

    /** Media type of the JSON event format 1.0.2, section 3. */
    public static final String MEDIA_TYPE = "application/cloudevents+json; charset=utf-8";

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private CloudEvent() {}

    /** A message as one event. */
    public static String of(Message message) {
        ObjectNode event = event(message.id(), message.shop(), "coldward." + message.about(), message.wallMillis());
        if (!message.printers().isEmpty()) {
            event.put("subject", String.join(", ", message.printers()));
        }
        ObjectNode data = event.putObject("data");
        data.put("shop", message.shop());
        data.put("signal", message.signal().name());
        data.put("line", message.line());
        data.put("repeat", message.repeat());
        message.first().ifPresent(first -> data.put("repeats_id", first));
        ArrayNode notices = data.putArray("notices");
        for (Notice notice : message.notices()) {
            ObjectNode one = notices.addObject();
            one.put("about", notice.kind().word());
            one.put("signal", notice.kind().signal().name());
            one.put("at", time(notice.wallMillis()));
            texts(one.putArray("printers"), notice.printers());
            one.put("happened", notice.happened());
            one.put("done", notice.done());
            one.put("next", notice.next());
        }
        return JSON.writeValueAsString(event);
    }

    /**
     * A sign of life as one event.
     *
     * @param id unique for ever
     * @param counts printers by the state of their fan
     */
    public static String alive(String id, String shop, long wallMillis, Map<String, Long> counts) {
        ObjectNode event = event(id, shop, "coldward.alive", wallMillis);
        ObjectNode data = event.putObject("data");
        data.put("shop", shop);
        ObjectNode printers = data.putObject("printers");
        new TreeMap<>(counts).forEach(printers::put);
        return JSON.writeValueAsString(event);
    }

    private static ObjectNode event(String id, String shop, String type, long wallMillis) {
        ObjectNode event = JSON.createObjectNode();
        event.put("specversion", "1.0");
        event.put("id", id);
        event.put(
                "source",
                "urn:coldward:shop:"
                        + URLEncoder.encode(shop, StandardCharsets.UTF_8).replace("+", "%20"));
        event.put("type", type);
        event.put("time", time(wallMillis));
        event.put("datacontenttype", "application/json");
        return event;
    }

    private static void texts(ArrayNode array, List<String> texts) {
        texts.forEach(array::add);
    }

    /** RFC 3339, in UTC. */
    private static String time(long wallMillis) {
        return Instant.ofEpochMilli(wallMillis).toString();
    }
}
