package coldward.app.command;

import coldward.app.shop.ControlSocket;
import coldward.app.shop.DrillReport;
import coldward.app.shop.LastDrill;
import coldward.app.shop.RigClient;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.model.shop.Shop;
import coldward.quantity.CannotRun;
import coldward.quantity.DataError;
import coldward.sheet.Shops;
import coldward.store.JournalReading;
import coldward.watch.Journal;
import coldward.watch.PrinterView;
import coldward.watch.drill.DrillKind;
import coldward.watch.drill.DrillResult;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward drill SHOP PRINTER --how ...}. */
@Command(
        name = "drill",
        mixinStandardHelpOptions = true,
        description = {
            "Let a fan fail on purpose and measure how long the running watch takes to make the machine safe.",
            "pull: its plug; stall: the blade is held; cut-signal: only its signal wire; low-supply: it turns slowly."
                    + " The times are held against the model's and kept in the journal. Ends with 1 if not passed.",
            "CAUTION: hot parts, a moving blade, a live supply. Use scrap filament: a drill that fails softens it."
        },
        footer = {"", "Examples:", "  coldward drill shop.yaml heron --how pull", "  coldward drill list shop.yaml"})
public final class DrillCommand implements Callable<Integer> {

    private static final long LOOK_MILLIS = 200;
    private static final int MOST_LOOKS = 1500;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHOP", description = "the shop file")
    private @Nullable Path shopFile;

    @Parameters(index = "1", arity = "0..1", paramLabel = "PRINTER", description = "the printer's name")
    private @Nullable String printer;

    @Option(names = "--how", paramLabel = "HOW", description = "pull, stall, cut-signal or low-supply")
    private @Nullable String how;

    @Option(
            names = "--lowered",
            paramLabel = "SHARE",
            defaultValue = "0.5",
            description =
                    "of low-supply: about what share of its speed the fan will turn at (default ${DEFAULT-VALUE})")
    private String lowered = "0.5";

    @Option(names = "--although-working", description = "a running job may be spoiled")
    private boolean althoughWorking;

    @Option(names = "--rig", description = "the shop is served by coldward rig: fail the simulated fan, ask nobody")
    private boolean onRig;

    @Option(names = "--json", description = "print the result as JSON (schema 'drill')")
    private boolean json;

    public DrillCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (shopFile == null || printer == null || how == null) {
            throw usage("missing: SHOP, PRINTER and --how, or list");
        }
        DrillKind kind = DrillKind.of(how)
                .orElseThrow(() -> usage("--how is '" + how + "' but must be one of "
                        + Arrays.stream(DrillKind.values()).map(DrillKind::word).collect(Collectors.joining(", "))));
        double share = Arguments.share(Arguments.line(spec, this), "--lowered", lowered);
        if (!(share >= 0 && share < 1)) {
            throw usage("--lowered is " + lowered + " but must be 0 or above and below 1");
        }
        Shop shop = Shops.read(shopFile);
        return drill(shop, JournalCommand.state(shopFile, shop), printer, kind, share);
    }

    private ParameterException usage(String what) {
        return new ParameterException(Arguments.line(spec, this), what);
    }

    private int drill(Shop shop, Path state, String name, DrillKind kind, double share) {
        Optional<String> rig = onRig ? Optional.of("http://localhost:" + RigCommand.port(shop)) : Optional.empty();
        ObjectNode wish = request("drill-begin", name)
                .put("how", kind.word())
                .put("lowered", share)
                .put("although_working", althoughWorking);
        JsonNode ready = asked(state, name, wish);
        if (ready.has("refused")) {
            throw new CannotRun(ready.path("refused").asString());
        }
        try {
            fail(state, name, kind, share, ready, rig);
        } catch (RuntimeException e) {
            ControlSocket.ask(state, request("drill-give-up", name));
            throw e;
        }
        DrillResult result = follow(state, name);
        rig.ifPresent(url -> mend(url, name));
        if (json) {
            ObjectNode node = Json.object().put("printer", name);
            node.setAll(DrillReport.json(result));
            terminal.line(Json.text(node));
        } else {
            DrillReport.text(name, result).forEach(line -> terminal.folded(line, "  "));
            terminal.folded(next(name, kind, result), "  ");
        }
        return (result.verdict().passed() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private static ObjectNode request(String what, String printer) {
        return Json.object().put("do", what).put("printer", printer);
    }

    private static JsonNode asked(Path state, String printer, ObjectNode request) {
        JsonNode answer = ControlSocket.ask(state, request);
        if (answer.has("error")) {
            throw new DataError("drill", 0, printer, answer.path("error").asString("refused"));
        }
        return answer;
    }

    private void fail(Path state, String name, DrillKind kind, double share, JsonNode ready, Optional<String> rig) {
        say("%s's fan turns at %.0f rpm. %s"
                .formatted(name, ready.path("speed_rpm").asDouble(), expected(ready)));
        if (rig.isPresent()) {
            try (RigClient client = new RigClient(rig.get())) {
                client.post("/" + name + "/fail/" + failure(kind), body(kind, share));
            }
            asked(state, name, request("drill-failed", name).put("by", "rig"));
            return;
        }
        say("CAUTION: the nozzle is hot and stays hot for minutes; a turning blade cuts; pull plugs and wires by their"
                + " housings, touch no live contact, and let nothing metal fall into the machine.");
        say("Both hands: one at the fan, one at this key.");
        Prompt.enter(terminal, "Now " + kind.doIt() + ", and press Enter in the same moment.");
        JsonNode told = asked(state, name, request("drill-failed", name).put("by", "key"));
        if (!told.path("told").asBoolean(false)) {
            throw new CannotRun("the watch no longer waits for this drill; begin it again");
        }
    }

    private static String expected(JsonNode ready) {
        JsonNode predicted = ready.path("predicted");
        return predicted.isObject()
                ? "Expected: safe %.1f to %.1f s after the failure."
                        .formatted(
                                predicted.path("safe_p1_s").asDouble(),
                                predicted.path("safe_p99_s").asDouble())
                : "What is expected depends on the speed it falls to.";
    }

    private static String failure(DrillKind kind) {
        return switch (kind) {
            case PULL -> "stop";
            case STALL, LOW_SUPPLY -> "slow";
            case CUT_SIGNAL -> "cut-signal";
        };
    }

    private static String body(DrillKind kind, double share) {
        return switch (kind) {
            case PULL, CUT_SIGNAL -> "";
            case STALL -> "{\"fraction\": 0}";
            case LOW_SUPPLY -> "{\"fraction\": " + share + "}";
        };
    }

    private static void mend(String rig, String name) {
        try (RigClient client = new RigClient(rig)) {
            client.post("/" + name + "/mend", "");
        }
    }

    private DrillResult follow(Path state, String name) {
        String last = "";
        for (int i = 0; i < MOST_LOOKS; i++) {
            JsonNode look = asked(state, name, request("drill-look", name));
            if (look.has("result")) {
                clearLine();
                SortedMap<String, Object> facts = new TreeMap<>();
                look.path("result")
                        .forEachEntry((key, value) ->
                                facts.put(key, value.isNumber() ? (Object) value.asLong() : value.asString()));
                return DrillResult.of(new Journal.Entry(0, name, DrillResult.ENTRY, facts))
                        .orElseThrow(() -> new CannotRun("the watch told a result that this version cannot read"));
            }
            String now = progress(look);
            if (terminal.interactive()) {
                terminal.err()
                        .print("\r%-60s"
                                .formatted("%5.1f s  %5.0f rpm  %s"
                                        .formatted(
                                                look.path("since_failure_s").asDouble(),
                                                look.path("speed_rpm").asDouble(),
                                                now)));
                terminal.err().flush();
            } else if (!now.equals(last)) {
                say("%5.1f s  %s".formatted(look.path("since_failure_s").asDouble(), now));
            }
            last = now;
            pause();
        }
        throw new CannotRun("the drill does not come to an end; see coldward journal read");
    }

    private static String progress(JsonNode look) {
        StringBuilder text = new StringBuilder(look.path("fan").asString());
        look.path("actions")
                .forEachEntry((action, how) ->
                        text.append(", ").append(action).append(' ').append(how.asString()));
        return text.toString();
    }

    private static void pause() {
        try {
            Thread.sleep(LOOK_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("interrupted during the drill; the watch goes on with it", e);
        }
    }

    private void clearLine() {
        if (terminal.interactive()) {
            terminal.err().print("\r" + " ".repeat(60) + "\r");
            terminal.err().flush();
        }
    }

    /** What is not the result goes to standard error where a program reads the result. */
    private void say(String text) {
        if (json) {
            terminal.fold(text, "  ").forEach(terminal.err()::println);
        } else {
            terminal.folded(text, "  ");
        }
    }

    private String next(String name, DrillKind kind, DrillResult result) {
        String restore = onRig
                ? "The simulated fan is mended again"
                : switch (kind) {
                    case PULL -> "Plug the fan in again";
                    case STALL -> "Let go of the blade and see that it is whole";
                    case CUT_SIGNAL -> "Join the signal wire again";
                    case LOW_SUPPLY -> "Set the supply back to its voltage";
                };
        String release = result.trip().isPresent()
                ? ", see that the fan turns, then: coldward release " + shopFile + " " + name
                        + " --name YOU --reason 'drill, " + kind.word() + "'"
                : "";
        return "Next: " + restore + release + ".";
    }

    /** {@code coldward drill list}. */
    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            description = {
                "The record of drills, newest last, and which printers are due.",
                "Works while a watch is running. Ends with 1 if a drill is overdue or the last one was not passed."
            },
            footer = {"", "Example:", "  coldward drill list shop.yaml"})
    public static final class Kept implements Callable<Integer> {

        private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm");
        private static final double SECONDS_PER_DAY = 86_400;

        private final Terminal terminal;

        @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file")
        private Path shopFile = Path.of("");

        @Option(names = "--json", description = "print the record as JSON (schema 'drill-list')")
        private boolean json;

        public Kept(Terminal terminal) {
            this.terminal = terminal;
        }

        private record Row(Journal.Entry entry, DrillResult result) {}

        @Override
        public Integer call() {
            Shop shop = Shops.read(shopFile);
            JournalReading journal = JournalReading.open(JournalCommand.state(shopFile, shop));
            long now = System.currentTimeMillis();
            List<Row> rows = new ArrayList<>();
            ObjectNode node = Json.object();
            List<String> due = new ArrayList<>();
            node.putArray("printers");
            for (Shop.Printer printer : shop.printers()) {
                List<Row> own = journal.of(printer.name(), DrillResult.ENTRY).stream()
                        .flatMap(k -> DrillResult.of(k.entry()).map(r -> new Row(k.entry(), r)).stream())
                        .toList();
                rows.addAll(own);
                Optional<PrinterView.LastDrill> last = own.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new PrinterView.LastDrill(
                                own.getLast().entry().wallMillis(),
                                own.getLast().result().verdict().passed()));
                boolean overdue = LastDrill.overdue(last, printer.rules(), now);
                Set<DrillKind> never = EnumSet.allOf(DrillKind.class);
                own.stream()
                        .filter(r -> r.result().verdict().passed())
                        .forEach(r -> never.remove(r.result().kind()));
                ObjectNode one = node.withArray("printers").addObject().put("printer", printer.name());
                last.ifPresent(l -> one.put("days_since", l.days(now)).put("passed", l.passed()));
                Json.put(one, "drill_every_days", printer.rules().drillEvery() / SECONDS_PER_DAY);
                one.put("overdue", overdue);
                one.putArray("never_passed").addAll(words(never));
                due.add("%s: last drill %s%s"
                        .formatted(
                                printer.name(),
                                LastDrill.words(last, printer.rules(), now),
                                never.isEmpty()
                                        ? ""
                                        : "; never passed: "
                                                + never.stream()
                                                        .map(DrillKind::word)
                                                        .collect(Collectors.joining(", "))));
                if (overdue) {
                    node.put("due", true);
                }
            }
            boolean anyDue = node.path("due").asBoolean(false);
            node.put("due", anyDue);
            rows.sort(java.util.Comparator.comparingLong(r -> r.entry().wallMillis()));
            print(rows, node, due);
            return (anyDue ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
        }

        private static List<JsonNode> words(Set<DrillKind> kinds) {
            return kinds.stream()
                    .map(k -> (JsonNode) tools.jackson.databind.node.JsonNodeFactory.instance.stringNode(k.word()))
                    .toList();
        }

        private void print(List<Row> rows, ObjectNode node, List<String> due) {
            if (json) {
                node.putArray("drills");
                for (Row row : rows) {
                    ObjectNode one = node.withArray("drills").addObject();
                    one.put("at_ms", row.entry().wallMillis());
                    one.put("printer", row.entry().printer());
                    one.setAll(DrillReport.json(row.result()));
                }
                terminal.line(Json.text(node));
                return;
            }
            if (rows.isEmpty()) {
                terminal.line("No drill is kept yet. Begin with: coldward drill " + shopFile + " PRINTER --how pull");
            } else {
                List<List<String>> cells = rows.stream().map(Kept::cells).toList();
                terminal.out()
                        .print(new TextTable(
                                        List.of(
                                                TextTable.Column.words("when"),
                                                TextTable.Column.words("printer"),
                                                TextTable.Column.words("how"),
                                                TextTable.Column.numbers("trip s"),
                                                TextTable.Column.numbers("safe s"),
                                                TextTable.Column.words("predicted s"),
                                                TextTable.Column.words("result")),
                                        cells)
                                .text(new TextOptions(terminal.width(), !terminal.unicode(), false)));
                terminal.line();
            }
            due.forEach(line -> terminal.folded(line, "  "));
        }

        private static List<String> cells(Row row) {
            DrillResult result = row.result();
            return List.of(
                    TIME.format(Instant.ofEpochMilli(row.entry().wallMillis()).atZone(ZoneId.systemDefault())),
                    row.entry().printer(),
                    result.kind().word(),
                    result.trip().stream()
                            .mapToObj("%.2f"::formatted)
                            .findFirst()
                            .orElse(""),
                    result.safe().stream()
                            .mapToObj("%.2f"::formatted)
                            .findFirst()
                            .orElse(""),
                    result.forecast()
                            .map(f -> "%.1f to %.1f"
                                    .formatted(f.safe().low(), f.safe().high()))
                            .orElse(""),
                    (result.verdict().passed() ? "passed, " : "NOT passed, ")
                            + result.verdict().word());
        }
    }
}
