package coldward.sheet;

import coldward.model.build.Build;
import coldward.model.build.Origin;
import coldward.model.build.Uncertain;
import coldward.quantity.Dimension;
import coldward.quantity.Units;
import coldward.sheet.keys.Index;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Shape;
import coldward.sheet.yaml.YamlScalar;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A merged sheet as YAML again, with the origin of every value behind it. */
final class ShowText {

    private ShowText() {}

    /** Values by dotted path as YAML; what stands alone under its shorthand key is written short. */
    static String of(Map<String, Origin> values) {
        Map<String, Object> root = new LinkedHashMap<>();
        values.forEach((path, origin) -> put(root, path.split("\\."), 0, origin));
        StringBuilder out = new StringBuilder();
        write(out, root, "", "");
        return out.toString();
    }

    /** The spreads of a build as values to be shown beside the others. */
    static Map<String, Origin> spreads(Build build, Map<String, Origin> given) {
        Map<String, Origin> shown = new LinkedHashMap<>();
        for (Uncertain input : Uncertain.values()) {
            String path = "spreads." + input.key();
            double value = build.spreads().getOrDefault(input, input.usualSpread());
            boolean kelvin = input.law() == Uncertain.Law.NORMAL_KELVIN;
            String text = Units.format(kelvin ? Dimension.TEMPERATURE_STEP : Dimension.SHARE, value, 10);
            boolean usual = value == input.usualSpread();
            Origin computed = new Origin(
                    usual ? Origin.Kind.DEFAULT : Origin.Kind.CLASS,
                    usual ? "the usual spread" : "the usual spread widened by what is assumed",
                    text);
            shown.put(path, given.getOrDefault(path, computed));
        }
        return shown;
    }

    @SuppressWarnings("unchecked")
    private static void put(Map<String, Object> into, String[] parts, int i, Origin origin) {
        if (i == parts.length - 1) {
            into.put(parts[i], origin);
        } else {
            Map<String, Object> inner =
                    (Map<String, Object>) into.computeIfAbsent(parts[i], k -> new LinkedHashMap<String, Object>());
            put(inner, parts, i + 1, origin);
        }
    }

    @SuppressWarnings("unchecked")
    private static void write(StringBuilder out, Map<String, Object> map, String indent, String path) {
        String list = "";
        String lead = indent;
        for (Map.Entry<String, Object> e : inOrder(map)) {
            String name = e.getKey();
            int bracket = name.indexOf('[');
            String plain = bracket < 0 ? name : name.substring(0, bracket);
            String at = path.isEmpty() ? plain : path + "." + plain;
            if (bracket >= 0) {
                if (!list.equals(plain)) {
                    out.append(indent).append(plain).append(":\n");
                    list = plain;
                }
                StringBuilder item = new StringBuilder();
                write(item, (Map<String, Object>) e.getValue(), indent + "    ", at + "[]");
                out.append(indent).append("  - ").append(item.substring(indent.length() + 4));
            } else if (e.getValue() instanceof Origin origin) {
                line(out, lead + plain, at, origin);
            } else {
                Map<String, Object> inner = (Map<String, Object>) e.getValue();
                Origin alone = alone(at, inner);
                if (alone != null) {
                    line(out, lead + plain, at, alone);
                } else {
                    out.append(lead).append(plain).append(":\n");
                    write(out, inner, indent + "  ", at);
                }
            }
        }
    }

    /** The rows of a list by their position, where the list's first row was met. */
    private static List<Map.Entry<String, Object>> inOrder(Map<String, Object> map) {
        List<String> plain =
                map.keySet().stream().map(ShowText::plain).distinct().toList();
        return map.entrySet().stream()
                .sorted(Comparator.comparingInt((Map.Entry<String, Object> e) -> plain.indexOf(plain(e.getKey())))
                        .thenComparingInt(e -> position(e.getKey())))
                .toList();
    }

    private static String plain(String name) {
        int bracket = name.indexOf('[');
        return bracket < 0 ? name : name.substring(0, bracket);
    }

    private static int position(String name) {
        int bracket = name.indexOf('[');
        return bracket < 0 ? 0 : Integer.parseInt(name.substring(bracket + 1, name.length() - 1));
    }

    private static @org.jspecify.annotations.Nullable Origin alone(String path, Map<String, Object> inner) {
        if (inner.size() != 1
                || !(Index.SHEET.at(path).map(Key::shape).orElse(null) instanceof Shape.Group group)
                || group.shorthand().isEmpty()) {
            return null;
        }
        return inner.get(group.shorthand().get()) instanceof Origin origin
                        && (group.shorthandWords().isEmpty()
                                || group.shorthandWords().contains(origin.text()))
                ? origin
                : null;
    }

    private static void line(StringBuilder out, String lead, String path, Origin origin) {
        Shape shape = Index.SHEET.at(path).map(Key::shape).orElse(null);
        boolean words = shape instanceof Shape.Text || shape instanceof Shape.Choice || shape instanceof Shape.Group;
        out.append(lead)
                .append(": ")
                .append(words ? YamlScalar.written(origin.text()) : origin.text())
                .append("  # ")
                .append(origin.kind().word())
                .append(origin.detail().isEmpty() ? "" : ", " + origin.detail())
                .append('\n');
    }
}
