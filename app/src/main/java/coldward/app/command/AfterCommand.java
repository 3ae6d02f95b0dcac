package coldward.app.command;

import coldward.app.shop.RecordedRequest;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.build.Build;
import coldward.model.shop.Shop;
import coldward.quantity.DataError;
import coldward.sheet.Shops;
import coldward.store.JournalReading;
import coldward.watch.after.After;
import coldward.watch.after.TripRecord;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward after SHOP PRINTER}. */
@Command(
        name = "after",
        mixinStandardHelpOptions = true,
        description = {
            "After a trip: how far the filament softened, the likeliest cause, and the one thing to do.",
            "What the watch recorded goes through the heat model again; without a record, the journal's times do."
                    + " Ends with 1 unless the job may simply go on."
        },
        footer = {"", "Example:", "  coldward after shop.yaml heron"})
public final class AfterCommand implements Callable<Integer> {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss");

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file")
    private Path shopFile = Path.of("");

    @Parameters(index = "1", paramLabel = "PRINTER", description = "the printer's name")
    private String printer = "";

    @Option(names = "--json", description = "print the result as JSON (schema 'after')")
    private boolean json;

    public AfterCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Shop shop = Shops.read(shopFile);
        Path state = JournalCommand.state(shopFile, shop);
        Build build = printer(shop, printer).build();
        TripRecord trip = TripRecord.last(
                        printer,
                        build,
                        JournalReading.open(state).of(printer),
                        RecordedRequest.from(state),
                        System.currentTimeMillis())
                .orElseThrow(() -> new DataError(
                        shopFile.toString(), 0, printer, "it has never tripped, so there is nothing to look back at"));
        After after = trip.after(build);
        if (json) {
            terminal.line(Json.text(json(trip, after)));
        } else {
            text(trip, after);
        }
        return (after.instruction() == After.Instruction.RESUME ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    /** The shop's printer of a name. */
    static Shop.Printer printer(Shop shop, String name) {
        return shop.printers().stream()
                .filter(p -> p.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new DataError(
                        shop.name(),
                        0,
                        "",
                        "there is no printer " + name + " in this shop; it has "
                                + shop.printers().stream()
                                        .map(Shop.Printer::name)
                                        .collect(Collectors.joining(", "))));
    }

    private ObjectNode json(TripRecord trip, After after) {
        ObjectNode node = Json.object();
        node.put("printer", printer);
        node.put("tripped_at_ms", trip.wallMillis());
        node.put("released", trip.released());
        node.put("from", trip.recorded() ? "recorded" : "journal");
        Json.put(node, "replayed_s", after.replayed());
        node.put("cause", after.likeliest().cause().word());
        node.put("because", after.likeliest().because());
        Json.put(node, "deepest_mm", 1e3 * after.deepest());
        Json.put(node, "limit_mm", 1e3 * after.limit());
        Json.put(node, "over_limit_s", after.overLimit());
        node.put("soft_now", after.nowDepth() > after.limit());
        Json.put(node, "now_mm", 1e3 * after.nowDepth());
        Json.put(node, "block_C", Json.celsius(after.nowBlock()));
        node.put("instruction", after.instruction().word());
        node.put("next", after.instruction().words());
        return node;
    }

    private void text(TripRecord trip, After after) {
        terminal.folded(
                "%s tripped at %s%s."
                        .formatted(
                                printer,
                                TIME.format(
                                        Instant.ofEpochMilli(trip.wallMillis()).atZone(ZoneId.systemDefault())),
                                trip.released() ? " and was released since" : ""),
                "  ");
        terminal.folded(
                trip.recorded()
                        ? "The recorded speed and temperatures of %.0f s after it went through the heat model."
                                .formatted(after.replayed())
                        : "Nothing was recorded around it: the journal's times went through the heat model, as if a job"
                                + " had been feeding.",
                "  ");
        terminal.line();
        terminal.folded(
                "Likeliest cause: %s, because %s."
                        .formatted(
                                after.likeliest().cause().word(),
                                after.likeliest().because()),
                "  ");
        terminal.folded(
                "Deepest softening: %.2f mm; the limit is %.1f mm%s."
                        .formatted(
                                1e3 * after.deepest(),
                                1e3 * after.limit(),
                                after.overLimit() > 0
                                        ? ", passed for %.0f s".formatted(after.overLimit())
                                        : ", never passed"),
                "  ");
        terminal.folded(
                "At the end: soft %.2f mm up, block at %.0f degC."
                        .formatted(1e3 * after.nowDepth(), Json.celsius(after.nowBlock())),
                "  ");
        terminal.line();
        terminal.folded("Next: " + after.instruction().words() + ".", "  ");
    }
}
