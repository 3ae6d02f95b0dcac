package coldward.links.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.shop.LinkSpec.HttpRead;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.watch.Link.Trouble;
import coldward.watch.guard.Reads;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** RFC 6901 (JavaScript Object Notation Pointer, April 2013), section 5: the document and the values it gives. */
class JsonPointerReferenceTest {

    private static final String DOCUMENT = """
            {
               "foo": ["bar", "baz"],
               "": 0,
               "a/b": 1,
               "c%d": 2,
               "e^f": 3,
               "g|h": 4,
               "i\\\\j": 5,
               "k\\"l": 6,
               " ": 7,
               "m~n": 8
            }
            """;

    private static JsonNode document() {
        JsonText.Parsed parsed = JsonText.parse(DOCUMENT.getBytes(StandardCharsets.UTF_8));
        assertThat(parsed).isInstanceOf(JsonText.Parsed.Value.class);
        return ((JsonText.Parsed.Value) parsed).root();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '\'',
            value = {"/; 0", "/a~1b; 1", "/c%d; 2", "/e^f; 3", "/g|h; 4", "/i\\j; 5", "/k\"l; 6", "'/ '; 7", "/m~0n; 8"
            })
    void section_5_numbers(String pointer, double value) {
        Reads.Builder reads = new Reads.Builder();
        List<Trouble> troubles = new ArrayList<>();
        ReadMapping mapping = new ReadMapping(Map.of(ReadName.REPORT, new HttpRead("", pointer, 1, 0)), false);
        assertThat(mapping.read(document(), reads, troubles)).isTrue();
        assertThat(troubles).isEmpty();
        assertThat(reads.build().get(ReadName.REPORT)).isEqualTo(value);
    }

    @Test
    void section_5_others() {
        JsonNode document = document();
        assertThat(document.at(JsonText.pointer("p", ""))).isEqualTo(document);
        assertThat(document.at(JsonText.pointer("p", "/foo")).size()).isEqualTo(2);
        assertThat(document.at(JsonText.pointer("p", "/foo/0")).stringValue()).isEqualTo("bar");
    }

    /** Section 4: an index has no leading zeros; "-" is the element after the last, which is not there. */
    @ParameterizedTest
    @ValueSource(strings = {"/foo/00", "/foo/01", "/foo/-", "/foo/2", "/foo/-1", "/foo/1e0", "/nothing", "/a/b"})
    void section_4_what_is_not_there(String pointer) {
        assertThat(document().at(JsonText.pointer("p", pointer)).isMissingNode())
                .isTrue();
    }

    /** Section 3: the escapes are ~0 and ~1 only, and every reference token begins with a slash. */
    @ParameterizedTest
    @ValueSource(strings = {"foo", "fan/speed", "/a~b", "/a~", "/~2", "#/foo"})
    void section_3_what_is_no_pointer(String pointer) {
        assertThatThrownBy(() -> JsonText.pointer("read speed pointer", pointer))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("read speed pointer")
                .hasMessageContaining("/fan/speed_rpm");
    }

    /** Section 4: ~1 is replaced before ~0, so that ~01 becomes ~1 and not a slash. */
    @Test
    void section_4_order_of_escapes() {
        JsonText.Parsed parsed = JsonText.parse("{\"~1\": 9}".getBytes(StandardCharsets.UTF_8));
        assertThat(((JsonText.Parsed.Value) parsed)
                        .root()
                        .at(JsonText.pointer("p", "/~01"))
                        .intValue())
                .isEqualTo(9);
    }
}
