package coldward.app.command;

import coldward.app.shop.Screen;
import coldward.app.shop.ShopWatch;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Terminal;
import coldward.app.time.SystemTicker;
import coldward.model.shop.Shop;
import coldward.sheet.Shops;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code coldward watch SHOP}. */
@Command(
        name = "watch",
        mixinStandardHelpOptions = true,
        description = {
            "Watch every printer of a shop file until stopped.",
            "It sees a fan fail, makes the machine safe, proves it, and keeps the record.",
            "CAUTION: a fan trip protects the process; it is not fire protection and no certified safety device."
        },
        footer = {"", "Example:", "  coldward watch shop.yaml"})
public final class WatchCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file")
    private Path shopFile = Path.of("");

    @Option(
            names = "--json",
            description = "one JSON object a line for every change of state and notice (schema 'watch')")
    private boolean json;

    public WatchCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Shop shop = Shops.read(shopFile);
        try (SystemTicker ticker = new SystemTicker()) {
            Screen screen = new Screen(
                    terminal,
                    ticker,
                    json,
                    shop.name() + ", watched. A fan trip is not fire protection. Stop with Ctrl-C.");
            try (ShopWatch watch = new ShopWatch(shop, JournalCommand.state(shopFile, shop), screen, ticker)) {
                screen.show(watch);
                UntilStopped.await(watch);
            }
        }
        return ExitCode.DONE.number();
    }
}
