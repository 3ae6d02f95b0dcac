package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.quantity.OwnBug;
import coldward.sheet.Sheets;
import coldward.sheet.Shops;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward schema}. */
@Command(
        name = "schema",
        mixinStandardHelpOptions = true,
        description = {
            "Print a published JSON Schema (2020-12).",
            "Of sheets, of shop files, or of a command's --json. Without a name, list them."
        },
        footer = {"", "Example:", "  coldward schema sheet > sheet.schema.json"})
public final class SchemaCommand implements Callable<Integer> {

    /** Schemas of the commands' outputs, each a resource of this name. */
    public static final List<String> OUTPUTS = List.of(
            "race",
            "trip",
            "check",
            "choose",
            "measure-sink",
            "reading",
            "reading-explain",
            "reading-causes",
            "baseline",
            "backtest",
            "wiring",
            "wiring-pick",
            "wiring-find",
            "sheet-new",
            "sheet-check",
            "sheet-show",
            "schema",
            "journal-prove",
            "journal-read",
            "rig",
            "watch",
            "release",
            "drill",
            "drill-list",
            "after",
            "service",
            "service-list",
            "bypass",
            "acknowledge",
            "notice-try",
            "latencies",
            "tour");

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "NAME", description = "sheet, shop, or a command's output")
    private @Nullable String name;

    @Option(names = "--json", description = "list as JSON (schema 'schema')")
    private boolean json;

    public SchemaCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (name == null) {
            if (json) {
                ObjectNode node = Json.object();
                var names = node.putArray("schemas");
                names.add("sheet").add("shop");
                OUTPUTS.forEach(names::add);
                terminal.line(Json.text(node));
            } else {
                terminal.line("inputs:  sheet, shop");
                terminal.folded("outputs: " + String.join(", ", OUTPUTS), "         ");
            }
            return ExitCode.DONE.number();
        }
        terminal.line(text(name).stripTrailing());
        return ExitCode.DONE.number();
    }

    private String text(String wanted) {
        return switch (wanted) {
            case "sheet" -> Sheets.schema();
            case "shop" -> Shops.schema();
            default -> {
                if (!OUTPUTS.contains(wanted)) {
                    throw new ParameterException(
                            Arguments.line(spec, this),
                            "no schema '" + wanted + "'; there are sheet, shop, " + String.join(", ", OUTPUTS));
                }
                yield output(wanted);
            }
        };
    }

    /** The schema of one command's output. */
    public static String output(String name) {
        String path = "/coldward/schema/output/" + name + ".schema.json";
        try (InputStream in = SchemaCommand.class.getResourceAsStream(path)) {
            if (in == null) {
                throw new OwnBug("the schema " + path + " is not packaged");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new OwnBug("the schema " + path + " cannot be read", e);
        }
    }
}
