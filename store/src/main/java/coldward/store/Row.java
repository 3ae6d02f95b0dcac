package coldward.store;

import coldward.watch.Journal;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;

/** A row as it lies in the table, believed in nothing: somebody may have written to it. */
record Row(long number, long wallMillis, String printer, String kind, String facts, String previous, String hash) {

    // the bare parser: mapping to objects would load some 0.3 s of classes for a flat list of members
    private static final JsonFactory JSON = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .build();

    /** The entry, unless its facts are not one object of whole numbers and texts. */
    Optional<Journal.Entry> entry() {
        SortedMap<String, Object> members = new TreeMap<>();
        try (JsonParser parser = JSON.createParser(ObjectReadContext.empty(), facts)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return Optional.empty();
            }
            while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
                String name = parser.currentName();
                JsonToken value = parser.nextToken();
                if (value == JsonToken.VALUE_STRING) {
                    members.put(name, parser.getString());
                } else if (value == JsonToken.VALUE_NUMBER_INT) {
                    members.put(name, parser.getLongValue());
                } else {
                    return Optional.empty();
                }
            }
            if (parser.nextToken() != null) {
                return Optional.empty();
            }
        } catch (JacksonException e) {
            return Optional.empty();
        }
        return Optional.of(new Journal.Entry(wallMillis, printer, kind, members));
    }

    /** The entry as kept, unless its facts cannot be read. */
    Optional<Journal.Kept> kept() {
        return entry().map(e -> new Journal.Kept(number, e, hash));
    }
}
