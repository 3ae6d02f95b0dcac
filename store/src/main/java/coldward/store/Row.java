package coldward.store;

import coldward.watch.Journal;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A row as it lies in the table, believed in nothing: somebody may have written to it. */
record Row(long number, long wallMillis, String printer, String kind, String facts, String previous, String hash) {

    private static final JsonMapper JSON = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build())
            .build();

    /** The entry, unless its facts are not an object of whole numbers and texts. */
    Optional<Journal.Entry> entry() {
        JsonNode read;
        try {
            read = JSON.readTree(facts);
        } catch (JacksonException e) {
            return Optional.empty();
        }
        if (!read.isObject()) {
            return Optional.empty();
        }
        SortedMap<String, Object> members = new TreeMap<>();
        for (Map.Entry<String, JsonNode> member : read.properties()) {
            JsonNode value = member.getValue();
            if (value.isString()) {
                members.put(member.getKey(), value.stringValue());
            } else if (value.isIntegralNumber() && value.canConvertToLong()) {
                members.put(member.getKey(), value.longValue());
            } else {
                return Optional.empty();
            }
        }
        return Optional.of(new Journal.Entry(wallMillis, printer, kind, members));
    }

    /** The entry as kept, unless its facts cannot be read. */
    Optional<Journal.Kept> kept() {
        return entry().map(e -> new Journal.Kept(number, e, hash));
    }
}
