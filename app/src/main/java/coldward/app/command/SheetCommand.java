package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.model.build.Build;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import coldward.sheet.Answers;
import coldward.sheet.CheckResult;
import coldward.sheet.Classes;
import coldward.sheet.Sheets;
import java.nio.file.Files;
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

/** {@code coldward sheet}: its subcommands do the work. */
@Command(
        name = "sheet",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "new | check | show",
        description = "Write, check and show build sheets.",
        footer = {"", "Example:", "  coldward sheet check heron.yaml"})
public final class SheetCommand implements Callable<Integer> {

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(Arguments.line(spec, this), "missing: one of new, check, show");
    }

    /** {@code coldward sheet new}. */
    @Command(
            name = "new",
            mixinStandardHelpOptions = true,
            description = {
                "Write a commented starter sheet from five facts; what is left out is asked for in a terminal.",
                "An existing file is never overwritten."
            },
            footer = {
                "",
                "Example:",
                "  coldward sheet new finch.yaml --printer finch --plastic PETG --nozzle '240 degC' \\",
                "      --neck 'thin titanium' --fan '40x10 axial' --speed '8000 rpm'"
            })
    public static final class New implements Callable<Integer> {

        private final Terminal terminal;

        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(index = "0", paramLabel = "SHEET", description = "the file to write")
        private Path file = Path.of("");

        @Option(names = "--printer", paramLabel = "NAME", description = "the printer's name")
        private @Nullable String printer;

        @Option(names = "--plastic", paramLabel = "NAME", description = "PLA, PETG, ABS, ASA or PC")
        private @Nullable String plastic;

        @Option(names = "--nozzle", paramLabel = "TEMPERATURE", description = "set temperature, for example '215 degC'")
        private @Nullable String nozzle;

        @Option(
                names = "--neck",
                paramLabel = "CLASS",
                description = "class of the heat break, for example 'short steel'")
        private @Nullable String neck;

        @Option(names = "--fan", paramLabel = "CLASS", description = "size class of the fan, for example '40x10 axial'")
        private @Nullable String fan;

        @Option(names = "--speed", paramLabel = "SPEED", description = "the fan's rated speed, for example '8000 rpm'")
        private @Nullable String speed;

        @Option(names = "--json", description = "print what was written as JSON (schema 'sheet-new')")
        private boolean json;

        public New(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            if (Files.exists(file)) {
                throw new DataError(
                        file.toString(), 0, "", "is already there and is not overwritten; choose another name");
            }
            Answers answers = new Answers(
                    ask(printer, "--printer", "the printer's name", List.of()),
                    ask(plastic, "--plastic", "plastic", List.of("PLA", "PETG", "ABS", "ASA", "PC")),
                    ask(nozzle, "--nozzle", "nozzle temperature, for example 215 degC", List.of()),
                    ask(neck, "--neck", "heat break", names(Classes.necks())),
                    ask(fan, "--fan", "fan", names(Classes.fans())),
                    ask(speed, "--speed", "the fan's rated speed, for example 8000 rpm", List.of()));
            String text;
            try {
                text = Sheets.starter(answers);
            } catch (InputError e) {
                throw new DataError("answers", 0, "", e.getMessage() == null ? e.name() : e.getMessage());
            }
            WholeFile.write(file, text);
            if (json) {
                ObjectNode node = Json.object();
                node.put("file", file.toString());
                node.put("printer", answers.printer());
                terminal.line(Json.text(node));
            } else {
                terminal.line("Wrote " + file + ". Next: coldward race " + file);
            }
            return ExitCode.DONE.number();
        }

        private String ask(@Nullable String given, String option, String question, List<String> choices) {
            if (given != null) {
                return given;
            }
            String offered = choices.isEmpty() ? "" : " (" + String.join(", ", choices) + ")";
            if (!terminal.interactive()) {
                throw new ParameterException(
                        Arguments.line(spec, this), "missing: " + option + ", " + question + offered);
            }
            return Prompt.ask(terminal, question + offered);
        }

        private static List<String> names(List<Classes.Part> parts) {
            return parts.stream().map(Classes.Part::name).toList();
        }
    }

    /** {@code coldward sheet check}. */
    @Command(
            name = "check",
            mixinStandardHelpOptions = true,
            description = {
                "Read a sheet, and those it is based on, without computing; hold them against the published schema.",
                "Every fault is listed with file, line, key and what would be right. Ends with 3 if there is one."
            },
            footer = {"", "Example:", "  coldward sheet check heron.yaml"})
    public static final class Check implements Callable<Integer> {

        private final Terminal terminal;

        @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
        private Path file = Path.of("");

        @Option(names = "--json", description = "print the findings as JSON (schema 'sheet-check')")
        private boolean json;

        public Check(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            CheckResult result = Sheets.check(file);
            boolean sound = result.problems().isEmpty();
            if (json) {
                ObjectNode node = Json.object();
                node.put("file", file.toString());
                node.put("sound", sound);
                result.build().ifPresent(b -> node.put("printer", b.printer()));
                ArrayNode problems = node.putArray("problems");
                for (DataError problem : result.problems()) {
                    ObjectNode row = problems.addObject();
                    row.put("file", problem.file());
                    if (problem.line() > 0) {
                        row.put("line", problem.line());
                    }
                    if (!problem.key().isEmpty()) {
                        row.put("key", problem.key());
                    }
                    row.put("message", problem.getMessage());
                }
                terminal.line(Json.text(node));
            } else if (sound) {
                Build build = result.build().orElseThrow();
                terminal.line("%s is sound: %s, %d values, %d of them given on the sheet."
                        .formatted(
                                file,
                                build.printer(),
                                build.origins().size(),
                                build.origins().values().stream()
                                        .filter(o -> o.kind() == coldward.model.build.Origin.Kind.GIVEN)
                                        .count()));
            } else {
                result.problems().forEach(p -> terminal.err().println(p.getMessage()));
            }
            return (sound ? ExitCode.DONE : ExitCode.BAD_INPUT).number();
        }
    }

    /** {@code coldward sheet show}. */
    @Command(
            name = "show",
            mixinStandardHelpOptions = true,
            description = {
                "Print a sheet with those it is based on merged; with --full every value, each with its origin.",
                "What is printed is a sheet again and reads back to the same."
            },
            footer = {"", "Example:", "  coldward sheet show --full heron.yaml"})
    public static final class Show implements Callable<Integer> {

        private final Terminal terminal;

        @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
        private Path file = Path.of("");

        @Option(names = "--full", description = "with classes and defaults filled in")
        private boolean full;

        @Option(names = "--json", description = "print the values and origins as JSON (schema 'sheet-show')")
        private boolean json;

        public Show(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            if (json) {
                Build build = Sheets.read(file);
                ObjectNode node = Json.object();
                node.put("file", file.toString());
                node.put("printer", build.printer());
                RaceJson.origins(node.putObject("values"), build.origins());
                terminal.line(Json.text(node));
            } else {
                terminal.line(Sheets.show(file, full).stripTrailing());
            }
            return ExitCode.DONE.number();
        }
    }
}
