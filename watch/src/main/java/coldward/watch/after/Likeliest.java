package coldward.watch.after;

import java.util.Locale;

/**
 * The likeliest cause of a trip.
 *
 * @param cause what
 * @param because why, one sentence
 */
public record Likeliest(Cause cause, String because) {

    /** What may have happened. */
    public enum Cause {
        /** The supply was lost: the fan coasted down. */
        STOP,
        /** It stood at once, or within one report. */
        BLOCKED,
        /** It turned slowly and went on doing so. */
        SLOW,
        /** It slowed over many reports. */
        FADE,
        /** Only the signal was lost; the air went on. */
        SIGNAL_LOST,
        /** The printer was not heard. */
        UNHEARD,
        /** Two signals disagreed. */
        CONTRADICTED,
        /** The record does not say. */
        UNKNOWN;

        /** The word in outputs. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }
}
