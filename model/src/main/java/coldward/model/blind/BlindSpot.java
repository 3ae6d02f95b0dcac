package coldward.model.blind;

import static coldward.quantity.Checks.notBlank;

/**
 * A fault that goes unnoticed.
 *
 * @param fault what
 * @param because why nothing that is read shows it
 * @param noticedBy what would notice it
 */
public record BlindSpot(Fault fault, String because, String noticedBy) {
    public BlindSpot {
        notBlank("because", because);
        notBlank("noticed by", noticedBy);
    }

    /** What may be the matter while the shown speed is fine. */
    public enum Fault {
        /** No speed is read at all. */
        ANY_FAN_FAILURE("any failure of the fan"),
        DUCT_OFF("duct off"),
        DIRTY_FINS("dirty fins"),
        REVERSED_FAN("reversed fan"),
        LOST_BLADE("lost blade"),
        /** The shown number stays what it was. */
        FROZEN_READING("frozen reading"),
        /** The shown number is something else's: a motor's steps, another fan's pulses. */
        COUPLED_READING("coupled reading"),
        /** The shown number is wrong by a factor. */
        WRONG_PULSES("wrong pulses per turn");

        private final String words;

        Fault(String words) {
            this.words = words;
        }

        /** As people say it. */
        public String words() {
            return words;
        }

        /** The word in outputs. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }

    /** As a sentence. */
    public String sentence() {
        return "%s: %s; noticed by %s".formatted(fault.words(), because, noticedBy);
    }
}
