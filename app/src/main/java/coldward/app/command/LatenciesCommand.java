package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.shop.MeasuredLatencies;
import coldward.app.shop.MeasuredLatencies.Row;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.model.build.Build;
import coldward.model.shop.Shop;
import coldward.model.trip.Margin;
import coldward.model.verdict.Assessment;
import coldward.quantity.DataError;
import coldward.sheet.SheetPatch;
import coldward.sheet.Shops;
import coldward.store.JournalReading;
import coldward.watch.Latencies;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward latencies SHOP [PRINTER]}. */
@Command(
        name = "latencies",
        mixinStandardHelpOptions = true,
        description = {
            "What each step of the responses has really taken, beside what the sheets say.",
            "Read from the journal, running watch or not. Read-backs are seen only when they are polled, so measured times"
                    + " hold up to one poll too much. Printers of one sheet count together. Ends with 1 if a sheet promises"
                    + " less than was needed."
        },
        footer = {"", "Example:", "  coldward latencies shop.yaml heron --write"})
public final class LatenciesCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file")
    private Path file = Path.of("");

    @Parameters(index = "1", arity = "0..1", paramLabel = "PRINTER", description = "only this printer and its sheet")
    private String only = "";

    @Option(names = "--write", description = "write the worst measured times, rounded up, to the sheets")
    private boolean write;

    @Option(names = "--json", description = "print the result as JSON (schema 'latencies')")
    private boolean json;

    public LatenciesCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    /** A sheet, its printers, and what they took together. */
    private record Sheet(String sheetFile, List<String> printers, MeasuredLatencies measured) {}

    @Override
    public Integer call() {
        Shop shop = Shops.read(file);
        Map<String, List<Shop.Printer>> bySheet = shop.printers().stream()
                .collect(Collectors.groupingBy(Shop.Printer::sheetFile, LinkedHashMap::new, Collectors.toList()));
        if (!only.isEmpty()) {
            bySheet.values()
                    .removeIf(all -> all.stream().noneMatch(p -> p.name().equals(only)));
            if (bySheet.isEmpty()) {
                throw new DataError(file.toString(), 0, "printers", "there is no printer " + only + " in this shop");
            }
        }
        JournalReading journal = JournalReading.open(JournalCommand.state(file, shop));
        Map<Build, Assessment> known = new HashMap<>();
        List<Sheet> sheets = new ArrayList<>();
        bySheet.forEach((sheetFile, printers) -> {
            Latencies measured = Latencies.together(printers.stream()
                    .map(p -> Latencies.of(journal.of(p.name(), Latencies.kinds())))
                    .toList());
            Shop.Printer first = printers.getFirst();
            sheets.add(new Sheet(
                    sheetFile,
                    printers.stream().map(Shop.Printer::name).toList(),
                    MeasuredLatencies.of(first, known.computeIfAbsent(first.build(), Assessment::of), measured)));
        });
        if (write) {
            sheets.forEach(LatenciesCommand::write);
        }
        if (json) {
            terminal.line(Json.text(json(sheets)));
        } else {
            sheets.forEach(this::print);
        }
        boolean optimistic =
                sheets.stream().flatMap(s -> s.measured().rows().stream()).anyMatch(Row::optimistic);
        return (optimistic && !write ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
    }

    private static void write(Sheet sheet) {
        Map<String, String> values = new LinkedHashMap<>();
        for (Row row : sheet.measured().rows()) {
            if (differs(row)) {
                values.put(row.key(), seconds(row.offered()));
            }
        }
        if (!values.isEmpty()) {
            SheetPatch.apply(Path.of(sheet.sheetFile()), values);
        }
    }

    private static boolean differs(Row row) {
        return Math.abs(row.offered() - row.sheet()) > 1e-6;
    }

    private static String seconds(double value) {
        return "%.2f".formatted(value).replaceFirst("0$", "") + " s";
    }

    private void print(Sheet sheet) {
        MeasuredLatencies measured = sheet.measured();
        terminal.line(String.join(", ", sheet.printers()) + ", " + sheet.sheetFile());
        if (measured.rows().isEmpty()) {
            terminal.folded("  no response in the journal yet, so nothing is measured; a drill makes one", "  ");
            terminal.line();
            return;
        }
        List<List<String>> rows = measured.rows().stream()
                .map(r -> List.of(
                        r.what(),
                        "%.2f s".formatted(r.median()),
                        "%.2f s".formatted(r.worst()),
                        Integer.toString(r.count()),
                        seconds(r.sheet()),
                        r.optimistic() ? "the sheet promises too much" : ""))
                .toList();
        terminal.out()
                .print(new TextTable(
                                List.of(
                                        TextTable.Column.words("step"),
                                        TextTable.Column.numbers("median"),
                                        TextTable.Column.numbers("worst"),
                                        TextTable.Column.numbers("times"),
                                        TextTable.Column.numbers("sheet"),
                                        TextTable.Column.words("")),
                                rows)
                        .text(new TextOptions(terminal.width(), !terminal.unicode(), false)));
        terminal.folded(
                "Measured over %d response%s. Margin: %s by the sheet, %s by the worst measured times."
                        .formatted(
                                measured.responses(),
                                measured.responses() == 1 ? "" : "s",
                                words(measured.now()),
                                words(measured.then())),
                "");
        for (Row row : measured.rows()) {
            if (differs(row)) {
                terminal.line("  %s: %s -> %s".formatted(row.key(), seconds(row.sheet()), seconds(row.offered())));
            }
        }
        terminal.folded(
                write
                        ? "Written to " + sheet.sheetFile() + "; what else stands in it is as it was."
                        : "The sheet is as it was; --write puts these values into it.",
                "");
        terminal.line();
    }

    private static String words(Optional<Margin> margin) {
        return margin.map(Margin::words).orElse("nothing notices");
    }

    private ObjectNode json(List<Sheet> sheets) {
        ObjectNode node = Json.object();
        ArrayNode all = node.putArray("sheets");
        for (Sheet sheet : sheets) {
            ObjectNode one = all.addObject();
            one.put("sheet", sheet.sheetFile());
            sheet.printers().forEach(one.putArray("printers")::add);
            one.put("responses", sheet.measured().responses());
            ArrayNode rows = one.putArray("latencies");
            for (Row row : sheet.measured().rows()) {
                ObjectNode each = rows.addObject();
                each.put("step", row.what());
                each.put("key", row.key());
                put(each, "median_s", row.median());
                put(each, "worst_s", row.worst());
                each.put("times", row.count());
                put(each, "sheet_s", row.sheet());
                put(each, "offered_s", row.offered());
                each.put("too_optimistic", row.optimistic());
            }
            sheet.measured().now().ifPresent(m -> one.put("margin_by_sheet", m.words()));
            sheet.measured().then().ifPresent(m -> one.put("margin_by_measured", m.words()));
            one.put("written", write && !sheet.measured().rows().isEmpty());
        }
        return node;
    }
}
