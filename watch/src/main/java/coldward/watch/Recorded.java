package coldward.watch;

import coldward.watch.guard.Reads;
import java.util.List;

/** What machines said, as kept by a {@link History} and read back. */
@FunctionalInterface
public interface Recorded {

    /**
     * One report.
     *
     * @param wallMillis when, wall time, ms since 1970
     * @param reads what the machine said
     */
    record Report(long wallMillis, Reads reads) {}

    /**
     * The reports of a printer, oldest first.
     *
     * @param fromMillis from this moment on, wall time, ms since 1970
     * @param toMillis up to and with this one
     */
    List<Report> between(String printer, long fromMillis, long toMillis);

    /** Nothing was recorded. */
    static Recorded none() {
        return (printer, from, to) -> List.of();
    }
}
