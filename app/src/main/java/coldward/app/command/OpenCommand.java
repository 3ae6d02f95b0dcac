package coldward.app.command;

import coldward.app.shop.RigClient;
import coldward.app.shop.SampleShop;
import coldward.app.shop.Screen;
import coldward.app.shop.ShopWatch;
import coldward.app.shop.Story;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Terminal;
import coldward.app.time.SystemTicker;
import coldward.model.shop.Shop;
import coldward.quantity.ColdwardError;
import coldward.rig.RigServer;
import coldward.rig.RigShop;
import coldward.rig.SimulatedPrinter;
import coldward.sheet.Shops;
import coldward.watch.PrinterView;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** {@code coldward open}. */
@Command(
        name = "open",
        mixinStandardHelpOptions = true,
        description = {
            "A sample shop of three simulated printers, all watched over real sockets.",
            "Shows state, speed, margin and days since the last drill, live. Fail one from a second terminal.",
            "CAUTION: a fan trip protects the process; it is not fire protection and no certified safety device."
        },
        footer = {"", "Example:", "  coldward open", "  coldward rig fail heron stop     (in a second terminal)"})
public final class OpenCommand implements Callable<Integer> {

    /** Enough for a machine's own latencies after the last confirmation, ns. */
    private static final long AFTER_SAFE_NANOS = 300_000_000L;

    private final Terminal terminal;

    @Option(
            names = "--folder",
            paramLabel = "FOLDER",
            description = "where the sample shop is laid out (default: coldward/brook-lane in your state folder)")
    private @Nullable Path folder;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            defaultValue = "7070",
            description = "port of the simulated printers on this computer (default ${DEFAULT-VALUE})")
    private int port;

    @Option(
            names = "--json",
            description = "one JSON object a line for every change of state and notice (schema 'watch')")
    private boolean json;

    public OpenCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Path place = folder != null ? folder : usualFolder(System.getenv(), System.getProperty("user.home", "."));
        Path shopFile = SampleShop.layOut(place, port);
        Shop shop = Shops.read(shopFile);
        String where = port == 7070 ? "" : " --rig http://localhost:" + port;
        try (SystemTicker ticker = new SystemTicker();
                RigServer rig = RigServer.start(RigShop.of(shop, SimulatedPrinter.Start.PRINTING, 1), port, ticker);
                RigClient client = new RigClient(rig.url())) {
            Screen screen = new Screen(
                    terminal,
                    ticker,
                    json,
                    "brook lane: three simulated printers, watched; their sheets are in " + place
                            + "\nIn a second terminal:  coldward rig fail heron stop" + where
                            + "\nThen:  coldward rig mend heron" + where + "   coldward release " + shopFile
                            + " heron --name NAME --reason WHY   coldward rig work heron" + where
                            + "\nA fan trip is not fire protection. Stop with Ctrl-C.");
            try (ShopWatch watch = new ShopWatch(shop, JournalCommand.state(shopFile, shop), screen, ticker)) {
                Map<String, Long> told = new ConcurrentHashMap<>();
                watch.watch().onView(view -> {
                    if (madeSafe(view) && tellOnce(told, view)) {
                        ticker.after(AFTER_SAFE_NANOS, () -> tell(watch, view, client, ticker, screen));
                    }
                });
                screen.show(watch);
                UntilStopped.await(watch, rig);
            }
        }
        return ExitCode.DONE.number();
    }

    private static boolean madeSafe(PrinterView view) {
        return view.trip().isPresent()
                && !view.trip().get().resumed()
                && view.trip().get().outcome() == PrinterView.Outcome.SAFE;
    }

    private static boolean tellOnce(Map<String, Long> told, PrinterView view) {
        long trip = view.trip().orElseThrow().trippedAt();
        Long before = told.put(view.printer(), trip);
        return before == null || before != trip;
    }

    /** The measured times, from the rig's truth, beside the predicted ones. */
    private static void tell(ShopWatch watch, PrinterView view, RigClient client, SystemTicker ticker, Screen screen) {
        try {
            var truth = client.get("/" + view.printer() + "/truth");
            if (truth.has("since_failure_ms")) {
                screen.say(Story.of(
                                java.util.Objects.requireNonNull(
                                        watch.printers().get(view.printer())),
                                view.trip().orElseThrow(),
                                truth,
                                ticker.nanos())
                        .text());
            }
        } catch (ColdwardError e) {
            screen.say("The rig's truth is not to be had: " + e.getMessage());
        }
    }

    private static Path usualFolder(Map<String, String> environment, String home) {
        String state = environment.getOrDefault("XDG_STATE_HOME", "");
        Path base = state.isBlank() ? Path.of(home, ".local", "state") : Path.of(state);
        return base.resolve("coldward").resolve("brook-lane");
    }
}
