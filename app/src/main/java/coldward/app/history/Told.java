package coldward.app.history;

import java.util.List;

/**
 * What a recording holds.
 *
 * @param reports rows that were handed on
 * @param wallTime true if the times are ns since 1970, false if they count from the recording's own zero
 * @param unused columns that are no reads and were passed over
 */
public record Told(long reports, boolean wallTime, List<String> unused) {
    public Told {
        unused = List.copyOf(unused);
    }
}
