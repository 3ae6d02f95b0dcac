package coldward.sheet.yaml;

import coldward.quantity.DataError;

/** Texts as YAML scalars that read back as the same text, in braces as well as in lines. */
public final class YamlScalar {

    private static final String PLAIN = "[A-Za-z0-9./](?:[A-Za-z0-9 ._^/()%+~-]*[A-Za-z0-9._^/()%+~-])?";

    private YamlScalar() {}

    /** Plain where that reads back as the same text, otherwise in double quotes. */
    public static String written(String text) {
        return text.matches(PLAIN) && readsBack(text) ? text : quoted(text);
    }

    private static boolean readsBack(String text) {
        try {
            return YamlFile.parse("text", "[" + text + "]") instanceof Tree.Sequence list
                    && list.items().size() == 1
                    && list.items().getFirst() instanceof Tree.Scalar s
                    && s.kind() == Tree.Kind.TEXT
                    && s.text().equals(text);
        } catch (DataError e) {
            // not plain YAML: it will be quoted
            return false;
        }
    }

    private static String quoted(String text) {
        StringBuilder out = new StringBuilder("\"");
        text.chars().forEach(c -> {
            if (c == '"' || c == '\\') {
                out.append('\\').append((char) c);
            } else if (c < 0x20 || c == 0x7f || c == 0x85 || c == 0x2028 || c == 0x2029 || c == 0xfeff) {
                out.append("\\u%04x".formatted(c));
            } else {
                out.append((char) c);
            }
        });
        return out.append('"').toString();
    }
}
