package coldward.app.history;

import coldward.model.shop.ReadName;
import coldward.quantity.CannotRun;
import coldward.store.HistoryReading;
import coldward.watch.guard.Reads;
import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** A printer's history as CSV that {@link SpeedCsv} reads back. */
public final class CsvOut {

    private static final int DECIMALS = 6;

    private CsvOut() {}

    /** Every report within a time: {@code time} and all reads, empty where one was not read. */
    public static void reports(HistoryReading history, String printer, long from, long to, Writer out) {
        try (CsvWriter csv = writer(out)) {
            List<String> header = new ArrayList<>();
            header.add("time");
            for (ReadName name : ReadName.values()) {
                header.add(CsvColumn.of(name).header());
            }
            csv.writeRecord(header);
            history.read(printer, from, to, (at, reads) -> csv.writeRecord(row(at, reads)));
        } catch (java.io.IOException | java.io.UncheckedIOException e) {
            throw new CannotRun("cannot write the CSV: " + e.getMessage(), e);
        }
    }

    private static List<String> row(long at, Reads reads) {
        List<String> row = new ArrayList<>();
        row.add(Instant.ofEpochMilli(at).toString());
        for (ReadName name : ReadName.values()) {
            row.add(reads.has(name) ? number(CsvColumn.of(name).fromRead(reads.get(name))) : "");
        }
        return row;
    }

    /** The minutes within a time: their beginning, how many reports, smallest, mean and greatest speed. */
    public static void minutes(HistoryReading history, String printer, long from, long to, Writer out) {
        try (CsvWriter csv = writer(out)) {
            csv.writeRecord(
                    "time",
                    "reports",
                    "speed_low_rpm",
                    "speed_rpm",
                    "speed_high_rpm",
                    "nozzle_high_degC",
                    "cold_side_high_degC");
            for (HistoryReading.Minute minute : history.minutes(printer, from, to)) {
                csv.writeRecord(
                        Instant.ofEpochMilli(minute.startMillis()).toString(),
                        Integer.toString(minute.reports()),
                        number(minute.low()),
                        number(minute.mean()),
                        number(minute.high()),
                        number(minute.nozzleHigh()),
                        number(minute.coldSideHigh()));
            }
        } catch (java.io.IOException | java.io.UncheckedIOException e) {
            throw new CannotRun("cannot write the CSV: " + e.getMessage(), e);
        }
    }

    private static CsvWriter writer(Writer out) {
        return CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(out);
    }

    private static String number(OptionalDouble value) {
        return value.isPresent() ? number(value.getAsDouble()) : "";
    }

    private static String number(double value) {
        return BigDecimal.valueOf(value)
                .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }
}
