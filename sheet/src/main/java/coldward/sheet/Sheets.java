package coldward.sheet;

import coldward.model.build.Build;
import coldward.model.build.HotEnd;
import coldward.model.build.Origin;
import coldward.quantity.DataError;
import coldward.quantity.DataErrors;
import coldward.sheet.yaml.Tree;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Build sheets: YAML files that describe one printer each. */
public final class Sheets {

    private Sheets() {}

    /**
     * What a sheet says, with classes and defaults filled in.
     *
     * @throws DataError for one finding, {@link DataErrors} for several; each has file, line, key and what would be
     *     right
     */
    public static Build read(Path file) {
        BuildReader.Outcome outcome =
                BuildReader.read(file.toString(), Chain.read(file).merged());
        return outcome.build().orElseThrow(() -> DataErrors.of(outcome.problems()));
    }

    /** Reads a sheet and holds it, and every sheet it is based on, against the published schema as well. */
    public static CheckResult check(Path file) {
        List<DataError> found = new ArrayList<>();
        Optional<Build> build = Optional.empty();
        try {
            Chain chain = Chain.read(file);
            BuildReader.Outcome outcome = BuildReader.read(file.toString(), chain.merged());
            build = outcome.build();
            found.addAll(outcome.problems());
            for (Tree tree : chain.raw()) {
                SchemaCheck.sheet(tree, found);
            }
        } catch (DataError e) {
            found.add(e);
        }
        return new CheckResult(found.isEmpty() ? build : Optional.empty(), found);
    }

    /**
     * A sheet with those it is based on merged, as YAML that reads back to the same build, with the origin of every
     * value as a comment.
     *
     * @param full true for every value, false for those that sheets give
     * @throws DataError or {@link DataErrors} as {@link #read(Path)} does
     */
    public static String show(Path file, boolean full) {
        BuildReader.Outcome outcome =
                BuildReader.read(file.toString(), Chain.read(file).merged());
        Build build = outcome.build().orElseThrow(() -> DataErrors.of(outcome.problems()));
        Map<String, Origin> values =
                new LinkedHashMap<>(full ? build.origins() : outcome.facts().given());
        if (full) {
            values.putAll(ShowText.spreads(build, build.origins()));
        }
        return "# " + file + (full ? ", merged, with classes and defaults filled in\n" : ", merged\n")
                + ShowText.of(values);
    }

    /**
     * A commented sheet to start from.
     *
     * @throws coldward.quantity.InputError if an answer cannot be used; it names the key
     */
    public static String starter(Answers answers) {
        return Starter.of(answers);
    }

    /**
     * Fans to choose from: a YAML list of maps as behind {@code fan} on a sheet, each with a {@code name}.
     *
     * @throws DataError or {@link DataErrors} as {@link #read(Path)} does
     */
    public static List<NamedFan> fans(Path file) {
        return Candidates.fans(file);
    }

    /**
     * A heat break to choose from, in the place of another.
     *
     * @param classOrText a class such as {@code thin titanium}, a map as behind {@code neck} on a sheet, or
     *     {@code {neck: {...}, shank: {...}}}
     * @param like whose filament, nozzle and shank dimensions it takes where it has none of its own
     * @throws coldward.quantity.InputError if it cannot be used
     */
    public static HeatBreak neck(String classOrText, HotEnd like) {
        return Candidates.heatBreak(classOrText, like);
    }

    /** The JSON Schema (2020-12) of sheets, as published. */
    public static String schema() {
        return SchemaCheck.resource("sheet.schema.json");
    }
}
