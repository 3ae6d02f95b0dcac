package coldward.app;

import coldward.app.command.AcknowledgeCommand;
import coldward.app.command.AfterCommand;
import coldward.app.command.BacktestCommand;
import coldward.app.command.BaselineCommand;
import coldward.app.command.BypassCommand;
import coldward.app.command.CheckCommand;
import coldward.app.command.ChooseCommand;
import coldward.app.command.DrillCommand;
import coldward.app.command.ExplainCommand;
import coldward.app.command.HistoryCommand;
import coldward.app.command.JournalCommand;
import coldward.app.command.LatenciesCommand;
import coldward.app.command.MeasureCommand;
import coldward.app.command.NoticeCommand;
import coldward.app.command.OpenCommand;
import coldward.app.command.RaceCommand;
import coldward.app.command.ReadingCommand;
import coldward.app.command.ReleaseCommand;
import coldward.app.command.RigCommand;
import coldward.app.command.SchemaCommand;
import coldward.app.command.ServiceCommand;
import coldward.app.command.SheetCommand;
import coldward.app.command.TourCommand;
import coldward.app.command.TripCommand;
import coldward.app.command.WatchCommand;
import coldward.app.command.WiringCommand;
import coldward.app.command.WiringFindCommand;
import coldward.app.command.WiringPickCommand;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Terminal;
import coldward.quantity.CannotRun;
import coldward.quantity.ColdwardError;
import coldward.quantity.NumericalFailure;
import coldward.quantity.OwnBug;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.logging.Level;
import java.util.logging.Logger;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;

/** The command line's beginning: builds the commands, turns errors into sentences and exit codes. */
@Command(
        name = "coldward",
        mixinStandardHelpOptions = true,
        versionProvider = Main.Version.class,
        synopsisSubcommandLabel = "COMMAND",
        description = {
            "How long a filament printer's cold side lasts when its fan stops, which response saves it,",
            "and the watch that sees to it. Begin with: coldward open"
        },
        footer = {
            "",
            "Exit codes: 0 done, 1 not safe or not passed, 2 usage, 3 bad input, 4 could not run.",
            "A fan trip protects the process. It is not fire protection and no certified safety device."
        })
public final class Main {

    private static final Logger SERVER_LOG = Logger.getLogger("io.helidon");

    private Main() {}

    /** The version as built. */
    static final class Version implements CommandLine.IVersionProvider {
        @Override
        public String[] getVersion() {
            String version = Main.class.getPackage().getImplementationVersion();
            return new String[] {"coldward " + (version == null ? "(not packaged)" : version)};
        }
    }

    public static void main(String[] arguments) {
        // numbers read the same everywhere
        Locale.setDefault(Locale.ROOT);
        // held, so that the level stays: the rig's server logs through java.util.logging
        SERVER_LOG.setLevel(Level.WARNING);
        Terminal terminal = Terminal.ofProcess(System.out, System.err, System.getenv());
        int code = run(terminal, arguments);
        terminal.out().flush();
        terminal.err().flush();
        System.exit(code);
    }

    /** Runs one command line; returns its exit code. */
    public static int run(Terminal terminal, String... arguments) {
        CommandLine line = commands(terminal, arguments.length > 0 ? arguments[0] : "");
        line.setOut(terminal.out());
        line.setErr(terminal.err());
        line.setColorScheme(CommandLine.Help.defaultColorScheme(terminal.colour() ? Ansi.ON : Ansi.OFF));
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setUsageHelpWidth(terminal.width());
        line.setExecutionExceptionHandler((exception, command, parsed) -> failed(terminal, exception));
        line.setParameterExceptionHandler((exception, args) -> usage(terminal, exception));
        if (arguments.length == 0) {
            line.usage(terminal.out());
            return ExitCode.USAGE.number();
        }
        return line.execute(arguments);
    }

    /** Every command by its name, made when asked for. */
    private static Map<String, Function<Terminal, CommandLine>> catalogue() {
        Map<String, Function<Terminal, CommandLine>> all = new LinkedHashMap<>();
        all.put("race", t -> new CommandLine(new RaceCommand(t)));
        all.put("trip", t -> new CommandLine(new TripCommand(t)));
        all.put("check", t -> new CommandLine(new CheckCommand(t)));
        all.put("choose", t -> new CommandLine(new ChooseCommand(t)));
        all.put("measure", t -> new CommandLine(new MeasureCommand()).addSubcommand(new MeasureCommand.SinkOnly(t)));
        all.put("backtest", t -> new CommandLine(new BacktestCommand(t)));
        all.put("baseline", t -> new CommandLine(new BaselineCommand(t)));
        all.put("reading", t -> new CommandLine(new ReadingCommand(t)).addSubcommand(new ExplainCommand(t)));
        all.put(
                "wiring",
                t -> new CommandLine(new WiringCommand(t))
                        .addSubcommand(new WiringPickCommand(t))
                        .addSubcommand(new WiringFindCommand(t)));
        all.put(
                "sheet",
                t -> new CommandLine(new SheetCommand())
                        .addSubcommand(new SheetCommand.New(t))
                        .addSubcommand(new SheetCommand.Check(t))
                        .addSubcommand(new SheetCommand.Show(t)));
        all.put(
                "journal",
                t -> new CommandLine(new JournalCommand())
                        .addSubcommand(new JournalCommand.Prove(t))
                        .addSubcommand(new JournalCommand.Read(t)));
        all.put("history", t -> new CommandLine(new HistoryCommand()).addSubcommand(new HistoryCommand.Export(t)));
        all.put("schema", t -> new CommandLine(new SchemaCommand(t)));
        all.put("watch", t -> new CommandLine(new WatchCommand(t)));
        all.put("release", t -> new CommandLine(new ReleaseCommand(t)));
        all.put("drill", t -> new CommandLine(new DrillCommand(t)).addSubcommand(new DrillCommand.Kept(t)));
        all.put("after", t -> new CommandLine(new AfterCommand(t)));
        all.put("service", t -> new CommandLine(new ServiceCommand(t)).addSubcommand(new ServiceCommand.Lives(t)));
        all.put("bypass", t -> new CommandLine(new BypassCommand(t)));
        all.put("acknowledge", t -> new CommandLine(new AcknowledgeCommand(t)));
        all.put("notice", t -> new CommandLine(new NoticeCommand()).addSubcommand(new NoticeCommand.Try(t)));
        all.put("latencies", t -> new CommandLine(new LatenciesCommand(t)));
        all.put(
                "rig",
                t -> new CommandLine(new RigCommand(t))
                        .addSubcommand(new RigCommand.Fail(t))
                        .addSubcommand(new RigCommand.Mend(t))
                        .addSubcommand(new RigCommand.Work(t)));
        all.put("open", t -> new CommandLine(new OpenCommand(t)));
        all.put("tour", t -> new CommandLine(new TourCommand(t)));
        return all;
    }

    /** The whole tree of commands. */
    public static CommandLine commands(Terminal terminal) {
        return commands(terminal, "");
    }

    /** Only the branch that is asked for, where it is known: describing all of them costs a quarter of a second. */
    private static CommandLine commands(Terminal terminal, String first) {
        Map<String, Function<Terminal, CommandLine>> all = catalogue();
        CommandLine line = new CommandLine(new Main());
        Function<Terminal, CommandLine> one = all.get(first);
        if (one != null) {
            line.addSubcommand(one.apply(terminal));
        } else {
            all.values().forEach(each -> line.addSubcommand(each.apply(terminal)));
        }
        return line;
    }

    private static int usage(Terminal terminal, CommandLine.ParameterException exception) {
        terminal.err().println("usage: " + exception.getMessage());
        if (!CommandLine.UnmatchedArgumentException.printSuggestions(exception, terminal.err())) {
            exception.getCommandLine().usage(terminal.err());
        }
        return ExitCode.USAGE.number();
    }

    private static int failed(Terminal terminal, Exception exception) {
        if (exception instanceof ColdwardError error) {
            terminal.err().println(error.getMessage());
            return switch (error) {
                case CannotRun c -> ExitCode.COULD_NOT_RUN.number();
                case NumericalFailure n -> ExitCode.COULD_NOT_RUN.number();
                case OwnBug b -> bug(terminal, b);
                default -> ExitCode.BAD_INPUT.number();
            };
        }
        return bug(terminal, exception);
    }

    private static int bug(Terminal terminal, Exception exception) {
        terminal.err()
                .println(
                        "This is a fault of Coldward itself, not of your input. Please report it with the lines below.");
        exception.printStackTrace(terminal.err());
        return ExitCode.COULD_NOT_RUN.number();
    }
}
