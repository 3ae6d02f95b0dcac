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
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

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

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
    private Path sheet = Path.of("");

    @Mixin
    private final DrawOptions draws = new DrawOptions();

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
        draws.check();
        Build build = Sheets.read(sheet);
        int count = draws.count(build);
        RaceRun run = RaceRun.of(build, count, draws.seed(), terminal);
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
