package coldward.app.history;

import coldward.quantity.CannotRun;
import coldward.quantity.DataError;
import coldward.watch.guard.GuardEvent;
import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.function.Consumer;

/**
 * Recordings of reported speeds as CSV (RFC 4180; also separated by semicolons or tabs). UTF-8, with or without a byte
 * order mark; any line ends; empty lines and lines that begin with {@code #} are passed over. The first line names the
 * columns: {@code time_s} (seconds from any zero) or {@code time} (ISO 8601 with Z or an offset), {@code speed_rpm}, and any
 * of the other reads (docs/history.md). Numbers have a decimal point; an empty cell was not read. Times never go back.
 *
 * <p>Read as a stream: memory does not grow with the file. A line may be {@value #LONGEST_LINE} characters long.
 */
public final class SpeedCsv {

    /** Characters of one line; far more than any recording needs, few enough for a file that is something else. */
    static final int LONGEST_LINE = 16_384;

    private static final char BYTE_ORDER_MARK = '\uFEFF';

    private SpeedCsv() {}

    /**
     * Hands every report on, in the order of the file.
     *
     * @param file the recording
     * @param reader gets each; times in ns, since 1970 where the file has a column {@code time}
     * @throws DataError with file, line, column, value and limit, at the first thing that cannot be used
     * @throws CannotRun if the file cannot be read
     */
    public static Told read(Path file, Consumer<GuardEvent.Report> reader) {
        String name = file.toString();
        if (!Files.exists(file)) {
            throw new DataError(name, 0, "", "there is no such file; check the path");
        }
        if (!Files.isRegularFile(file)) {
            throw new DataError(name, 0, "", "this is not a file; name a CSV file");
        }
        try (BufferedReader text = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            return read(name, text, reader);
        } catch (CharacterCodingException e) {
            throw new DataError(name, 0, "", "the file is not UTF-8 text; save it as CSV in UTF-8");
        } catch (IOException e) {
            throw new CannotRun("cannot read " + file + ": " + e.getMessage(), e);
        }
    }

    private static Told read(String name, BufferedReader text, Consumer<GuardEvent.Report> reader) throws IOException {
        text.mark(LONGEST_LINE);
        char separator = separator(text);
        text.reset();
        if (text.read() != BYTE_ORDER_MARK) {
            text.reset();
        }
        long reports = 0;
        try (CsvReader<CsvRecord> rows = CsvReader.builder()
                .fieldSeparator(separator)
                .commentStrategy(CommentStrategy.SKIP)
                .skipEmptyLines(true)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .maxBufferSize(LONGEST_LINE)
                .ofCsvRecord(text)) {
            Iterator<CsvRecord> all = rows.iterator();
            if (!all.hasNext()) {
                throw new DataError(name, 0, "", "the file is empty; its first line must name the columns");
            }
            CsvRow row = new CsvRow(name, all.next(), separator);
            while (all.hasNext()) {
                reader.accept(row.report(all.next()));
                reports++;
            }
            if (reports == 0) {
                throw new DataError(name, 0, "", "the file names columns but has no row below them");
            }
            return new Told(reports, row.wallTime(), row.unused());
        } catch (CsvParseException e) {
            if (e.getCause() instanceof IOException io) {
                throw io;
            }
            if (e.getCause() instanceof RuntimeException own && !(own instanceof CsvParseException)) {
                throw own;
            }
            throw new DataError(name, 0, "", "the file is not well-formed CSV (RFC 4180): " + e.getMessage());
        } catch (UncheckedIOException e) {
            if (e.getCause() instanceof CharacterCodingException coding) {
                throw coding;
            }
            throw new IOException(e.getMessage(), e);
        }
    }

    /** The separator that the first line with anything in it uses; a comma where it has none. */
    private static char separator(BufferedReader text) throws IOException {
        int budget = LONGEST_LINE - 1;
        StringBuilder line = new StringBuilder();
        while (budget-- > 0) {
            int c = text.read();
            if (c == '\n' || c == '\r' || c < 0) {
                String first = line.toString().strip();
                if (c < 0 || !(first.isEmpty() || first.startsWith("#"))) {
                    break;
                }
                line.setLength(0);
            } else if (c != BYTE_ORDER_MARK) {
                line.append((char) c);
            }
        }
        String header = line.toString();
        return header.indexOf(',') >= 0 ? ',' : header.indexOf(';') >= 0 ? ';' : header.indexOf('\t') >= 0 ? '\t' : ',';
    }
}
