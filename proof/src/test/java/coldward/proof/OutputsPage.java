package coldward.proof;

import coldward.app.command.SchemaCommand;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** The tables of docs/outputs.md, made from the published schemas: one row for every key. */
final class OutputsPage {

    private static final String LOCAL = "#/$defs/";

    private final StringBuilder page = new StringBuilder();
    private final JsonNode root;

    private OutputsPage(JsonNode root) {
        this.root = root;
    }

    /** All tables, in the order in which the commands are listed. */
    static String text() {
        StringBuilder all = new StringBuilder();
        for (String name : SchemaCommand.OUTPUTS) {
            OutputsPage page = new OutputsPage(CommandRun.of("schema", name).json());
            page.section(name);
            all.append(page.page);
        }
        return all.toString();
    }

    private void section(String name) {
        page.append("\n## ")
                .append(name)
                .append("\n\n`")
                .append(root.path("title").asString());
        page.append("`. ").append(root.path("description").asString()).append('\n');
        if (root.has("oneOf")) {
            for (JsonNode variant : root.path("oneOf")) {
                page.append("\n**").append(variant.path("title").asString()).append("**: ");
                page.append(variant.path("description").asString()).append(".\n");
                table(variant);
            }
        } else {
            table(root);
        }
    }

    private void table(JsonNode object) {
        page.append("\n| key | value | | what |\n| --- | --- | --- | --- |\n");
        rows("", object);
    }

    private void rows(String prefix, JsonNode object) {
        Set<String> required = new HashSet<>();
        object.path("required").forEach(key -> required.add(key.asString()));
        object.path("properties")
                .forEachEntry((key, given) -> row(prefix + key, resolved(given), given, required.contains(key)));
        JsonNode others = object.path("additionalProperties");
        if (others.isObject()) {
            JsonNode value = resolved(others);
            if (value.has("properties")) {
                rows(prefix + "*.", value);
            }
        }
    }

    private void row(String key, JsonNode schema, JsonNode given, boolean always) {
        String what =
                given.path("description").asString(schema.path("description").asString(""));
        page.append("| `").append(key).append("` | ").append(type(schema)).append(" | ");
        page.append(always ? "" : "may be absent").append(" | ");
        page.append(what.replace("|", "\\|")).append(" |\n");
        if (schema.has("items")) {
            rows(key + "[].", resolved(schema.path("items")));
        } else {
            rows(key + ".", schema);
        }
    }

    private JsonNode resolved(JsonNode schema) {
        String ref = schema.path("$ref").asString("");
        return ref.startsWith(LOCAL) ? root.path("$defs").path(ref.substring(LOCAL.length())) : schema;
    }

    private String type(JsonNode schema) {
        if (schema.has("const")) {
            return "`" + schema.path("const").asString() + "`";
        }
        if (schema.has("enum")) {
            List<String> words = new ArrayList<>();
            schema.path("enum").forEach(word -> words.add("`" + word.asString() + "`"));
            return String.join(", ", words);
        }
        return switch (schema.path("type").asString("")) {
            case "string" -> "text";
            case "boolean" -> "true, false";
            case "integer" -> "whole number";
            case "array" -> "list" + of(resolved(schema.path("items")));
            case "object" -> "object";
            default -> schema.path("type").asString("");
        };
    }

    private String of(JsonNode items) {
        return items.has("properties") ? " of objects" : " of " + type(items).replace("text", "texts");
    }
}
