package coldward.app.command;

import coldward.app.shop.ControlSocket;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.shop.Shop;
import coldward.quantity.CannotRun;
import coldward.sheet.Shops;
import coldward.store.JournalReading;
import coldward.store.SqliteJournal;
import coldward.store.StateFolder;
import coldward.watch.Journal;
import coldward.watch.fitted.FittedFan;
import coldward.watch.fitted.FittedFan.Life;
import coldward.watch.fitted.FittedFan.ThirdWire;
import coldward.watch.fitted.FittedFan.Why;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward service SHOP PRINTER --fitted-fan LABEL}. */
@Command(
        name = "service",
        mixinStandardHelpOptions = true,
        description = {
            "A fan was changed: end one fan's life, begin the next.",
            "History and baseline belong to the fitted fan, so a new baseline is wanted. Warns where speed, pulses per turn"
                    + " or the kind of third wire differ from the fan before or from the sheet. Works with and without a"
                    + " running watch."
        },
        footer = {
            "",
            "Examples:",
            "  coldward service shop.yaml heron --fitted-fan F-12 --lot 2611 --why worn",
            "  coldward service list shop.yaml"
        })
public final class ServiceCommand implements Callable<Integer> {

    private static final long WRITTEN_WITHIN = 10;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHOP", description = "the shop file")
    private @Nullable Path shopFile;

    @Parameters(index = "1", arity = "0..1", paramLabel = "PRINTER", description = "the printer's name")
    private @Nullable String printer;

    @Option(names = "--fitted-fan", paramLabel = "LABEL", description = "what the new fan is called")
    private @Nullable String label;

    @Option(names = "--lot", paramLabel = "LOT", description = "its lot, so that a bad one shows")
    private @Nullable String lot;

    @Option(names = "--why", paramLabel = "WHY", description = "the old one was worn, jammed, noise or upgrade")
    private @Nullable String why;

    @Option(names = "--speed", paramLabel = "RPM", description = "its rated speed (default: the sheet's)")
    private @Nullable String speed;

    @Option(names = "--pulses", paramLabel = "N", description = "its pulses per turn (default: the sheet's)")
    private @Nullable Integer pulses;

    @Option(
            names = "--third-wire",
            paramLabel = "KIND",
            description = "pulses, locked, low-speed or none (default: what the sheet reads)")
    private @Nullable String thirdWire;

    @Option(names = "--json", description = "print the result as JSON (schema 'service')")
    private boolean json;

    public ServiceCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (shopFile == null || printer == null || label == null) {
            throw usage("missing: SHOP, PRINTER and --fitted-fan, or list");
        }
        Shop shop = Shops.read(shopFile);
        FittedFan sheet = ofSheet(AfterCommand.printer(shop, printer).build());
        FittedFan fan = new FittedFan(
                label,
                Optional.ofNullable(lot),
                Optional.ofNullable(why).map(w -> word(w, "--why", Why.values(), Why::word)),
                speed == null ? sheet.speed() : Arguments.rpm(Arguments.line(spec, this), "--speed", speed),
                pulses == null ? sheet.pulsesPerTurn() : pulses,
                thirdWire == null
                        ? sheet.thirdWire()
                        : word(thirdWire, "--third-wire", ThirdWire.values(), ThirdWire::word));
        Path state = JournalCommand.state(shopFile, shop);
        List<Life> lives = lives(state, printer);
        Optional<FittedFan> before =
                lives.isEmpty() ? Optional.empty() : Optional.of(lives.getLast().fan());
        List<String> warnings = new ArrayList<>();
        before.ifPresent(b -> warnings.addAll(fan.differences(b, "the fan before")));
        for (String difference : fan.differences(sheet, "the sheet's fan")) {
            warnings.add(difference);
        }
        SortedMap<String, Object> facts = fan.facts(before.map(FittedFan::label));
        keep(state, printer, facts);
        tell(printer, fan, before, warnings);
        return ExitCode.DONE.number();
    }

    private ParameterException usage(String what) {
        return new ParameterException(Arguments.line(spec, this), what);
    }

    private <T> T word(String given, String option, T[] all, Function<T, String> word) {
        return Arrays.stream(all)
                .filter(each -> word.apply(each).equals(given))
                .findFirst()
                .orElseThrow(() -> usage(option + " is '" + given + "' but must be one of "
                        + Arrays.stream(all).map(word).collect(Collectors.joining(", "))));
    }

    private static FittedFan ofSheet(Build build) {
        boolean reads = build.reading() instanceof Reading.Tachometer;
        return new FittedFan(
                "the sheet's",
                Optional.empty(),
                Optional.empty(),
                build.hotEnd().fan().ratedSpeed(),
                build.reading() instanceof Reading.Tachometer t ? t.pulsesPerTurn() : 0,
                reads ? ThirdWire.PULSES : ThirdWire.NONE);
    }

    static List<Life> lives(Path state, String printer) {
        return Files.isDirectory(state)
                ? FittedFan.lives(JournalReading.open(state).of(printer, FittedFan.ENTRY))
                : List.of();
    }

    private static void keep(Path state, String printer, SortedMap<String, Object> facts) {
        ObjectNode request = Json.object().put("do", "service").put("printer", printer);
        ObjectNode node = request.putObject("facts");
        facts.forEach((name, value) -> {
            if (value instanceof Long number) {
                node.put(name, number);
            } else {
                node.put(name, value.toString());
            }
        });
        try {
            if (ControlSocket.ask(state, request).path("kept").asBoolean(false)) {
                return;
            }
            throw new CannotRun("the running watch did not keep the service; it may be of another version");
        } catch (CannotRun e) {
            if (ControlSocket.runs(state)) {
                throw e;
            }
        }
        // no watch runs, so the journal is ours to write
        try (StateFolder folder = StateFolder.open(state);
                SqliteJournal journal = SqliteJournal.open(folder)) {
            journal.append(new Journal.Entry(System.currentTimeMillis(), printer, FittedFan.ENTRY, facts))
                    .toCompletableFuture()
                    .get(WRITTEN_WITHIN, TimeUnit.SECONDS);
        } catch (ExecutionException | TimeoutException e) {
            throw new CannotRun("the journal on " + state + " could not be written: " + e.getMessage(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("interrupted while writing the journal", e);
        }
    }

    private void tell(String name, FittedFan fan, Optional<FittedFan> before, List<String> warnings) {
        if (json) {
            ObjectNode node = Json.object().put("printer", name);
            put(node, fan);
            before.ifPresent(b -> node.put("before", b.label()));
            warnings.forEach(node.putArray("warnings")::add);
            node.put("new_baseline_wanted", true);
            terminal.line(Json.text(node));
            return;
        }
        terminal.folded(
                "%s has fan %s from now on%s."
                        .formatted(
                                name,
                                fan.label(),
                                before.map(b -> "; fan " + b.label() + " is out")
                                        .orElse("")),
                "  ");
        warnings.forEach(w -> terminal.folded("CAUTION: " + w + ".", "  "));
        terminal.folded(
                "Next: take a new baseline, since it belongs to one fan; feel that the air goes through the fins; then drill: "
                        + "coldward drill " + shopFile + " " + name + " --how pull",
                "  ");
    }

    private static void put(ObjectNode node, FittedFan fan) {
        node.put("fan", fan.label());
        fan.lot().ifPresent(l -> node.put("lot", l));
        fan.why().ifPresent(w -> node.put("why", w.word()));
        Json.put(node, "speed_rpm", fan.speed());
        node.put("pulses_per_turn", fan.pulsesPerTurn());
        node.put("third_wire", fan.thirdWire().word());
    }

    /** {@code coldward service list}. */
    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            description = "The fans of every printer, one life after another. Works while a watch is running.",
            footer = {"", "Example:", "  coldward service list shop.yaml"})
    public static final class Lives implements Callable<Integer> {

        private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("yyyy-MM-dd");

        private final Terminal terminal;

        @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file")
        private Path shopFile = Path.of("");

        @Option(names = "--json", description = "print the lives as JSON (schema 'service-list')")
        private boolean json;

        public Lives(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            Shop shop = Shops.read(shopFile);
            Path state = JournalCommand.state(shopFile, shop);
            ObjectNode node = Json.object();
            node.putArray("lives");
            List<List<String>> rows = new ArrayList<>();
            for (Shop.Printer each : shop.printers()) {
                for (Life life : lives(state, each.name())) {
                    ObjectNode one = node.withArray("lives").addObject().put("printer", each.name());
                    put(one, life.fan());
                    one.put("from_ms", life.from());
                    life.until().ifPresent(end -> {
                        one.put("until_ms", end.at());
                        end.why().ifPresent(w -> one.put("ended_by", w.word()));
                    });
                    rows.add(List.of(
                            each.name(),
                            life.fan().label(),
                            life.fan().lot().orElse(""),
                            day(life.from()),
                            life.until().map(end -> day(end.at())).orElse("fitted"),
                            life.until()
                                    .flatMap(FittedFan.End::why)
                                    .map(Why::word)
                                    .orElse(""),
                            "%.0f".formatted(life.fan().speed())));
                }
            }
            if (json) {
                terminal.line(Json.text(node));
            } else if (rows.isEmpty()) {
                terminal.line("No fan has been entered yet. Begin with: coldward service " + shopFile
                        + " PRINTER --fitted-fan LABEL");
            } else {
                terminal.out()
                        .print(new TextTable(
                                        List.of(
                                                TextTable.Column.words("printer"),
                                                TextTable.Column.words("fan"),
                                                TextTable.Column.words("lot"),
                                                TextTable.Column.words("from"),
                                                TextTable.Column.words("until"),
                                                TextTable.Column.words("ended by"),
                                                TextTable.Column.numbers("rpm")),
                                        rows)
                                .text(new TextOptions(terminal.width(), !terminal.unicode(), false)));
                terminal.out().flush();
            }
            return ExitCode.DONE.number();
        }

        private static String day(long millis) {
            return DAY.format(Instant.ofEpochMilli(millis).atZone(ZoneId.systemDefault()));
        }
    }
}
