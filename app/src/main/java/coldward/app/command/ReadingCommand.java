package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.race.Sentences;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.figures.Format;
import coldward.figures.PulsesFigure;
import coldward.figures.PulsesPicture;
import coldward.figures.TextOptions;
import coldward.figures.Theme;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.reading.ChoppedPulses;
import coldward.model.reading.Chopping;
import coldward.model.reading.Conditions;
import coldward.model.reading.ReadingResult;
import coldward.model.reading.Readings;
import coldward.quantity.Checks;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward reading SHEET}. */
@Command(
        name = "reading",
        mixinStandardHelpOptions = true,
        description = {
            "Whether the shown fan speed is the true one.",
            "Says what the counter makes of the fastest a good fan turns, the highest honest speed, and how finely it"
                    + " tells. Ends with 1 if the reading is not honest."
        },
        footer = {"", "Example:", "  coldward reading heron.yaml --true '9000 rpm' --every '2 ms' --svg pulses.svg"})
public final class ReadingCommand implements Callable<Integer> {

    /** A fan so much slower than rated should still be read in a stretched reading. */
    private static final double SLOWEST_READ = 0.4;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHEET", description = "the build sheet")
    private @Nullable Path sheet;

    @Option(
            names = "--true",
            paramLabel = "RPM",
            description =
                    "the fan's true speed (default: the rated speed plus its tolerance, the fastest a good fan turns)")
    private @Nullable String trueSpeed;

    @Option(
            names = "--every",
            paramLabel = "TIME",
            description = "look at the pin so often instead of what the sheet says, for example '2 ms'")
    private @Nullable String every;

    @Option(
            names = "--jitter",
            paramLabel = "TIME",
            description = "by how much a look may be early or late, for example '0.1 ms' (default 0)")
    private @Nullable String jitter;

    @Option(
            names = "--chopped",
            paramLabel = "HZ:PERCENT",
            description = "the fan's supply is switched so often a second and on for so much of the time")
    private @Nullable String chopped;

    @Option(names = "--svg", paramLabel = "FILE", description = "write the pulses figure as SVG")
    private @Nullable Path svg;

    @Option(
            names = "--theme",
            paramLabel = "THEME",
            defaultValue = "AUTO",
            description = "ground of the SVG: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Theme theme = Theme.AUTO;

    @Option(names = "--narrow", description = "lay the SVG out for a narrow screen")
    private boolean narrow;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'reading')")
    private boolean json;

    public ReadingCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        if (sheet == null) {
            throw new ParameterException(line, "missing: SHEET, the build sheet");
        }
        Build build = Sheets.read(sheet);
        double rpm = trueSpeed == null
                ? build.hotEnd().fan().ratedSpeed() * (1 + build.hotEnd().fan().speedTolerance())
                : Arguments.rpm(line, "--true", trueSpeed);
        if (!(build.reading() instanceof Reading.Tachometer onSheet)) {
            if (json) {
                ObjectNode node = Json.object();
                node.put("printer", build.printer());
                node.put("reads_speed", false);
                terminal.line(Json.text(node));
            } else {
                terminal.folded(
                        build.printer() + " reads no speed (reading: none): nothing notices a stopped fan.", "");
            }
            return ExitCode.NOT_SAFE.number();
        }
        Reading.Tachometer reading = every == null
                ? onSheet
                : new Reading.Tachometer(
                        onSheet.pulsesPerTurn(),
                        onSheet.duty(),
                        new Reading.Sampled(Arguments.time(line, "--every", every)),
                        onSheet.reportInterval());
        Conditions conditions = conditions(line);
        ReadingResult result = Readings.of(reading, rpm, conditions);
        PulsesPicture picture = new PulsesPicture(
                build.printer(), reading, conditions, rpm, build.hotEnd().fan().ratedSpeed(), verdict(build, result));
        if (svg != null) {
            WholeFile.write(svg, PulsesFigure.svg(picture, narrow ? Format.NARROW : Format.WIDE, theme));
        }
        if (json) {
            terminal.line(Json.text(json(build, result)));
        } else {
            print(build, reading, conditions, result);
            terminal.line();
            terminal.line(PulsesFigure.text(
                            picture, new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour()))
                    .stripTrailing());
        }
        return (result.honest() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private Conditions conditions(CommandLine line) {
        Conditions conditions = jitter == null
                ? Conditions.PLAIN
                : Conditions.PLAIN.withJitter(Arguments.time(line, "--jitter", jitter));
        if (chopped == null) {
            return conditions;
        }
        int colon = chopped.indexOf(':');
        if (colon < 1) {
            throw new ParameterException(line, "--chopped: '" + chopped + "' is no pair; write for example 25:60");
        }
        return conditions.withChopping(new Chopping(
                Arguments.hertz(line, "--chopped", chopped.substring(0, colon).strip()),
                Arguments.share(line, "--chopped", chopped.substring(colon + 1).strip() + " %")));
    }

    private static String verdict(Build build, ReadingResult result) {
        return (result.honest()
                        ? "%s reads honestly: at %.0f rpm it shows %.0f rpm."
                        : "%s does not read honestly: at %.0f rpm it shows %.0f rpm.")
                .formatted(build.printer(), result.trueRpm(), result.shownRpm());
    }

    private void print(Build build, Reading.Tachometer reading, Conditions conditions, ReadingResult result) {
        terminal.folded(verdict(build, result), "");
        result.highestHonestRpm().ifPresent(v -> terminal.line("  highest honest speed       %.0f rpm".formatted(v)));
        if (reading.counter() instanceof Reading.Sampled(double seconds)) {
            terminal.line("  the pin is looked at every %s ms".formatted(Checks.number(1e3 * seconds)));
        }
        result.longestHonestInterval()
                .ifPresent(v -> terminal.line(
                        "  longest honest interval    %s ms at this speed".formatted(Checks.number(round(1e3 * v)))));
        terminal.line("  resolution                 %s rpm".formatted(Sentences.number(result.resolutionRpm())));
        conditions.chopping().filter(c -> c.onShare() < 1).ifPresent(c -> chopped(build, reading, c, result));
    }

    /** What the chopping hides and adds, and what helps. */
    private void chopped(Build build, Reading.Tachometer reading, Chopping chopping, ReadingResult result) {
        ChoppedPulses.Edges edges = ChoppedPulses.edges(
                Readings.pulseRate(result.trueRpm(), reading.pulsesPerTurn()), reading.duty(), chopping);
        terminal.line("  pulses seen                %.0f a second, %.0f hidden while the supply is off"
                .formatted(edges.real(), edges.hidden()));
        terminal.line(
                "  false edges                %.0f a second, from the chopping itself".formatted(edges.falseEdges()));
        double slowest = build.hotEnd().fan().ratedSpeed() * SLOWEST_READ;
        ChoppedPulses.HeldOn held = ChoppedPulses.stretched(
                Readings.pulseRate(slowest, reading.pulsesPerTurn()),
                reading.pulsesPerTurn(),
                chopping,
                reading.reportInterval());
        terminal.folded(
                ("  what helps: hold the supply on during a reading; %.0f ms once a report show a whole turn down to"
                                + " %.0f rpm, and the supply is then on for %.0f %% of the time. Or do not chop this fan.")
                        .formatted(1e3 * held.seconds(), slowest, 100 * held.meanOnShare()),
                "  ");
    }

    private static double round(double value) {
        return Math.rint(value * 1000) / 1000;
    }

    private static ObjectNode json(Build build, ReadingResult result) {
        ObjectNode node = Json.object();
        node.put("printer", build.printer());
        node.put("reads_speed", true);
        put(node, "true_rpm", result.trueRpm());
        put(node, "shown_rpm", result.shownRpm());
        node.put("honest", result.honest());
        put(node, "highest_honest_rpm", result.highestHonestRpm());
        put(node, "longest_honest_interval_s", result.longestHonestInterval());
        put(node, "resolution_rpm", result.resolutionRpm());
        return node;
    }
}
