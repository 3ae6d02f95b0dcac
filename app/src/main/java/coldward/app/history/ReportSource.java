package coldward.app.history;

import coldward.quantity.DataError;
import coldward.store.HistoryReading;
import coldward.watch.guard.GuardEvent;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Consumer;

/** Where reports come from: a CSV file, or what a watch has kept of a printer. */
public interface ReportSource {

    /** Hands every report on, oldest first; times in ns. */
    Told read(Consumer<GuardEvent.Report> reader);

    /** A CSV file. */
    static ReportSource csv(Path file) {
        return reader -> SpeedCsv.read(file, reader);
    }

    /**
     * The newest days of a printer's history.
     *
     * @param state the state folder
     * @param printer its name in the shop file
     * @param days how many of the newest, counted back from its newest report
     */
    static ReportSource kept(Path state, String printer, double days) {
        HistoryReading history = HistoryReading.open(state);
        OptionalLong end = history.end(printer);
        if (end.isEmpty()) {
            List<String> known = history.printers();
            throw new DataError(
                    state.toString(),
                    0,
                    "",
                    "nothing is kept of a printer '" + printer + "'; there is "
                            + (known.isEmpty() ? "nothing yet" : String.join(", ", known)));
        }
        long from = end.getAsLong() - (long) (days * 86_400_000);
        return reader -> {
            Consumer<GuardEvent.Report> forward = new Forward(reader);
            long count = history.read(
                    printer,
                    from,
                    Long.MAX_VALUE,
                    (millis, reads) -> forward.accept(new GuardEvent.Report(millis * 1_000_000, reads)));
            return new Told(count, true, List.of());
        };
    }

    /** Times of a clock that was put back stand still until it has caught up: what judges by time needs that. */
    final class Forward implements Consumer<GuardEvent.Report> {
        private final Consumer<GuardEvent.Report> reader;
        private long last = Long.MIN_VALUE;

        Forward(Consumer<GuardEvent.Report> reader) {
            this.reader = reader;
        }

        @Override
        public void accept(GuardEvent.Report report) {
            last = Math.max(last, report.at());
            reader.accept(report.at() == last ? report : new GuardEvent.Report(last, report.reads()));
        }
    }
}
