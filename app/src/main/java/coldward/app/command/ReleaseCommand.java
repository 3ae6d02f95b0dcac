package coldward.app.command;

import coldward.app.shop.ControlSocket;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.quantity.DataError;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tools.jackson.databind.JsonNode;

/** {@code coldward release SHOP PRINTER}. */
@Command(
        name = "release",
        mixinStandardHelpOptions = true,
        description = {
            "Take back a trip of the running watch, by name and with a reason.",
            "Both go into the journal; nothing else ever clears a trip. Ends with 1 if there was none to release."
        },
        footer = {
            "",
            "Example:",
            "  coldward release shop.yaml heron --name 'J. Brook' --reason 'hair in the blades, removed'"
        })
public final class ReleaseCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file, or its state folder")
    private Path shop = Path.of("");

    @Parameters(index = "1", paramLabel = "PRINTER", description = "the printer's name")
    private String printer = "";

    @Option(names = "--name", required = true, paramLabel = "WHO", description = "who releases it")
    private String name = "";

    @Option(names = "--reason", required = true, paramLabel = "WHY", description = "why it may run again")
    private String reason = "";

    @Option(names = "--json", description = "print the result as JSON (schema 'release')")
    private boolean json;

    public ReleaseCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Path state = Files.isDirectory(shop) ? shop : JournalCommand.state(shop);
        JsonNode answer = ControlSocket.ask(
                state,
                Json.object()
                        .put("do", "release")
                        .put("printer", printer)
                        .put("name", name)
                        .put("reason", reason));
        if (answer.has("error")) {
            throw new DataError("release", 0, printer, answer.path("error").asString("refused"));
        }
        boolean released = answer.path("released").asBoolean(false);
        if (json) {
            terminal.line(Json.text(Json.object().put("printer", printer).put("released", released)));
        } else {
            terminal.line(released ? printer + " is released." : printer + " was not tripped; nothing to release.");
        }
        return (released ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }
}
