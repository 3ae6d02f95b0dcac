package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.race.Sentences;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.reading.ReadingResult;
import coldward.model.reading.Readings;
import coldward.model.reading.Sampling;
import coldward.model.reading.ShowingInterval;
import coldward.quantity.Checks;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.List;
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
import tools.jackson.databind.node.ArrayNode;
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
        footer = {"", "Example:", "  coldward reading heron.yaml --true '9000 rpm'"})
public final class ReadingCommand implements Callable<Integer> {

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
        Optional<ReadingResult> result = Readings.of(build, rpm);
        if (result.isEmpty()) {
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
        if (json) {
            terminal.line(Json.text(json(build, result.get())));
        } else {
            print(build, result.get());
        }
        return (result.get().honest() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private void print(Build build, ReadingResult result) {
        terminal.folded(
                result.honest()
                        ? "%s reads honestly: at %.0f rpm it shows %.0f rpm."
                                .formatted(build.printer(), result.trueRpm(), result.shownRpm())
                        : "%s does not read honestly: at %.0f rpm it shows %.0f rpm."
                                .formatted(build.printer(), result.trueRpm(), result.shownRpm()),
                "");
        result.highestHonestRpm().ifPresent(v -> terminal.line("  highest honest speed       %.0f rpm".formatted(v)));
        if (build.reading() instanceof Reading.Tachometer reading
                && reading.counter() instanceof Reading.Sampled(double every)) {
            terminal.line("  the pin is looked at every %s ms".formatted(Checks.number(1e3 * every)));
        }
        result.longestHonestInterval()
                .ifPresent(v -> terminal.line(
                        "  longest honest interval    %s ms at this speed".formatted(Checks.number(round(1e3 * v)))));
        terminal.line("  resolution                 %s rpm".formatted(Sentences.number(result.resolutionRpm())));
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

    /** {@code coldward reading explain}. */
    @Command(
            name = "explain",
            mixinStandardHelpOptions = true,
            description = {
                "Every interval between two looks at the pin that would show one speed as another.",
                "Down to 0.1 ms, each with why. Ends with 1 if none does."
            },
            footer = {"", "Example:", "  coldward reading explain --true 9000 --shown 3000 --pulses 2"})
    public static final class Explain implements Callable<Integer> {

        private final Terminal terminal;

        @Spec
        private @Nullable CommandSpec spec;

        @Option(names = "--true", required = true, paramLabel = "RPM", description = "the true speed")
        private String trueSpeed = "";

        @Option(names = "--shown", required = true, paramLabel = "RPM", description = "the speed that is shown")
        private String shown = "";

        @Option(names = "--pulses", required = true, paramLabel = "P", description = "pulses per turn, 1 to 12")
        private int pulses;

        @Option(
                names = "--duty",
                paramLabel = "SHARE",
                defaultValue = "50 %",
                description = "share of a pulse that is high (default ${DEFAULT-VALUE})")
        private String duty = "";

        @Option(
                names = "--tolerance",
                paramLabel = "SHARE",
                defaultValue = "2 %",
                description = "within which two speeds count as the same (default ${DEFAULT-VALUE})")
        private String tolerance = "";

        @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'reading-explain')")
        private boolean json;

        public Explain(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            CommandLine line = Arguments.line(spec, this);
            double trueRpm = Arguments.rpm(line, "--true", trueSpeed);
            double shownRpm = Arguments.rpm(line, "--shown", shown);
            List<ShowingInterval> found = Sampling.intervalsThatShow(
                    trueRpm,
                    shownRpm,
                    pulses,
                    Arguments.share(line, "--duty", duty),
                    Arguments.share(line, "--tolerance", tolerance));
            if (json) {
                ObjectNode node = Json.object();
                put(node, "true_rpm", trueRpm);
                put(node, "shown_rpm", shownRpm);
                node.put("pulses_per_turn", pulses);
                ArrayNode rows = node.putArray("intervals");
                for (ShowingInterval each : found) {
                    ObjectNode row = rows.addObject();
                    row.put("kind", each instanceof ShowingInterval.AnyUpTo ? "any-up-to" : "exactly");
                    put(row, "interval_s", each.seconds());
                    row.put("why", each.why().words());
                }
                terminal.line(Json.text(node));
            } else {
                print(trueRpm, shownRpm, found);
            }
            return (found.isEmpty() ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
        }

        private void print(double trueRpm, double shownRpm, List<ShowingInterval> found) {
            if (found.isEmpty()) {
                terminal.folded(
                        ("No sampling interval shows %.0f rpm as %.0f rpm with %d pulses per turn: sampling never shows"
                                        + " more than the truth. Look at the pulses per turn or at coupling instead.")
                                .formatted(trueRpm, shownRpm, pulses),
                        "");
                return;
            }
            terminal.folded(
                    "A fan at %.0f rpm with %d pulses per turn is shown at %.0f rpm when its pin is looked at every"
                            .formatted(trueRpm, pulses, shownRpm),
                    "");
            for (ShowingInterval each : found) {
                terminal.line("  %-16s %s"
                        .formatted(
                                (each instanceof ShowingInterval.AnyUpTo ? "up to " : "")
                                        + Checks.number(Math.rint(each.seconds() * 1e7) / 1e4) + " ms",
                                each.why().words()));
            }
        }
    }
}
