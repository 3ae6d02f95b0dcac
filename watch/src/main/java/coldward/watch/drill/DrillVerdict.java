package coldward.watch.drill;

import java.util.Arrays;
import java.util.Optional;

/** What a drill comes to. */
public enum DrillVerdict {
    /** Safe within the predicted times, and before the deadline: the 1 to 99 %, or the last in a hundred after it. */
    AS_PREDICTED("as-predicted", true, "safe when predicted"),
    /** Safe before the predicted times: the sheet's coast-down or latencies are too long, which is the safe side. */
    SOONER(
            "sooner",
            true,
            "safe sooner than predicted: the sheet's coast_down or latencies are longer than the machine's"),
    /** Safe before the deadline, but later than the model holds possible. */
    LATER(
            "later",
            false,
            "safe, but later than predicted: the sheet's coast_down, report_interval or latencies are too short"),
    /** Safe after the deadline. */
    TOO_LATE(
            "too-late",
            false,
            "safe only after the deadline: in a real failure the filament would soften beyond its limit"),
    /** The watch tripped, the response was not confirmed. */
    UNCONFIRMED("unconfirmed", false, "the watch tripped but the response could not be confirmed"),
    /** Nothing tripped. */
    NOT_NOTICED("not-noticed", false, "nothing tripped: this failure goes unnoticed"),
    /** The trip came before the failure was told, so that there is nothing to time from. */
    TOLD_LATE(
            "told-late",
            false,
            "the trip came before the failure was told, so the time cannot be measured; do it again"),
    /** It tripped and was confirmed, but the model has no time to compare with. */
    NOT_COMPARED("not-compared", false, "the model predicts no trip for this, so there is nothing to compare with");

    private final String word;
    private final boolean passed;
    private final String words;

    DrillVerdict(String word, boolean passed, String words) {
        this.word = word;
        this.passed = passed;
        this.words = words;
    }

    /** The word in records. */
    public String word() {
        return word;
    }

    /** Whether the drill is passed. */
    public boolean passed() {
        return passed;
    }

    /** As a person reads it. */
    public String words() {
        return words;
    }

    /** The verdict of this word, if there is one. */
    public static Optional<DrillVerdict> of(String word) {
        return Arrays.stream(values()).filter(v -> v.word.equals(word)).findFirst();
    }
}
