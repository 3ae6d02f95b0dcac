package coldward.app.command;

import coldward.app.history.CsvOut;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Terminal;
import coldward.quantity.CannotRun;
import coldward.quantity.DataError;
import coldward.store.HistoryReading;
import java.io.FilterWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code coldward history}: its subcommand does the work. */
@Command(
        name = "history",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "export",
        description = "Every report that the watch has heard.",
        footer = {"", "Example:", "  coldward history export heron --shop shop.yaml --csv heron.csv"})
public final class HistoryCommand implements Callable<Integer> {

    private static final long DAY_MILLIS = 86_400_000;
    private static final double MOST_DAYS = 36_500;

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(Arguments.line(spec, this), "missing: export");
    }

    /** Standard output, which a finished file must not close. */
    private static final class StillOpen extends FilterWriter {
        StillOpen(Writer out) {
            super(out);
        }

        @Override
        public void close() throws IOException {
            flush();
        }
    }

    /** {@code coldward history export}. */
    @Command(
            name = "export",
            mixinStandardHelpOptions = true,
            description = {
                "Write a printer's reports as CSV.",
                "baseline and backtest read it back. Works while a watch is running."
            },
            footer = {"", "Example:", "  coldward history export heron --shop shop.yaml --days 2 --csv heron.csv"})
    public static final class Export implements Callable<Integer> {

        private final Terminal terminal;

        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(index = "0", paramLabel = "PRINTER", description = "its name in the shop file")
        private String printer = "";

        @Option(
                names = "--shop",
                required = true,
                paramLabel = "SHOP",
                description = "the shop file, or its state folder")
        private Path shop = Path.of("");

        @Option(names = "--csv", paramLabel = "FILE", description = "where to; without it to standard output")
        private @Nullable Path csv;

        @Option(
                names = "--days",
                paramLabel = "N",
                defaultValue = "1",
                description = "only the newest N days (default ${DEFAULT-VALUE})")
        private double days;

        @Option(names = "--minutes", description = "smallest, mean and greatest speed of every minute instead")
        private boolean minutes;

        public Export(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            if (!(days > 0 && days <= MOST_DAYS)) {
                throw new ParameterException(
                        Arguments.line(spec, this), "--days is " + days + " but must be above 0 and at most 36500");
            }
            HistoryReading history = HistoryReading.open(Recordings.state(shop));
            OptionalLong end = history.end(printer);
            if (end.isEmpty()) {
                throw new DataError(
                        shop.toString(),
                        0,
                        "",
                        "nothing is kept of a printer '" + printer + "'; there is "
                                + String.join(", ", history.printers()));
            }
            long from = end.getAsLong() - (long) (days * DAY_MILLIS);
            if (csv == null) {
                write(history, from, new StillOpen(terminal.out()));
            } else {
                try (Writer out = Files.newBufferedWriter(csv)) {
                    write(history, from, out);
                } catch (IOException e) {
                    throw new CannotRun("cannot write " + csv + ": " + e.getMessage(), e);
                }
            }
            return ExitCode.DONE.number();
        }

        private void write(HistoryReading history, long from, Writer out) {
            if (minutes) {
                CsvOut.minutes(history, printer, from, Long.MAX_VALUE, out);
            } else {
                CsvOut.reports(history, printer, from, Long.MAX_VALUE, out);
            }
        }
    }
}
