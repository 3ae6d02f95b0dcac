package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.figures.Format;
import coldward.figures.TextOptions;
import coldward.figures.Theme;
import coldward.figures.WiringFigure;
import coldward.figures.WiringPicture;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Pulses;
import coldward.model.wiring.analysis.WiringCheck;
import coldward.model.wiring.analysis.WiringReport;
import coldward.quantity.InputError;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code coldward wiring SHEET}. */
@Command(
        name = "wiring",
        mixinStandardHelpOptions = true,
        description = {
            "Whether the fan's wiring works, and whether it harms the board.",
            "Solves the circuit of the sheet's wiring in every state and corner, ranks what it finds by harm and draws it"
                    + " with each finding pinned where it is. Ends with 1 if one is an error.",
            "Disconnect the supply before touching wiring."
        },
        footer = {"", "Example:", "  coldward wiring heron.yaml --svg heron-wiring.svg"})
public final class WiringCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHEET", description = "the build sheet")
    private @Nullable Path sheet;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'wiring')")
    private boolean json;

    @Option(names = "--svg", paramLabel = "FILE", description = "write the drawing as SVG")
    private @Nullable Path svg;

    @Option(names = "--narrow", description = "lay the drawing out for a telephone")
    private boolean narrow;

    @Option(
            names = "--theme",
            paramLabel = "THEME",
            defaultValue = "AUTO",
            description = "ground of the drawing: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Theme theme = Theme.AUTO;

    public WiringCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        if (sheet == null) {
            throw new ParameterException(line, "missing: SHEET, the build sheet");
        }
        Build build = Sheets.read(sheet);
        Wiring wiring = described(build);
        WiringReport report = WiringCheck.check(wiring, pulses(build));
        WiringPicture picture = WiringWords.picture(build.printer(), wiring, report);
        if (svg != null) {
            WholeFile.write(svg, WiringFigure.svg(picture, narrow ? Format.NARROW : Format.WIDE, theme));
        }
        if (json) {
            terminal.line(Json.text(WiringJson.of(build.printer(), report)));
        } else {
            terminal.out()
                    .print(WiringFigure.text(
                            picture, new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour())));
            terminal.out().flush();
            if (svg != null) {
                terminal.line("Drawing written to " + svg + ".");
            }
        }
        return (report.hasErrors() ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
    }

    /** The wiring of a build. */
    static Wiring described(Build build) {
        return build.wiring()
                .orElseThrow(() -> new InputError(
                        "wiring",
                        build.printer()
                                + "'s sheet says nothing of its wiring; add for example wiring: {boards: [{name: main,"
                                + " class: \"24 V board, 3.3 V logic\"}], fan: 24 V 30x10 three-wire, wires: [...]}"
                                + " (docs/sheet.md)"));
    }

    /** The fastest pulses a good fan makes, where they are read. */
    static Optional<Pulses> pulses(Build build) {
        return build.reading() instanceof Reading.Tachometer tachometer
                ? Optional.of(Pulses.of(build.hotEnd().fan(), tachometer))
                : Optional.empty();
    }
}
