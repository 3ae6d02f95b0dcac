package coldward.watch;

import coldward.quantity.InputError;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

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
        ACKNOWLEDGED("acknowledged", Signal.NOTICE, true),
        TRY("try", Signal.NOTICE, true),
        CHANNEL_FAILED("channel-failed", Signal.WARNING, true),
        CHANNEL_BACK("channel-back", Signal.NOTICE, true),
        HEARTBEAT_FAILED("heartbeat-failed", Signal.WARNING, true),
        HEARTBEAT_BACK("heartbeat-back", Signal.NOTICE, true),
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

        /** The kind of this word, if there is one. */
        public static Optional<Kind> of(String word) {
            return Arrays.stream(values()).filter(k -> k.word.equals(word)).findFirst();
        }

        /** Whether it is said again until somebody acknowledges. */
        public boolean repeats() {
            return signal == Signal.DANGER || signal == Signal.WARNING;
        }

        /** Whether it says something of the running watch only, so that it means nothing after a new start. */
        public boolean ofThisRun() {
            return this == CHANNEL_FAILED || this == HEARTBEAT_FAILED || this == JOURNAL_FAILED;
        }

        /** Whether news of this kind makes repeats of another kind about the same printer pointless. */
        public boolean settles(Kind other) {
            return switch (this) {
                case MADE_SAFE -> other == RESPONSE_UNCONFIRMED || other == ESCALATED || other == UNDONE;
                case HEARD_AGAIN -> other == UNHEARD;
                case AGREES_AGAIN -> other == CONTRADICTED;
                case HEARTBEAT_BACK -> other == HEARTBEAT_FAILED;
                // somebody with a name was there
                case RELEASED -> !other.ofTheWatch;
                default -> false;
            };
        }
    }
}
