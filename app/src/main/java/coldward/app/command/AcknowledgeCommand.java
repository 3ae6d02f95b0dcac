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

/** {@code coldward acknowledge SHOP [PRINTER]}. */
@Command(
        name = "acknowledge",
        mixinStandardHelpOptions = true,
        description = {
            "Tell the running watch that you have taken notice, so that it stops repeating what it told until now.",
            "A trip stays a trip: see coldward release. Your name goes into the journal and to the other people. Ends"
                    + " with 1 if nothing was open."
        },
        footer = {"", "Example:", "  coldward acknowledge shop.yaml heron --name 'J. Brook'"})
public final class AcknowledgeCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file, or its state folder")
    private Path shop = Path.of("");

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "PRINTER",
            description = "only what was told of this printer; absent: everything, the watch's own matters included")
    private String printer = "";

    @Option(names = "--name", required = true, paramLabel = "WHO", description = "who has taken notice")
    private String name = "";

    @Option(names = "--json", description = "print the result as JSON (schema 'acknowledge')")
    private boolean json;

    public AcknowledgeCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Path state = Files.isDirectory(shop) ? shop : JournalCommand.state(shop);
        JsonNode answer = ControlSocket.ask(
                state,
                Json.object().put("do", "acknowledge").put("printer", printer).put("name", name));
        if (answer.has("error")) {
            throw new DataError("acknowledge", 0, printer, answer.path("error").asString("refused"));
        }
        int open = answer.path("acknowledged").asInt(0);
        if (json) {
            terminal.line(Json.text(Json.object().put("acknowledged", open)));
        } else if (open == 0) {
            terminal.line("Nothing was open; what is told from now on is repeated again.");
        } else {
            terminal.line("%d message%s acknowledged by %s; %s not repeated any more."
                    .formatted(open, open == 1 ? "" : "s", name, open == 1 ? "it is" : "they are"));
        }
        return (open > 0 ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }
}
