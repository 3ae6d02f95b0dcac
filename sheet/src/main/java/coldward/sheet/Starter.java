package coldward.sheet;

import coldward.model.build.Origin;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import coldward.sheet.keys.ClassTable;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Shape;
import coldward.sheet.keys.SheetKeys;
import coldward.sheet.yaml.YamlScalar;
import java.util.List;
import java.util.Map;

/** Writes a first sheet: the five facts, and everything that is assumed as comments to be taken in. */
final class Starter {

    private final StringBuilder out = new StringBuilder();
    private final Map<String, Origin> origins;

    private Starter(Map<String, Origin> origins) {
        this.origins = origins;
    }

    static String of(Answers answers) {
        String facts = facts(answers);
        Chain chain = Chain.parse("answers", facts);
        BuildReader.Outcome outcome = BuildReader.read("answers", chain.merged());
        if (outcome.build().isEmpty()) {
            DataError first = outcome.problems().getFirst();
            throw new InputError(
                    first.key(), String.valueOf(first.getMessage()).replaceFirst("^answers(:\\d+)?: ", ""));
        }
        Starter starter = new Starter(outcome.build().get().origins());
        starter.out
                .append(
                        "# Build sheet. Every quantity carries its unit. The five facts stand first; lines with ## explain,\n")
                .append("# lines with # show what is assumed: take the # out and change what you know better.\n\n")
                .append(facts);
        for (Key key : SheetKeys.SHEET.keys()) {
            starter.group(key);
        }
        return starter.out.toString();
    }

    private static String facts(Answers a) {
        return "printer: " + YamlScalar.written(a.printer()) + "\n"
                + "plastic: " + YamlScalar.written(a.plastic()) + "\n"
                + "nozzle: " + a.nozzle().strip().replaceAll("\\s+", " ") + "\n"
                + "neck: {class: " + YamlScalar.written(a.neck()) + "}\n"
                + "fan: {class: " + YamlScalar.written(a.fan()) + ", rated_speed: "
                + a.ratedSpeed().strip().replaceAll("\\s+", " ") + "}\n";
    }

    private void group(Key key) {
        if (List.of("based_on", "printer", "nozzle", "bore").contains(key.name())) {
            return;
        }
        out.append("\n## ")
                .append(key.name())
                .append(": ")
                .append(key.meaning())
                .append('\n');
        ClassTable.kindOf(key.name())
                .ifPresent(k -> out.append("## classes: ")
                        .append(String.join(", ", ClassTable.names(k)))
                        .append('\n'));
        if (!(key.shape() instanceof Shape.Group group)) {
            line("# ", key.name(), key.name(), key);
            return;
        }
        boolean given = List.of("plastic", "neck", "fan").contains(key.name());
        if (given) {
            out.append("## in braces behind ").append(key.name()).append(", beside what stands there:\n");
        } else {
            out.append("# ").append(key.name()).append(":\n");
        }
        for (Key inner : group.keys()) {
            String path = key.name() + "." + inner.name();
            if (!inner.name().equals("class") && !path.equals("plastic.name")) {
                line("#   ", inner.name(), path, inner);
            }
        }
    }

    private void line(String lead, String name, String path, Key key) {
        Origin origin = origins.get(path);
        String value = origin == null ? key.example() : origin.text();
        String from = origin == null
                ? "for example; " + key.meaning()
                : key.meaning() + (origin.detail().isEmpty() ? "" : " [" + origin.detail() + "]");
        out.append(lead).append(name).append(": ").append(value);
        out.append(from.isBlank() ? "" : "    # " + from.strip()).append('\n');
    }
}
