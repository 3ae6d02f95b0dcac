package coldward.sheet.keys;

import coldward.quantity.Units;
import java.util.Map;

/** The reference of all keys as Markdown, written from the catalogue. */
public final class KeyTable {

    private KeyTable() {}

    /** The whole page. */
    public static String markdown() {
        StringBuilder out = new StringBuilder();
        out.append("# Keys of build sheet and shop file\n\n")
                .append(
                        "Written from the catalogue of keys; a test keeps it so. Every quantity carries its unit; only\n")
                .append("shares, counts and coefficients may be bare numbers. Required keys are bold (inside\n")
                .append("a map that may be absent: where that map is given). The order of\n")
                .append("authority is: given on the sheet, inherited by `based_on`, from a named class, default.\n\n")
                .append(
                        "Naming another class, plastic, metal or counter than the sheet one is based on drops what that\n")
                .append("sheet says about the old one; lists replace one another whole.\n\n")
                .append("## Build sheet\n\n");
        table(out, Index.SHEET.all());
        out.append("\n### Two ways of saying one thing\n\n");
        SheetKeys.ALTERNATIVES.forEach(a -> out.append("- `")
                .append(a.instead())
                .append("` instead of `")
                .append(String.join("`, `", a.of()))
                .append("`\n"));
        out.append("\n## Named classes\n\nSpreads are added, in squares, to the usual spread of what they feed.\n\n")
                .append(
                        "| group | class | what it is | values | added spread | source |\n| --- | --- | --- | --- | --- | --- |\n");
        for (ClassTable.Kind kind : ClassTable.Kind.values()) {
            ClassTable.of(kind).values().forEach(e -> row(out, e));
        }
        out.append(
                        "\n### Named classes of a wiring\n\nWhat a board of a class has is joined by name with what the sheet gives: ")
                .append(
                        "`ports: [{name: fan, chopped_at: 25 kHz}]`\nchanges that one value. `coldward sheet show --full` shows all of them.\n\n")
                .append("| key | class | what it is | source |\n| --- | --- | --- | --- |\n");
        for (String kind : WiringClasses.kinds()) {
            WiringClasses.of(kind)
                    .values()
                    .forEach(e -> out.append("| `wiring.%s` | `%s` | %s | %s |\n"
                            .formatted(e.kind(), e.name(), e.meaning(), e.source())));
        }
        out.append("\n## Units\n\n| for | accepted |\n| --- | --- |\n");
        for (var dimension : coldward.quantity.Dimension.values()) {
            out.append("| ")
                    .append(Units.words(dimension))
                    .append(" | ")
                    .append(String.join(", ", Units.accepted(dimension)))
                    .append(" |\n");
        }
        out.append("\n## Shop file\n\n");
        table(out, ShopKeys.INDEX.all());
        return out.toString();
    }

    private static void row(StringBuilder out, ClassTable.Entry e) {
        String values = e.values().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .map(v -> v.getKey().replaceFirst("^" + e.kind().group() + "\\.", "") + " " + v.getValue())
                .collect(java.util.stream.Collectors.joining(", "));
        String spreads = e.spreads().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .map(v -> v.getKey().key() + " " + Math.round(v.getValue() * 100) + " %")
                .collect(java.util.stream.Collectors.joining(", "));
        out.append("| `%s` | `%s` | %s | %s | %s | %s |%n"
                .formatted(e.kind().group(), e.name(), e.meaning(), values, spreads, e.source())
                .replace("\r\n", "\n"));
    }

    private static void table(StringBuilder out, Map<String, Key> keys) {
        out.append(
                "| key | what may stand there | where absent | example | meaning |\n| --- | --- | --- | --- | --- |\n");
        keys.forEach((path, key) -> {
            String name = "`" + path + "`";
            String group = path.contains(".") ? path.substring(0, path.lastIndexOf('.')) : "";
            out.append("| ")
                    .append(key.need() == Key.Need.REQUIRED ? "**" + name + "**" : name)
                    .append(" | ")
                    .append(words(key.shape()))
                    .append(" | ")
                    .append(absent(
                            key,
                            ClassTable.kindOf(group).isPresent()
                                    || WiringClasses.kindOf(group).isPresent()))
                    .append(" | `")
                    .append(key.example().replace("|", "\\|"))
                    .append("` | ")
                    .append(key.meaning().replace("|", "\\|"))
                    .append(" |\n");
        });
    }

    private static String absent(Key key, boolean hasClasses) {
        if (key.need() == Key.Need.REQUIRED) {
            return "an error";
        }
        return key.fallback()
                .map(f -> f.text().isEmpty() ? f.source() : "`" + f.text() + "` (" + f.source() + ")")
                .orElse(
                        key.need() == Key.Need.OPTIONAL || key.shape() instanceof Shape.Group
                                ? ""
                                : hasClasses ? "from a class, else an error" : "an error where it applies");
    }

    private static String words(Shape shape) {
        return switch (shape) {
            case Shape.Quantity q -> Units.words(q.dimension()) + ", " + q.low() + " to " + q.high();
            case Shape.Count c -> "whole number, " + c.low() + " to " + c.high();
            case Shape.Coefficient c -> "bare number, " + (long) c.low() + " to " + (long) c.high();
            case Shape.Text t -> t.wanted();
            case Shape.Choice c -> String.join(", ", c.words());
            case Shape.Choices c -> "list of " + String.join(", ", c.words());
            case Shape.Texts t -> "list of " + t.each().wanted() + " each";
            case Shape.YesNo yn -> "yes or no";
            case Shape.Anything a -> "true, false, or a quantity";
            case Shape.Body b -> "map, or JSON text";
            case Shape.Mark m -> m.wanted();
            case Shape.Marks m -> "list of " + m.each().wanted() + " each";
            case Shape.Group g ->
                (g.shorthand().isPresent()
                                ? "map, or "
                                        + (g.shorthandWords().isEmpty()
                                                ? "its " + g.shorthand().get()
                                                : String.join(", ", g.shorthandWords()))
                                : "map")
                        + g.listKey().map(k -> ", or a list of " + k).orElse("");
            case Shape.Rows r -> "list of maps, at least " + r.least();
            case Shape.Named n -> "map by name";
        };
    }
}
