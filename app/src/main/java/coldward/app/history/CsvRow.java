package coldward.app.history;

import coldward.model.shop.ReadName;
import coldward.quantity.Checks;
import coldward.quantity.DataError;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.Reads;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Makes reports of a recording's rows, by what its first line says. */
final class CsvRow {

    private static final String SECONDS = "time_s";
    private static final String STAMP = "time";
    private static final String ASKED = "asked";

    /** s; beyond it ns do not fit a long. */
    private static final double LATEST = 9e9;

    private static final double NS = 1e9;
    private static final int MOST_COLUMNS = 200;
    private static final int LONGEST_SHOWN = 40;

    private final String file;
    private final char separator;
    private final int width;
    private final @Nullable CsvColumn[] columns;
    private final List<String> unused = new ArrayList<>();
    private final String timeHeader;
    private final int time;
    private final int asked;

    private long last = Long.MIN_VALUE;

    CsvRow(String file, CsvRecord header, char separator) {
        this.file = file;
        this.separator = separator;
        this.width = header.getFieldCount();
        int line = (int) header.getStartingLineNumber();
        if (width > MOST_COLUMNS) {
            throw new DataError(file, line, "", width + " columns but at most " + MOST_COLUMNS + " are read");
        }
        this.columns = new CsvColumn[width];
        List<String> names = new ArrayList<>();
        for (int i = 0; i < width; i++) {
            String each = header.getField(i).strip();
            if (!each.isEmpty() && names.contains(each)) {
                throw new DataError(file, line, each, "two columns have this name; every name must stand once");
            }
            names.add(each);
            columns[i] = CsvColumn.of(each).orElse(null);
            if (columns[i] == null && !Set.of(SECONDS, STAMP, ASKED, "").contains(each)) {
                unused.add(each);
            }
        }
        if (names.contains(SECONDS) == names.contains(STAMP)) {
            throw new DataError(
                    file,
                    line,
                    "",
                    names.contains(SECONDS)
                            ? "has both time_s and time; keep the one that is right"
                            : "has no column time_s (seconds) or time (ISO 8601); it has " + listed(names));
        }
        if (!names.contains(CsvColumn.SPEED.header())) {
            throw new DataError(file, line, "", "has no column speed_rpm; it has " + listed(names));
        }
        if (names.contains(ASKED) && names.contains(CsvColumn.DUTY.header())) {
            throw new DataError(file, line, ASKED, "has both asked and duty; keep duty, which says more");
        }
        this.timeHeader = names.contains(SECONDS) ? SECONDS : STAMP;
        this.time = names.indexOf(timeHeader);
        this.asked = names.indexOf(ASKED);
    }

    boolean wallTime() {
        return timeHeader.equals(STAMP);
    }

    List<String> unused() {
        return unused;
    }

    GuardEvent.Report report(CsvRecord row) {
        int line = (int) Math.min(Integer.MAX_VALUE, row.getStartingLineNumber());
        if (row.getFieldCount() != width) {
            String comma = separator == ',' ? "; a number with a decimal comma counts as two cells, write a point" : "";
            throw new DataError(
                    file,
                    line,
                    "",
                    row.getFieldCount() + " cells but the first line names " + width + " columns" + comma);
        }
        long at = time(line, row.getField(time).strip());
        if (at < last) {
            throw new DataError(
                    file,
                    line,
                    timeHeader,
                    "is " + shown(row.getField(time)) + ", " + Checks.number((last - at) / NS)
                            + " s before the row above; times must not go back");
        }
        last = at;
        Reads.Builder reads = new Reads.Builder();
        for (int i = 0; i < width; i++) {
            CsvColumn column = columns[i];
            if (column != null) {
                String cell = row.getField(i);
                if (!cell.isBlank()) {
                    double value = number(line, column.header(), cell.strip());
                    if (!(value >= column.low() && value <= column.high())) {
                        throw new DataError(
                                file,
                                line,
                                column.header(),
                                "is " + shown(cell) + " but must be between " + Checks.number(column.low()) + " and "
                                        + (Checks.number(column.high()) + " " + column.unit()).strip());
                    }
                    reads.with(column.read(), column.toRead(value));
                }
            }
        }
        if (asked >= 0 && !row.getField(asked).isBlank()) {
            reads.with(ReadName.DUTY, asked(line, row.getField(asked).strip()));
        }
        return new GuardEvent.Report(at, reads.build());
    }

    private long time(int line, String cell) {
        if (cell.isEmpty()) {
            throw new DataError(file, line, timeHeader, "is empty but every row needs its time");
        }
        if (timeHeader.equals(SECONDS)) {
            double seconds = number(line, SECONDS, cell);
            if (!(Math.abs(seconds) <= LATEST)) {
                throw new DataError(
                        file,
                        line,
                        SECONDS,
                        "is " + shown(cell) + " but must be between -9e9 and 9e9 s; are these milliseconds?");
            }
            return Math.round(seconds * NS);
        }
        try {
            Instant instant = cell.endsWith("Z")
                    ? Instant.parse(cell)
                    : OffsetDateTime.parse(cell.replace(' ', 'T')).toInstant();
            if (Math.abs(instant.getEpochSecond()) > LATEST) {
                throw new DataError(
                        file, line, STAMP, "is " + shown(cell) + " but must be between the years 1685 and 2255");
            }
            return instant.getEpochSecond() * 1_000_000_000L + instant.getNano();
        } catch (DateTimeException e) {
            throw new DataError(
                    file,
                    line,
                    STAMP,
                    "is " + shown(cell)
                            + " but must be ISO 8601 with Z or an offset, as 2026-11-25T09:30:00.25Z; seconds belong in"
                            + " a column time_s");
        }
    }

    private double number(int line, String header, String cell) {
        boolean plain = !cell.isEmpty();
        for (int i = 0; i < cell.length() && plain; i++) {
            char c = cell.charAt(i);
            plain = (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E';
        }
        if (plain) {
            try {
                return Double.parseDouble(cell);
            } catch (NumberFormatException e) {
                throw notANumber(line, header, cell);
            }
        }
        if (cell.matches("[-+]?\\d+,\\d+")) {
            throw new DataError(
                    file,
                    line,
                    header,
                    "is " + shown(cell)
                            + "; write a decimal point and no thousands separator: a comma may mean either");
        }
        throw notANumber(line, header, cell);
    }

    private DataError notANumber(int line, String header, String cell) {
        return new DataError(file, line, header, "is " + shown(cell) + " but must be a number, or empty if not read");
    }

    private double asked(int line, String cell) {
        return switch (cell.toLowerCase(Locale.ROOT)) {
            case "1", "yes", "true" -> 1;
            case "0", "no", "false" -> 0;
            default -> throw new DataError(file, line, ASKED, "is " + shown(cell) + " but must be 1 or 0, yes or no");
        };
    }

    private static String shown(String cell) {
        StringBuilder text = new StringBuilder("'");
        cell.strip().chars().limit(LONGEST_SHOWN).forEach(c -> text.append(c < ' ' || c == 127 ? '?' : (char) c));
        return text.append(cell.strip().length() > LONGEST_SHOWN ? "...'" : "'").toString();
    }

    private static String listed(List<String> names) {
        Set<String> some = new TreeSet<>();
        names.stream().filter(n -> !n.isEmpty()).limit(8).forEach(n -> some.add(shown(n)));
        return some.isEmpty() ? "none" : String.join(", ", some);
    }
}
