package coldward.store;

import coldward.quantity.InputError;
import java.util.Map;
import java.util.TreeMap;

/**
 * Canonical JSON as RFC 8785 fixes it, for objects of strings, whole numbers and further such objects: no white space,
 * members sorted by the UTF-16 code units of their names (3.2.3), the shortest escapes (3.2.2.2). Fractions do not
 * occur, so that the number format of 3.2.2.3 reduces to plain digits; whole numbers keep to the range that every JSON
 * reader holds exactly (RFC 7493, 2.2).
 */
public final class CanonicalJson {

    /** 2^53 - 1: the largest whole number that every JSON reader holds exactly (RFC 7493, 2.2). */
    public static final long LARGEST_WHOLE_RFC_7493 = (1L << 53) - 1;

    private CanonicalJson() {}

    /**
     * One object.
     *
     * @param members values are {@link Long}, {@link String} or a map like this one
     * @return its canonical text; its UTF-8 bytes are what is hashed
     * @throws InputError if a value is of another type, a number is out of range, or a text has half of a surrogate
     *     pair and so no UTF-8 form
     */
    public static String of(Map<String, ?> members) {
        StringBuilder text = new StringBuilder();
        object(text, members);
        return text.toString();
    }

    private static void object(StringBuilder text, Map<String, ?> members) {
        text.append('{');
        boolean first = true;
        // String's own order is that of UTF-16 code units; a map's comparator may be another
        for (Map.Entry<String, ?> member : new TreeMap<String, Object>(Map.copyOf(members)).entrySet()) {
            if (!first) {
                text.append(',');
            }
            first = false;
            string(text, member.getKey(), "the name of a member");
            text.append(':');
            value(text, member.getKey(), member.getValue());
        }
        text.append('}');
    }

    private static void value(StringBuilder text, String name, Object value) {
        switch (value) {
            case Long whole -> text.append(inRange(name, whole));
            case String string -> string(text, string, name);
            case Map<?, ?> map -> {
                Map<String, Object> members = new TreeMap<>();
                map.forEach((key, inner) -> members.put(String.valueOf(key), inner));
                object(text, members);
            }
            default ->
                throw new InputError(
                        name,
                        name + " is a " + value.getClass().getSimpleName()
                                + " but must be a whole number or a text: only these have one canonical form");
        }
    }

    private static long inRange(String name, long whole) {
        if (whole > LARGEST_WHOLE_RFC_7493 || whole < -LARGEST_WHOLE_RFC_7493) {
            throw new InputError(
                    name,
                    name + " is " + whole + " but must be between -" + LARGEST_WHOLE_RFC_7493 + " and "
                            + LARGEST_WHOLE_RFC_7493 + ": JSON holds no larger whole number exactly");
        }
        return whole;
    }

    private static void string(StringBuilder text, String string, String name) {
        text.append('"');
        for (int i = 0; i < string.length(); i++) {
            char c = string.charAt(i);
            switch (c) {
                case '"' -> text.append("\\\"");
                case '\\' -> text.append("\\\\");
                case '\b' -> text.append("\\b");
                case '\t' -> text.append("\\t");
                case '\n' -> text.append("\\n");
                case '\f' -> text.append("\\f");
                case '\r' -> text.append("\\r");
                default -> {
                    if (c < 0x20) {
                        text.append("\\u00")
                                .append(Character.forDigit(c >> 4, 16))
                                .append(Character.forDigit(c & 15, 16));
                    } else if (Character.isSurrogate(c)) {
                        if (!(Character.isHighSurrogate(c)
                                && i + 1 < string.length()
                                && Character.isLowSurrogate(string.charAt(i + 1)))) {
                            throw new InputError(
                                    name,
                                    name + " has half of a surrogate pair at position " + i
                                            + " but must be Unicode text");
                        }
                        text.append(c).append(string.charAt(++i));
                    } else {
                        text.append(c);
                    }
                }
            }
        }
        text.append('"');
    }
}
