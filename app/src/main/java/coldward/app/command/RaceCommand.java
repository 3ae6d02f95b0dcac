package coldward.app.command;

import coldward.app.race.RaceRun;
import coldward.app.race.Sentences;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.figures.Format;
import coldward.figures.RaceFigure;
import coldward.figures.TextOptions;
import coldward.figures.Theme;
import coldward.model.build.Build;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code coldward race SHEET}. */
@Command(
        name = "race",
        mixinStandardHelpOptions = true,
        description = {
            "How long the cold side lasts without its fan, and which response saves it.",
            "Prints the verdict, the numbers and the race figure. Ends with 1 if the answer is 'not safe'."
        },
        footer = {"", "Example:", "  coldward race heron.yaml --draws 200 --svg heron-race.svg"})
public final class RaceCommand implements Callable<Integer> {

    /** Draws made without being asked for where the sheet rests on classes: a bare number would be too sure. */
    private static final int DRAWS_FOR_CLASSES = 100;

    private static final int MOST_DRAWS = 100_000;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
    private Path sheet = Path.of("");

    @Option(
            names = "--draws",
            paramLabel = "N",
            description =
                    "draw the uncertain inputs N times for 5-95 %% bands; without it ${DRAWS:-100} where the sheet rests on classes, else none; 0 for none")
    private @Nullable Integer draws;

    @Option(
            names = "--seed",
            paramLabel = "S",
            defaultValue = "1",
            description = "seed of the draws (default ${DEFAULT-VALUE}); same seed, same numbers")
    private long seed;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'race')")
    private boolean json;

    @Option(names = "--svg", paramLabel = "FILE", description = "write the race figure as SVG")
    private @Nullable Path svg;

    @Option(
            names = "--theme",
            paramLabel = "THEME",
            defaultValue = "AUTO",
            description = "ground of the SVG: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Theme theme = Theme.AUTO;

    @Option(names = "--narrow", description = "lay the SVG out for a narrow screen")
    private boolean narrow;

    public RaceCommand(Terminal terminal) {
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
        RaceRun run = RaceRun.of(build, count, seed, terminal);
        if (svg != null && run.picture().isPresent()) {
            WholeFile.write(svg, RaceFigure.svg(run.picture().get(), narrow ? Format.NARROW : Format.WIDE, theme));
        }
        if (json) {
            terminal.line(Json.text(RaceJson.of(run)));
        } else {
            RaceText.print(run, terminal);
            run.picture()
                    .ifPresent(p -> terminal.line(RaceFigure.text(
                                    p, new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour()))
                            .stripTrailing()));
        }
        return (Sentences.safe(run.assessment(), run.uncertainty()) ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }
}
