package coldward.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.InputError;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.Map;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;

class CanonicalJsonTest {

    // RFC 8785, 3.2.3 (also published as weird.json beside the RFC): order by UTF-16 code units, in which the smiley's
    // high surrogate D83D comes before FB33 although its code point is the larger one
    private static final String SORTED_SHA_256_RFC_8785 =
            "6af595a9aa80110b964b4de3f82a05fa6ae7423005019bacfa2620dddc4e94d1";

    // RFC 8785, 3.2.2 to 3.2.4: the whole sample as UTF-8
    private static final String SAMPLE_SHA_256_RFC_8785 =
            "2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb";

    @Test
    void sortsMembersByUtf16CodeUnitsAsTheRfcsExample() throws Exception {
        Map<String, Object> members = new HashMap<>();
        members.put("\u20ac", "Euro Sign");
        members.put("\r", "Carriage Return");
        members.put("\n", "Newline");
        members.put("1", "One");
        members.put("\u0080", "Control\u007f");
        members.put("\ud83d\ude02", "Smiley");
        members.put("\u00f6", "Latin Small Letter O With Diaeresis");
        members.put("\ufb33", "Hebrew Letter Dalet With Dagesh");
        members.put("</script>", "Browser Challenge");

        assertThat(sha256(CanonicalJson.of(members))).isEqualTo(SORTED_SHA_256_RFC_8785);
    }

    @Test
    void escapesTextAsTheRfcsSample() throws Exception {
        String text = "\u20ac$\u000f\nA'B\"\\\\\"/";
        String member = CanonicalJson.of(Map.of("string", text));

        assertThat(member).isEqualTo("{\"string\":\"\u20ac$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
        // fractions do not occur in a journal: those two members of the sample are given ready-made
        String whole = "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
                + member.substring(1);
        assertThat(sha256(whole)).isEqualTo(SAMPLE_SHA_256_RFC_8785);
    }

    @Test
    void escapesEveryControlCharacterTheShortWay() {
        // RFC 8785, 3.2.2.2: two-character escapes where there are some, else lower-case \\u00xx; no others
        assertThat(CanonicalJson.of(Map.of("a", "\b\t\n\f\r\u0000\u001f\u007f\u2028</a>")))
                .isEqualTo("{\"a\":\"\\b\\t\\n\\f\\r\\u0000\\u001f\u007f\u2028</a>\"}");
    }

    @Test
    void doesNotFollowAMapsOwnOrder() {
        SortedMap<String, Object> backwards = new TreeMap<>(Comparator.reverseOrder());
        backwards.putAll(Map.of("a", 1L, "b", "x", "c", Map.of("z", -2L, "y", 0L)));

        assertThat(CanonicalJson.of(backwards)).isEqualTo("{\"a\":1,\"b\":\"x\",\"c\":{\"y\":0,\"z\":-2}}");
    }

    @ParameterizedTest
    @ValueSource(longs = {9007199254740991L, -9007199254740991L, 0, -1, 1})
    void writesWholeNumbersUpToTheLimitOfRfc7493(long number) {
        assertThat(CanonicalJson.of(Map.of("n", number))).isEqualTo("{\"n\":" + number + "}");
    }

    @ParameterizedTest
    @ValueSource(longs = {9007199254740992L, -9007199254740992L, Long.MAX_VALUE, Long.MIN_VALUE})
    void refusesWholeNumbersBeyondTheLimitOfRfc7493(long number) {
        assertThatThrownBy(() -> CanonicalJson.of(Map.of("waited_ms", number)))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("waited_ms is " + number)
                .hasMessageContaining("9007199254740991");
    }

    @ParameterizedTest
    @ValueSource(strings = {"\ud83d", "a\ud83d", "\ude02\ud83d", "\ud83dx"})
    void refusesHalfASurrogatePairInValueAndName(String text) {
        assertThatThrownBy(() -> CanonicalJson.of(Map.of("a", text)))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("surrogate");
        assertThatThrownBy(() -> CanonicalJson.of(Map.of(text, "a"))).isInstanceOf(InputError.class);
    }

    @Test
    void refusesFractions() {
        assertThatThrownBy(() -> CanonicalJson.of(Map.of("speed_rpm", 7980.5)))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("speed_rpm is a Double");
    }

    @Test
    void anyTextComesBackFromAnIndependentReader() {
        JsonMapper reader = JsonMapper.shared();
        Random random = new Random(7);
        for (int round = 0; round < 2_000; round++) {
            Map<String, Object> members = new HashMap<>();
            for (int i = random.nextInt(6); i > 0; i--) {
                members.put(text(random), random.nextBoolean() ? text(random) : (Object) (random.nextLong() >> 11));
            }
            String json = CanonicalJson.of(members);
            Map<String, Object> back = new HashMap<>();
            reader.readTree(json)
                    .properties()
                    .forEach(m -> back.put(
                            m.getKey(),
                            m.getValue().isString()
                                    ? m.getValue().stringValue()
                                    : (Object) m.getValue().longValue()));
            assertThat(back).as(json).isEqualTo(members);
        }
    }

    private static String text(Random random) {
        StringBuilder text = new StringBuilder();
        for (int i = random.nextInt(8); i > 0; i--) {
            int point = random.nextInt(4) == 0 ? 0x10000 + random.nextInt(0x100000) : random.nextInt(0xd800);
            text.appendCodePoint(random.nextBoolean() ? point % 0x80 : point);
        }
        return text.toString();
    }

    private static String sha256(String text) throws Exception {
        return HexFormat.of()
                .formatHex(MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    }
}
