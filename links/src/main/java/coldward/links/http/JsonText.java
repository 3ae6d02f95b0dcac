package coldward.links.http;

import coldward.quantity.InputError;
import java.nio.charset.StandardCharsets;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonPointer;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** JSON from a machine that is not trusted to send any. */
final class JsonText {

    /** Bytes of one answer; a machine's state is rarely a tenth of it. */
    static final int MOST_BYTES = 64 * 1024;

    /** Levels of nesting. */
    static final int DEEPEST = 32;

    private static final int LONGEST_NUMBER = 64;
    private static final int SAMPLE = 60;

    private static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(DEEPEST)
                            .maxNumberLength(LONGEST_NUMBER)
                            .maxStringLength(MOST_BYTES)
                            .maxNameLength(MOST_BYTES)
                            .maxDocumentLength(MOST_BYTES)
                            .build())
                    .build())
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private JsonText() {}

    /** What came of reading a text. */
    sealed interface Parsed {
        /** A JSON value. */
        record Value(JsonNode root) implements Parsed {}

        /**
         * None.
         *
         * @param why one line with a short sample of the text
         */
        record Unreadable(String why) implements Parsed {}
    }

    static Parsed parse(byte[] text) {
        try {
            JsonNode root = MAPPER.readTree(text);
            return root.isMissingNode() ? new Parsed.Unreadable("an empty answer") : new Parsed.Value(root);
        } catch (JacksonException e) {
            return new Parsed.Unreadable(
                    "not JSON: " + oneLine(e.getOriginalMessage()) + "; begins with: " + sample(text));
        }
    }

    /**
     * A JSON Pointer (RFC 6901 section 3).
     *
     * @throws InputError if it is not one
     */
    static JsonPointer pointer(String name, String text) {
        boolean escapes = !text.replace("~0", "").replace("~1", "").contains("~");
        if (!escapes || !(text.isEmpty() || text.startsWith("/"))) {
            throw new InputError(
                    name,
                    name + " is " + text + " but must be empty or begin with a slash, with ~0 for ~ and ~1 for /, for"
                            + " example /fan/speed_rpm (RFC 6901)");
        }
        return JsonPointer.compile(text);
    }

    private static String sample(byte[] text) {
        return oneLine(new String(text, 0, Math.min(SAMPLE, text.length), StandardCharsets.UTF_8));
    }

    private static String oneLine(String text) {
        String flat = text.replaceAll("\\p{Cntrl}+", " ").strip();
        return flat.length() > 160 ? flat.substring(0, 160) : flat;
    }
}
