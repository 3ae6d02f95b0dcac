package coldward.watch.guard;

import java.util.Arrays;
import java.util.Optional;

/** What led to a trip. */
public enum TripCause {
    /** Enough counted reports in a row were below the trip speed. */
    LOW_SPEED("low-speed"),
    /** Hot or working, and silent for as long as the rule allows. */
    UNHEARD("unheard"),
    /** Two signals disagreed and the rule says to respond. */
    CONTRADICTED("contradicted");

    private final String word;

    TripCause(String word) {
        this.word = word;
    }

    /** The word in records. */
    public String word() {
        return word;
    }

    /** The cause of this word, if there is one. */
    public static Optional<TripCause> of(String word) {
        return Arrays.stream(values()).filter(c -> c.word.equals(word)).findFirst();
    }
}
