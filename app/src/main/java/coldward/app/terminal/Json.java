package coldward.app.terminal;

import java.util.OptionalDouble;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Results as JSON: keys in a fixed order, absent where they do not apply, numbers at a useful precision. */
public final class Json {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final double DIGITS = 1e6;

    private Json() {}

    /** An empty object. */
    public static ObjectNode object() {
        return JsonNodeFactory.instance.objectNode();
    }

    /** Pretty text. */
    public static String text(ObjectNode node) {
        return MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(node);
    }

    /** One line. */
    public static String compact(ObjectNode node) {
        return MAPPER.writeValueAsString(node);
    }

    /** Adds a number, rounded to six significant digits. */
    public static void put(ObjectNode node, String key, double value) {
        node.put(key, rounded(value));
    }

    /** Adds a number where there is one. */
    public static void put(ObjectNode node, String key, OptionalDouble value) {
        value.ifPresent(v -> put(node, key, v));
    }

    /** Kelvin to degrees Celsius. */
    public static double celsius(double kelvin) {
        return kelvin - 273.15;
    }

    static double rounded(double value) {
        if (value == 0 || !Double.isFinite(value)) {
            return value;
        }
        double scale = Math.pow(10, 5 - Math.floor(Math.log10(Math.abs(value))));
        double rounded = Math.rint(value * scale) / scale;
        return Math.abs(rounded) > DIGITS ? Math.rint(value) : rounded;
    }
}
