package coldward.app.command;

import coldward.model.build.Build;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The options of every command that draws what a sheet leaves uncertain. */
final class DrawOptions {

    /** Draws made without being asked for where the sheet rests on classes: a bare number would be too sure. */
    private static final int DRAWS_FOR_CLASSES = 100;

    private static final int MOST_DRAWS = 100_000;

    @Spec(Spec.Target.MIXEE)
    private @Nullable CommandSpec spec;

    @Option(
            names = "--draws",
            paramLabel = "N",
            description =
                    "draw the uncertain inputs N times for 5-95 %% bands; without it 100 where the sheet rests on classes, else none; 0 for none")
    private @Nullable Integer draws;

    @Option(
            names = "--seed",
            paramLabel = "S",
            defaultValue = "1",
            description = "seed of the draws (default ${DEFAULT-VALUE}); same seed, same numbers")
    private long seed;

    /** Refuses a number of draws that is out of bounds; asked before any work begins. */
    void check() {
        if (draws != null && (draws < 0 || draws > MOST_DRAWS) && spec != null) {
            throw new ParameterException(
                    spec.commandLine(), "--draws is " + draws + " but must be between 0 and " + MOST_DRAWS);
        }
    }

    /** How many draws to make for a build. */
    int count(Build build) {
        return draws != null ? draws : build.restsOnClasses() ? DRAWS_FOR_CLASSES : 0;
    }

    /** Their seed. */
    long seed() {
        return seed;
    }
}
