package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.app.trip.TripRun;
import coldward.figures.Format;
import coldward.figures.TextOptions;
import coldward.figures.Theme;
import coldward.figures.TripMapFigure;
import coldward.figures.TripMapPicture;
import coldward.model.build.Build;
import coldward.model.design.DesignSettings;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code coldward trip SHEET}. */
@Command(
        name = "trip",
        mixinStandardHelpOptions = true,
        description = {
            "Which trip speed, how many confirmations, which response; and what the sheet's own are worth.",
            "Weighs heat against spurious trips. Ends with 1 if the printer as its sheet stands is not safe."
        },
        footer = {"", "Example:", "  coldward trip heron.yaml --baseline heron.csv --svg heron-trip.svg"})
public final class TripCommand implements Callable<Integer> {

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
                    "draw the uncertain inputs N times for the deadlines' bands; without it ${DRAWS:-100} where the sheet rests on classes, else none; 0 for none")
    private @Nullable Integer draws;

    @Option(
            names = "--seed",
            paramLabel = "S",
            defaultValue = "1",
            description = "seed of the draws (default ${DEFAULT-VALUE}); same seed, same numbers")
    private long seed;

    @Option(
            names = "--lowest-speed",
            paramLabel = "RPM",
            description =
                    "the healthy fan's speed at the lowest duty that may be commanded; below the trip speed it is an error")
    private @Nullable Double lowestSpeed;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'trip')")
    private boolean json;

    @Option(names = "--svg", paramLabel = "FILE", description = "write the trip map as SVG")
    private @Nullable Path svg;

    @Option(
            names = "--theme",
            paramLabel = "THEME",
            defaultValue = "AUTO",
            description = "ground of the SVG: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Theme theme = Theme.AUTO;

    @Option(names = "--narrow", description = "lay the SVG out for a narrow screen")
    private boolean narrow;

    public TripCommand(Terminal terminal) {
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
        DesignSettings settings =
                lowestSpeed == null ? DesignSettings.USUAL : DesignSettings.USUAL.withLowestSpeed(lowestSpeed);
        TripRun run = TripRun.of(build, Optional.ofNullable(baseline), settings, count, seed, terminal);
        Optional<TripMapPicture> picture = run.picture();
        if (svg != null && picture.isPresent()) {
            WholeFile.write(svg, TripMapFigure.svg(picture.get(), narrow ? Format.NARROW : Format.WIDE, theme));
        }
        if (json) {
            terminal.line(Json.text(TripJson.of(run)));
        } else {
            TripText.print(run, terminal);
            picture.ifPresent(p -> terminal.line(
                    TripMapFigure.text(p, new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour()))
                            .stripTrailing()));
        }
        return (run.design().safe() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }
}
