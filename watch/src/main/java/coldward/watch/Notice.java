package coldward.watch;

import coldward.quantity.InputError;
import java.util.List;

/**
 * One message for people, about one event.
 *
 * @param wallMillis when, wall time, ms since 1970
 * @param printers which printers, at least one; empty only for matters of the watch itself
 * @param kind what it is about
 * @param happened what happened, one sentence
 * @param done what was done about it, one sentence
 * @param next what to do next, one sentence
 */
public record Notice(long wallMillis, List<String> printers, Kind kind, String happened, String done, String next) {
    public Notice {
        printers = List.copyOf(printers);
        if (printers.isEmpty() && !kind.ofTheWatch) {
            throw new InputError("notice printers", "a notice of kind " + kind.word + " needs a printer");
        }
    }

    /** How urgent, in the signal words of ISO 3864 and ANSI Z535. */
    public enum Signal {
        /** Hot plastic is softening or may be; act now. */
        DANGER,
        /** Protection is missing or in doubt. */
        WARNING,
        /** Protection is reduced on purpose. */
        CAUTION,
        /** Good to know. */
        NOTICE
    }

    /** What a notice is about. */
    public enum Kind {
        TRIP("trip", Signal.DANGER, false),
        TRIP_AGAIN("trip-again", Signal.DANGER, false),
        USED_WHILE_TRIPPED("used-while-tripped", Signal.WARNING, false),
        UNDONE("undone", Signal.DANGER, false),
        MADE_SAFE("made-safe", Signal.NOTICE, false),
        RESPONSE_UNCONFIRMED("response-unconfirmed", Signal.DANGER, false),
        ESCALATED("escalated", Signal.DANGER, false),
        UNHEARD("unheard", Signal.WARNING, false),
        HEARD_AGAIN("heard-again", Signal.NOTICE, false),
        CONTRADICTED("contradicted", Signal.WARNING, false),
        AGREES_AGAIN("agrees-again", Signal.NOTICE, false),
        RELEASED("released", Signal.NOTICE, false),
        BYPASSED("bypassed", Signal.CAUTION, false),
        BYPASS_OVER("bypass-over", Signal.NOTICE, false),
        JOURNAL_FAILED("journal-failed", Signal.WARNING, true),
        FAULT("fault", Signal.WARNING, true);

        private final String word;
        private final Signal signal;
        private final boolean ofTheWatch;

        Kind(String word, Signal signal, boolean ofTheWatch) {
            this.word = word;
            this.signal = signal;
            this.ofTheWatch = ofTheWatch;
        }

        /** The word in records. */
        public String word() {
            return word;
        }

        /** How urgent it is. */
        public Signal signal() {
            return signal;
        }
    }
}
