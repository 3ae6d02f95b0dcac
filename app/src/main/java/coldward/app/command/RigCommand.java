package coldward.app.command;

import coldward.app.shop.RigClient;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.time.SystemTicker;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.Shop;
import coldward.quantity.DataError;
import coldward.rig.RigServer;
import coldward.rig.RigShop;
import coldward.rig.SimulatedPrinter;
import coldward.sheet.Shops;
import java.net.URI;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward rig SHOP}. */
@Command(
        name = "rig",
        mixinStandardHelpOptions = true,
        description = {
            "Serve a shop's printers as simulated ones that obey the heat model.",
            "On the port its links point to, on this computer only. Fail them with coldward rig fail. Nothing real is"
                    + " touched."
        },
        footer = {"", "Example:", "  coldward rig shop.yaml"})
public final class RigCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHOP", description = "the shop file")
    private @Nullable Path shopFile;

    @Option(
            names = "--start",
            paramLabel = "HOW",
            defaultValue = "PRINTING",
            description = "how the printers are at first: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private SimulatedPrinter.Start start = SimulatedPrinter.Start.PRINTING;

    @Option(
            names = "--seed",
            paramLabel = "S",
            defaultValue = "1",
            description = "seed of the fans' noise (default ${DEFAULT-VALUE})")
    private long seed;

    @Option(names = "--json", description = "print where it serves as JSON (schema 'rig')")
    private boolean json;

    public RigCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (shopFile == null) {
            throw new ParameterException(Arguments.line(spec, this), "missing: SHOP, or one of fail, mend, work");
        }
        Shop shop = Shops.read(shopFile);
        try (SystemTicker ticker = new SystemTicker();
                RigServer rig = RigServer.start(RigShop.of(shop, start, seed), port(shop), ticker)) {
            if (json) {
                ObjectNode node = Json.object();
                node.put("url", rig.url());
                shop.printers().forEach(p -> node.withArray("printers").add(p.name()));
                terminal.line(Json.text(node));
            } else {
                terminal.line("Simulated printers at " + rig.url() + ". Stop with Ctrl-C.");
            }
            UntilStopped.await(rig);
        }
        return ExitCode.DONE.number();
    }

    /** The port that the shop's links point to; all must be on this computer and the same. */
    static int port(Shop shop) {
        int port = -1;
        for (Shop.Printer printer : shop.printers()) {
            URI base = switch (printer.link()) {
                case LinkSpec.Http http -> URI.create(http.base());
            };
            String host = String.valueOf(base.getHost());
            boolean here = host.equals("localhost") || host.equals("127.0.0.1") || host.equals("[::1]");
            int of = base.getPort() < 0 ? 80 : base.getPort();
            if (!here || (port >= 0 && of != port) || !("/" + printer.name()).equals(base.getPath())) {
                throw new DataError(
                        shop.name(),
                        0,
                        printer.name(),
                        "its link points to " + base
                                + ", but a rig serves all printers on one port of this computer, each under its name; for example http://localhost:7070/"
                                + printer.name());
            }
            port = of;
        }
        return port;
    }

    /** What {@code fail}, {@code mend} and {@code work} share. */
    abstract static class Asking implements Callable<Integer> {

        final Terminal terminal;

        @Parameters(index = "0", paramLabel = "PRINTER", description = "the printer's name")
        String printer = "";

        @Option(
                names = "--rig",
                paramLabel = "URL",
                defaultValue = RigClient.USUAL,
                description = "where the rig is (default ${DEFAULT-VALUE})")
        String rig = RigClient.USUAL;

        @Option(names = "--json", description = "print the rig's answer as JSON (schema 'rig')")
        boolean json;

        Asking(Terminal terminal) {
            this.terminal = terminal;
        }

        int ask(String path, String body, String done) {
            try (RigClient client = new RigClient(rig)) {
                JsonNode answer = client.post("/" + printer + path, body);
                terminal.line(json && answer instanceof ObjectNode node ? Json.text(node) : done);
            }
            return ExitCode.DONE.number();
        }
    }

    /** {@code coldward rig fail}. */
    @Command(
            name = "fail",
            mixinStandardHelpOptions = true,
            description = {
                "Fail a simulated printer.",
                "stop: the fan's supply is gone; slow: it turns at a fraction; fade: it slows to a stand over minutes;"
                        + " cut-signal: it reads zero, the fan is fine; stuck-reading: the last number stays."
            },
            footer = {"", "Example:", "  coldward rig fail heron stop"})
    public static final class Fail extends Asking {

        @Parameters(index = "1", paramLabel = "FAILURE", description = "stop, slow, fade, cut-signal or stuck-reading")
        private String failure = "";

        @Option(names = "--fraction", paramLabel = "SHARE", description = "of 'slow': share of its speed (default 0.5)")
        private @Nullable Double fraction;

        @Option(names = "--minutes", paramLabel = "N", description = "of 'fade': until it stands (default 5)")
        private @Nullable Double minutes;

        public Fail(Terminal terminal) {
            super(terminal);
        }

        @Override
        public Integer call() {
            ObjectNode body = Json.object();
            if (fraction != null) {
                body.put("fraction", fraction);
            }
            if (minutes != null) {
                body.put("minutes", minutes);
            }
            return ask(
                    "/fail/" + failure.toLowerCase(Locale.ROOT),
                    body.isEmpty() ? "" : Json.compact(body),
                    printer + ": " + failure + ". See what the watch does.");
        }
    }

    /** {@code coldward rig mend}. */
    @Command(
            name = "mend",
            mixinStandardHelpOptions = true,
            description = "Mend whatever was failed on a simulated printer.",
            footer = {"", "Example:", "  coldward rig mend heron"})
    public static final class Mend extends Asking {

        public Mend(Terminal terminal) {
            super(terminal);
        }

        @Override
        public Integer call() {
            return ask("/mend", "", printer + " is mended. A trip stays until it is released by name.");
        }
    }

    /** {@code coldward rig work}. */
    @Command(
            name = "work",
            mixinStandardHelpOptions = true,
            description = "Let a simulated printer heat up and feed again.",
            footer = {"", "Example:", "  coldward rig work heron"})
    public static final class Work extends Asking {

        public Work(Terminal terminal) {
            super(terminal);
        }

        @Override
        public Integer call() {
            return ask("/work", "", printer + " heats up and feeds.");
        }
    }
}
