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
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

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

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
    private Path sheet = Path.of("");

    @Option(
            names = "--baseline",
            paramLabel = "CSV",
            description =
                    "a recording of this printer's healthy fan (docs/history.md), instead of rated speed and tolerance")
    private @Nullable Path baseline;

    @Mixin
    private final DrawOptions draws = new DrawOptions();

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
        draws.check();
        Build build = Sheets.read(sheet);
        int count = draws.count(build);
        DesignSettings settings =
                lowestSpeed == null ? DesignSettings.USUAL : DesignSettings.USUAL.withLowestSpeed(lowestSpeed);
        TripRun run = TripRun.of(build, Optional.ofNullable(baseline), settings, count, draws.seed(), terminal);
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
