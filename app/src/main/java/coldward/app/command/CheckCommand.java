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
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

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

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'check')")
    private boolean json;

    public CheckCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        draws.check();
        Build build = Sheets.read(sheet);
        int count = draws.count(build);
        List<String> cautions = new ArrayList<>();
        TripDesign design = TripRun.design(
                build, Optional.ofNullable(baseline), DesignSettings.USUAL, count, draws.seed(), cautions, terminal);
        Check check = Check.of(design);
        int drawn = TripRun.drawn(design, count) ? count : 0;
        if (json) {
            terminal.line(Json.text(CheckJson.of(check, drawn, draws.seed(), cautions)));
        } else {
            CheckText.print(check, drawn, cautions, terminal);
        }
        return (check.verdict() == Check.Verdict.NOT_SAFE ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
    }
}
