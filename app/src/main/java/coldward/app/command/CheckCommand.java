package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.trip.TripRun;
import coldward.model.build.Build;
import coldward.model.check.Check;
import coldward.model.design.DesignSettings;
import coldward.model.design.TripDesign;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code coldward check SHEET}. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = {
            "Heat, wiring, reading and trip in one verdict: ready, ready with cautions, or not safe.",
            "Ranks what costs margin by its seconds. Ends with 1 if the answer is not safe."
        },
        footer = {"", "Example:", "  coldward check heron.yaml"})
public final class CheckCommand implements Callable<Integer> {

    /** Draws made without being asked for where the sheet rests on classes, as in the race. */
    private static final int DRAWS_FOR_CLASSES = 100;

    private static final int MOST_DRAWS = 100_000;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
    private Path sheet = Path.of("");

    @Option(
            names = "--baseline",
            paramLabel = "CSV",
            description =
                    "a recording of this printer's healthy fan (docs/history.md), instead of rated speed and tolerance")
    private @Nullable Path baseline;

    @Option(
            names = "--draws",
            paramLabel = "N",
            description =
                    "draw the uncertain inputs N times for the deadlines' bands; without it 100 where the sheet rests on classes, else none; 0 for none")
    private @Nullable Integer draws;

    @Option(
            names = "--seed",
            paramLabel = "S",
            defaultValue = "1",
            description = "seed of the draws (default ${DEFAULT-VALUE}); same seed, same numbers")
    private long seed;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'check')")
    private boolean json;

    public CheckCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (draws != null && (draws < 0 || draws > MOST_DRAWS) && spec != null) {
            throw new ParameterException(
                    spec.commandLine(), "--draws is " + draws + " but must be between 0 and " + MOST_DRAWS);
        }
        Build build = Sheets.read(sheet);
        int count = draws != null ? draws : build.restsOnClasses() ? DRAWS_FOR_CLASSES : 0;
        List<String> cautions = new ArrayList<>();
        TripDesign design = TripRun.design(
                build, Optional.ofNullable(baseline), DesignSettings.USUAL, count, seed, cautions, terminal);
        Check check = Check.of(design);
        int drawn = TripRun.drawn(design, count) ? count : 0;
        if (json) {
            terminal.line(Json.text(CheckJson.of(check, drawn, seed, cautions)));
        } else {
            CheckText.print(check, drawn, cautions, terminal);
        }
        return (check.verdict() == Check.Verdict.NOT_SAFE ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
    }
}
