package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.shop.Shop;
import coldward.sheet.Shops;
import coldward.store.JournalReading;
import coldward.store.Proof;
import coldward.watch.Journal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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

/** {@code coldward journal}: its subcommands do the work. */
@Command(
        name = "journal",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "prove | read",
        description = "The append-only, hash-chained record of everything that happened.",
        footer = {"", "Example:", "  coldward journal prove shop.yaml"})
public final class JournalCommand implements Callable<Integer> {

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(Arguments.line(spec, this), "missing: one of prove, read");
    }

    /** The journal of a shop file, or of a state folder given directly. */
    static JournalReading open(Path shopOrFolder) {
        return JournalReading.open(Files.isDirectory(shopOrFolder) ? shopOrFolder : state(shopOrFolder));
    }

    /** The state folder that a shop file names, against the file's own folder. */
    static Path state(Path shopFile) {
        return state(shopFile, Shops.read(shopFile));
    }

    /** As {@link #state(Path)}, with the shop already read. */
    static Path state(Path shopFile, Shop shop) {
        Path folder = shopFile.toAbsolutePath().getParent();
        return folder == null
                ? Path.of(shop.state())
                : folder.resolve(shop.state()).normalize();
    }

    /** {@code coldward journal prove}. */
    @Command(
            name = "prove",
            mixinStandardHelpOptions = true,
            description = {
                "Go through the whole chain: nothing changed, nothing missing. Ends with 1 if something is.",
                "Works while a watch is running. A head hash noted elsewhere shows a cut or rewritten end, too."
            },
            footer = {"", "Example:", "  coldward journal prove shop.yaml --anchor 1042:9f86d0..."})
    public static final class Prove implements Callable<Integer> {

        private final Terminal terminal;

        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file, or its state folder")
        private Path shop = Path.of("");

        @Option(
                names = "--anchor",
                paramLabel = "NUMBER:HASH",
                description = "an entry's number and hash noted earlier")
        private @Nullable String anchor;

        @Option(names = "--json", description = "print the result as JSON (schema 'journal-prove')")
        private boolean json;

        public Prove(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            // what is typed wrong is told before anything is opened
            Optional<Proof.Anchor> noted = Optional.ofNullable(anchor).map(this::anchored);
            JournalReading reading = open(shop);
            Proof proof = noted.map(reading::prove).orElseGet(reading::prove);
            if (json) {
                ObjectNode node = Json.object();
                switch (proof) {
                    case Proof.Whole whole -> {
                        node.put("whole", true);
                        node.put("entries", whole.count());
                        node.put("head", whole.head());
                        node.put("anchored", whole.anchored());
                    }
                    case Proof.Broken broken -> {
                        node.put("whole", false);
                        node.put("broken_at", broken.number());
                        node.put("what", broken.what().words());
                        node.put("detail", broken.detail());
                    }
                }
                terminal.line(Json.text(node));
            } else {
                terminal.folded(proof.sentence(), "");
            }
            return (proof instanceof Proof.Whole ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
        }

        private Proof.Anchor anchored(String text) {
            if (!text.matches("[0-9]{1,15}:[0-9a-f]{64}")) {
                throw new ParameterException(
                        Arguments.line(spec, this),
                        "--anchor is '" + text + "' but must be a number, a colon and 64 hex digits");
            }
            int colon = text.indexOf(':');
            return new Proof.Anchor(Long.parseLong(text.substring(0, colon)), text.substring(colon + 1));
        }
    }

    /** {@code coldward journal read}. */
    @Command(
            name = "read",
            mixinStandardHelpOptions = true,
            description = "Print what happened, oldest first. Works while a watch is running.",
            footer = {"", "Example:", "  coldward journal read shop.yaml --printer heron --last 20"})
    public static final class Read implements Callable<Integer> {

        private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss.SSS");

        private final Terminal terminal;

        @Parameters(index = "0", paramLabel = "SHOP", description = "the shop file, or its state folder")
        private Path shop = Path.of("");

        @Option(names = "--printer", paramLabel = "NAME", description = "only this printer's entries")
        private @Nullable String printer;

        @Option(
                names = "--last",
                paramLabel = "N",
                defaultValue = "50",
                description = "the newest N (default ${DEFAULT-VALUE})")
        private int last;

        @Option(names = "--all", description = "from the beginning")
        private boolean all;

        @Option(names = "--json", description = "print the entries as JSON (schema 'journal-read')")
        private boolean json;

        public Read(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            JournalReading reading = open(shop);
            List<Journal.Kept> entries =
                    printer != null ? tail(reading.of(printer)) : reading.newest(all ? Integer.MAX_VALUE : last);
            if (json) {
                ObjectNode node = Json.object();
                ArrayNode rows = node.putArray("entries");
                for (Journal.Kept kept : entries) {
                    ObjectNode row = rows.addObject();
                    row.put("number", kept.number());
                    row.put("at_ms", kept.entry().wallMillis());
                    if (!kept.entry().printer().isEmpty()) {
                        row.put("printer", kept.entry().printer());
                    }
                    row.put("kind", kept.entry().kind());
                    ObjectNode facts = row.putObject("facts");
                    kept.entry().facts().forEach((key, value) -> {
                        if (value instanceof Long number) {
                            facts.put(key, number);
                        } else {
                            facts.put(key, value.toString());
                        }
                    });
                    row.put("hash", kept.hash());
                }
                terminal.line(Json.text(node));
            } else {
                for (Journal.Kept kept : entries) {
                    terminal.folded(line(kept), "      ");
                }
                if (entries.isEmpty()) {
                    terminal.line("The journal has no such entry.");
                }
            }
            return ExitCode.DONE.number();
        }

        private List<Journal.Kept> tail(List<Journal.Kept> entries) {
            return all || entries.size() <= last ? entries : entries.subList(entries.size() - last, entries.size());
        }

        private static String line(Journal.Kept kept) {
            StringBuilder facts = new StringBuilder();
            for (Map.Entry<String, Object> fact : kept.entry().facts().entrySet()) {
                facts.append("  ").append(fact.getKey()).append(": ").append(fact.getValue());
            }
            String at =
                    TIME.format(Instant.ofEpochMilli(kept.entry().wallMillis()).atZone(ZoneId.systemDefault()));
            String who =
                    kept.entry().printer().isEmpty() ? "watch" : kept.entry().printer();
            return "%5d  %s  %-8s %s%s"
                    .formatted(kept.number(), at, who, kept.entry().kind(), facts);
        }
    }
}
