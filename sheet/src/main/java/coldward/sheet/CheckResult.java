package coldward.sheet;

import coldward.model.build.Build;
import coldward.quantity.DataError;
import java.util.List;
import java.util.Optional;

/**
 * What a check of a sheet found.
 *
 * @param build what the sheet says; there if nothing is wrong
 * @param problems everything wrong, each with its place and what would be right
 */
public record CheckResult(Optional<Build> build, List<DataError> problems) {
    public CheckResult {
        problems = List.copyOf(problems);
    }
}
