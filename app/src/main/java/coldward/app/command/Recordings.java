package coldward.app.command;

import coldward.app.history.ReportSource;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;

/** How commands name a recording: a CSV file, or with a shop a printer of it. */
final class Recordings {

    private static final double MOST_DAYS = 36_500;

    private Recordings() {}

    static ReportSource of(CommandLine line, String source, @Nullable Path shop, double days) {
        if (!(days > 0 && days <= MOST_DAYS)) {
            throw new ParameterException(line, "--days is " + days + " but must be above 0 and at most 36500");
        }
        if (shop == null) {
            Path file = Path.of(source);
            if (!source.endsWith(".csv") && !Files.exists(file)) {
                throw new ParameterException(
                        line,
                        "there is no file '" + source + "'; of a watched printer: " + source + " --shop shop.yaml");
            }
            return ReportSource.csv(file);
        }
        return ReportSource.kept(state(shop), source, days);
    }

    /** The state folder of a shop file, or the folder itself. */
    static Path state(Path shopOrFolder) {
        return Files.isDirectory(shopOrFolder) ? shopOrFolder : JournalCommand.state(shopOrFolder);
    }
}
