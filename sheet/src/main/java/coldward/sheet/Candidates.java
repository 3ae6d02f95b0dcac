package coldward.sheet;

import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.HotEnd;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Uncertain;
import coldward.quantity.DataError;
import coldward.quantity.DataErrors;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Units;
import coldward.sheet.keys.ClassTable;
import coldward.sheet.keys.Nearest;
import coldward.sheet.yaml.Tree;
import coldward.sheet.yaml.YamlFile;
import coldward.sheet.yaml.YamlScalar;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Single parts read as on a sheet: a part is put on an otherwise plain sheet and read with it, so that the same rules,
 * classes and messages hold.
 */
final class Candidates {

    private static final String PLAIN =
            "{printer: candidate, plastic: PLA, nozzle: 235 degC, neck: thin titanium, fan: {class: 40x10 axial, rated_speed: 7000 rpm}}";

    private Candidates() {}

    private static Tree.Dict plain() {
        return (Tree.Dict) YamlFile.parse("candidate", PLAIN);
    }

    private static BuildReader.Outcome read(String file, Tree.Dict sheet) {
        return BuildReader.read(file, Chain.standardOf(sheet));
    }

    private static Build build(String file, Tree.Dict sheet) {
        BuildReader.Outcome outcome = read(file, sheet);
        return outcome.build().orElseThrow(() -> DataErrors.of(outcome.problems()));
    }

    static HeatBreak heatBreak(String text, HotEnd like) {
        String yaml = ClassTable.named(ClassTable.Kind.NECK, text).isPresent() ? "{class: " + text + "}" : text;
        Tree tree = parsed("neck", yaml);
        if (tree instanceof Tree.Scalar) {
            throw new InputError(
                    "neck",
                    "%s is no class of heat break; %s; or write a map, for example {material: titanium, length: 2.1 mm, diameter: 3.0 mm}"
                            .formatted(text, Nearest.hint(text, ClassTable.names(ClassTable.Kind.NECK))));
        }
        Tree.Dict sheet = plain();
        if (tree instanceof Tree.Dict both && both.get("neck").isPresent()) {
            for (var entry : both.entries().entrySet()) {
                if (!Set.of("neck", "shank").contains(entry.getKey())) {
                    throw new InputError(
                            "neck", entry.getKey() + " is not part of a heat break; write {neck: {...}, shank: {...}}");
                }
                sheet = sheet.with(entry.getKey(), entry.getValue());
            }
        } else {
            sheet = sheet.with("neck", new Tree.Entry(tree.place(), tree));
        }
        sheet = with(sheet, "nozzle", Units.format(Dimension.TEMPERATURE, like.nozzle(), 12));
        sheet = with(
                sheet,
                "hot_side",
                "{heater: " + Units.format(Dimension.POWER, like.hotSide().heaterPower(), 12) + "}");
        sheet = with(
                sheet,
                "filament",
                "{diameter: " + Units.format(Dimension.LENGTH, like.filament().diameter(), 12) + "}");
        Build build = asInput("neck", sheet);
        Shank shank = build.hotEnd().shank();
        boolean own = sheet.get("shank").isPresent();
        Shank there = like.shank();
        Shank kept = own ? shank : new Shank(shank.material(), there.diameter(), there.length(), there.contact());
        return new HeatBreak(
                text, build.hotEnd().neck(), kept, build.spreads().getOrDefault(Uncertain.NECK_CONDUCTANCE, 0.0));
    }

    private static Tree parsed(String name, String yaml) {
        try {
            return YamlFile.parse(name, yaml);
        } catch (DataError e) {
            throw new InputError(name, String.valueOf(e.getMessage()));
        }
    }

    private static Build asInput(String name, Tree.Dict sheet) {
        try {
            return build(name, sheet);
        } catch (DataError | DataErrors e) {
            throw new InputError(name, String.valueOf(e.getMessage()));
        }
    }

    private static Tree.Dict with(Tree.Dict sheet, String key, String yaml) {
        Tree tree = parsed(key, yaml);
        return sheet.with(key, new Tree.Entry(tree.place(), tree));
    }

    static Fan fan(String name, double ratedSpeed) {
        String speed = Units.format(Dimension.SPEED_OF_TURN, ratedSpeed, 12);
        return asInput(
                        "fan",
                        with(plain(), "fan", "{class: " + YamlScalar.written(name) + ", rated_speed: " + speed + "}"))
                .hotEnd()
                .fan();
    }

    static Sink sink(String name) {
        return asInput("sink", with(plain(), "sink", "{class: " + YamlScalar.written(name) + "}"))
                .hotEnd()
                .sink();
    }

    static List<NamedFan> fans(Path file) {
        Tree tree = YamlFile.read(file);
        String example = "write for example - {name: quiet, class: 40x10 axial, rated_speed: 5000 rpm}";
        if (!(tree instanceof Tree.Sequence list) || list.items().isEmpty()) {
            throw tree.place().error("", tree.words() + " where a list of fans is wanted; " + example);
        }
        List<NamedFan> fans = new ArrayList<>();
        List<DataError> problems = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (Tree item : list.items()) {
            if (!(item instanceof Tree.Dict dict) || !(dict.get("name").orElse(item) instanceof Tree.Scalar name)) {
                problems.add(item.place().error("name", "a fan needs a name; " + example));
                continue;
            }
            if (!names.add(name.text())) {
                problems.add(name.place()
                        .error("name", "the fan " + name.text() + " is listed twice; give each its own name"));
            }
            Tree.Dict sheet = plain().with("fan", new Tree.Entry(item.place(), dict.without("name")));
            BuildReader.Outcome outcome = read(file.toString(), sheet);
            problems.addAll(outcome.problems());
            outcome.build()
                    .ifPresent(
                            b -> fans.add(new NamedFan(name.text(), b.hotEnd().fan())));
        }
        if (!problems.isEmpty()) {
            throw DataErrors.of(problems);
        }
        return fans;
    }
}
