package coldward.app.command;

import coldward.app.shop.ChannelTry;
import coldward.app.shop.ChannelTry.Tried;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.time.SystemTicker;
import coldward.model.shop.Shop;
import coldward.quantity.DataError;
import coldward.sheet.Shops;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward notice}: its subcommand does the work. */
@Command(
        name = "notice",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "try",
        description = "The ways on which people are told.",
        footer = {"", "Example:", "  coldward notice try shop.yaml"})
public final class NoticeCommand implements Callable<Integer> {

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(Arguments.line(spec, this), "missing: try");
    }

    /** {@code coldward notice try}. */
    @Command(
            name = "try",
            mixinStandardHelpOptions = true,
            description = {
                "Send one message over every channel of a shop file, the heartbeat included, and say what came of it.",
                "Works with and without a running watch; nothing is repeated. Ends with 1 if one did not arrive."
            },
            footer = {"", "Example:", "  coldward notice try shop.yaml"})
    public static final class Try implements Callable<Integer> {

        private final Terminal terminal;

        @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file")
        private Path file = Path.of("");

        @Option(names = "--json", description = "print the result as JSON (schema 'notice-try')")
        private boolean json;

        public Try(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            Shop shop = Shops.read(file);
            if (shop.notices().channels().isEmpty()
                    && shop.notices().heartbeat().isEmpty()) {
                throw new DataError(
                        file.toString(),
                        0,
                        "notices",
                        "names no channel; write for example notices: {webhooks: [{name: pager, url: \"http://localhost:9090/notices\"}]}");
            }
            List<Tried> tried;
            try (SystemTicker ticker = new SystemTicker()) {
                tried = ChannelTry.all(shop, ticker);
            }
            boolean all = tried.stream().allMatch(Tried::arrived);
            if (json) {
                ObjectNode node = Json.object();
                node.put("all_arrived", all);
                ArrayNode channels = node.putArray("channels");
                for (Tried each : tried) {
                    ObjectNode one = channels.addObject();
                    one.put("channel", each.channel());
                    one.put("arrived", each.arrived());
                    Json.put(one, "seconds", each.seconds());
                    if (!each.why().isEmpty()) {
                        one.put("why", each.why());
                    }
                }
                terminal.line(Json.text(node));
            } else {
                for (Tried each : tried) {
                    terminal.folded(
                            each.arrived()
                                    ? "%s: taken by the other side after %.2f s"
                                            .formatted(each.channel(), each.seconds())
                                    : "%s: NOT delivered: %s".formatted(each.channel(), each.why()),
                            "  ");
                }
                terminal.folded(
                        all
                                ? "Look whether the messages have really reached their people."
                                : "Mend what is told above and try again; until then these channels tell nobody.",
                        "");
            }
            return (all ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
        }
    }
}
