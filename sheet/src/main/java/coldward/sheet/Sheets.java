package coldward.sheet;

import coldward.model.build.Build;
import coldward.quantity.DataErrors;
import java.nio.file.Path;

/** Build sheets: YAML files that describe one printer each. */
public final class Sheets {

    private Sheets() {}

    /**
     * What a sheet says, with classes and defaults filled in.
     *
     * @throws coldward.quantity.DataError for one finding, {@link DataErrors} for several; each has file, line, key and
     *     what would be right
     */
    public static Build read(Path file) {
        BuildReader.Outcome outcome =
                BuildReader.read(file.toString(), Chain.read(file).merged());
        return outcome.build().orElseThrow(() -> DataErrors.of(outcome.problems()));
    }
}
