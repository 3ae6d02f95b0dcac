package coldward.sheet.keys;

import coldward.sheet.yaml.Tree;
import java.math.BigDecimal;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Trees as JSON values, after the core schema. */
public final class Json {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private Json() {}

    /** The same content; numbers that JSON does not have (.nan, .inf, hexadecimal) become texts. */
    public static JsonNode of(Tree tree) {
        return switch (tree) {
            case Tree.Scalar s -> scalar(s);
            case Tree.Sequence list -> {
                ArrayNode array = NODES.arrayNode();
                list.items().forEach(i -> array.add(of(i)));
                yield array;
            }
            case Tree.Dict dict -> {
                ObjectNode object = NODES.objectNode();
                dict.entries().forEach((k, e) -> object.set(k, of(e.value())));
                yield object;
            }
        };
    }

    private static JsonNode scalar(Tree.Scalar s) {
        return switch (s.kind()) {
            case TEXT -> NODES.stringNode(s.text());
            case NOTHING -> NODES.nullNode();
            case YES_NO -> NODES.booleanNode(Walk.yesNo(s).orElse(false));
            case WHOLE_NUMBER, NUMBER ->
                s.text().matches("[-+]?(\\d{1,30}\\.?\\d{0,30}|\\.\\d{1,30})([eE][-+]?\\d{1,3})?")
                        ? NODES.numberNode(new BigDecimal(s.text()))
                        : NODES.stringNode(s.text());
        };
    }
}
