package coldward.model.check;

import static coldward.quantity.Checks.notBlank;

import java.util.Comparator;

/**
 * Something that speaks against a printer, or that its keeper should know.
 *
 * @param severity how bad
 * @param subject what it is about
 * @param cost what it costs of the margin
 * @param what what is found, with numbers
 * @param mend what would mend it
 */
public record CheckFinding(Severity severity, Subject subject, Cost cost, String what, String mend) {

    /**
     * What makes the printer unsafe first, for a fault of the wiring costs no seconds and must not come last for it; then
     * by what it costs, then by severity.
     */
    public static final Comparator<CheckFinding> WORST_FIRST = Comparator.comparing(
                    (CheckFinding f) -> f.severity() != Severity.ERROR)
            .thenComparing(CheckFinding::cost, Cost.DEAREST_FIRST)
            .thenComparing(CheckFinding::severity)
            .thenComparing(CheckFinding::subject);

    public CheckFinding {
        notBlank("what", what);
        notBlank("mend", mend);
    }

    /** How bad, the worst first. */
    public enum Severity {
        /** Not safe as it is. */
        ERROR("error"),
        /** Works, with less than there could be, or with something unknown. */
        CAUTION("caution"),
        /** Good to know. */
        NOTE("note");

        private final String word;

        Severity(String word) {
            this.word = word;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }
    }

    /** What a finding is about. */
    public enum Subject {
        HEAT("heat"),
        WIRING("wiring"),
        READING("reading"),
        TRIP("trip"),
        RESPONSE("response"),
        FACTS("facts");

        private final String word;

        Subject(String word) {
            this.word = word;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }
    }
}
