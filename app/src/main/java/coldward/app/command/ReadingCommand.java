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
import coldward.quantity.Checks;
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
}
