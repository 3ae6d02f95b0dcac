package coldward.app.command;

import coldward.app.shop.ControlSocket;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.quantity.DataError;
import coldward.watch.guard.GuardEvent;
import java.nio.file.Files;
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
import tools.jackson.databind.JsonNode;

/** {@code coldward bypass SHOP PRINTER}. */
@Command(
        name = "bypass",
        mixinStandardHelpOptions = true,
        description = {
            "Hold back the trip of one printer for a while, by name and with a reason.",
            "It ends by itself, at the latest after a day; judging and telling go on meanwhile. Everything goes into the"
                    + " journal.",
            "CAUTION: while it lasts nothing acts if the fan stops. Stay beside the machine."
        },
        footer = {
            "",
            "Example:",
            "  coldward bypass shop.yaml heron --for 30min --name 'J. Brook' --reason 'cleaning the duct, fan off'"
        })
public final class BypassCommand implements Callable<Integer> {

    private static final double SECOND = 1;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file, or its state folder")
    private Path shop = Path.of("");

    @Parameters(index = "1", paramLabel = "PRINTER", description = "the printer's name")
    private String printer = "";

    @Option(
            names = "--for",
            required = true,
            paramLabel = "TIME",
            description = "how long, for example 30min; at most 24 h")
    private String time = "";

    @Option(names = "--name", required = true, paramLabel = "WHO", description = "who asks for it")
    private String name = "";

    @Option(names = "--reason", required = true, paramLabel = "WHY", description = "why nothing may trip")
    private String reason = "";

    @Option(names = "--json", description = "print the result as JSON (schema 'bypass')")
    private boolean json;

    public BypassCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        double seconds = Arguments.time(line, "--for", time);
        double longest = GuardEvent.LONGEST_BYPASS / 1e9;
        if (seconds < SECOND || seconds > longest) {
            throw new ParameterException(
                    line, "--for is %s but must be between 1 s and %.0f h".formatted(time, longest / 3600));
        }
        long whole = Math.round(seconds);
        Path state = Files.isDirectory(shop) ? shop : JournalCommand.state(shop);
        JsonNode answer = ControlSocket.ask(
                state,
                Json.object()
                        .put("do", "bypass")
                        .put("printer", printer)
                        .put("seconds", whole)
                        .put("name", name)
                        .put("reason", reason));
        if (answer.has("error")) {
            throw new DataError("bypass", 0, printer, answer.path("error").asString("refused"));
        }
        if (json) {
            terminal.line(Json.text(Json.object().put("printer", printer).put("seconds", whole)));
        } else {
            terminal.folded(
                    "%s is bypassed for %s: nothing trips until then, and then it ends by itself. Do not leave the machine alone."
                            .formatted(printer, words(whole)),
                    "");
        }
        return ExitCode.DONE.number();
    }

    private static String words(long seconds) {
        return seconds < 600 ? seconds + " s" : "%.0f min".formatted(seconds / 60.0);
    }
}
