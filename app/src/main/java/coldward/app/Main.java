package coldward.app;

import coldward.app.command.ChooseCommand;
import coldward.app.command.JournalCommand;
import coldward.app.command.MeasureCommand;
import coldward.app.command.OpenCommand;
import coldward.app.command.RaceCommand;
import coldward.app.command.ReadingCommand;
import coldward.app.command.ReleaseCommand;
import coldward.app.command.RigCommand;
import coldward.app.command.SchemaCommand;
import coldward.app.command.SheetCommand;
import coldward.app.command.TourCommand;
import coldward.app.command.WatchCommand;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Terminal;
import coldward.quantity.CannotRun;
import coldward.quantity.ColdwardError;
import coldward.quantity.NumericalFailure;
import coldward.quantity.OwnBug;
import java.util.Locale;
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
        CommandLine line = commands(terminal);
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

    /** The tree of commands; documents and tests read it, {@link #run} executes it. */
    public static CommandLine commands(Terminal terminal) {
        return new CommandLine(new Main())
                .addSubcommand(new RaceCommand(terminal))
                .addSubcommand(new ChooseCommand(terminal))
                .addSubcommand(
                        new CommandLine(new MeasureCommand()).addSubcommand(new MeasureCommand.SinkOnly(terminal)))
                .addSubcommand(new CommandLine(new ReadingCommand(terminal))
                        .addSubcommand(new ReadingCommand.Explain(terminal)))
                .addSubcommand(new CommandLine(new SheetCommand())
                        .addSubcommand(new SheetCommand.New(terminal))
                        .addSubcommand(new SheetCommand.Check(terminal))
                        .addSubcommand(new SheetCommand.Show(terminal)))
                .addSubcommand(new CommandLine(new JournalCommand())
                        .addSubcommand(new JournalCommand.Prove(terminal))
                        .addSubcommand(new JournalCommand.Read(terminal)))
                .addSubcommand(new SchemaCommand(terminal))
                .addSubcommand(new WatchCommand(terminal))
                .addSubcommand(new ReleaseCommand(terminal))
                .addSubcommand(new CommandLine(new RigCommand(terminal))
                        .addSubcommand(new RigCommand.Fail(terminal))
                        .addSubcommand(new RigCommand.Mend(terminal))
                        .addSubcommand(new RigCommand.Work(terminal)))
                .addSubcommand(new OpenCommand(terminal))
                .addSubcommand(new TourCommand(terminal));
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
