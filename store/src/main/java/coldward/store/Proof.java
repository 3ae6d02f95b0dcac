package coldward.store;

import coldward.quantity.Checks;
import coldward.quantity.InputError;

/**
 * What going through the whole chain showed. A chain proves that nothing inside it was changed; entries cut off at its
 * end, or a record rewritten as a whole, can only be noticed against an {@link Anchor} noted earlier elsewhere.
 */
public sealed interface Proof {

    /**
     * A number and a hash noted earlier, outside the state folder.
     *
     * @param number from 1
     * @param hash 64 lower-case hex digits
     */
    record Anchor(long number, String hash) {
        public Anchor {
            if (number < 1) {
                throw new InputError("anchor number", "anchor number is " + number + " but must be at least 1");
            }
            Checks.notBlank("anchor hash", hash);
            if (!hash.matches("[0-9a-f]{64}")) {
                throw new InputError(
                        "anchor hash", "anchor hash is '" + hash + "' but must be 64 lower-case hex digits");
            }
        }
    }

    /** One sentence for a person. */
    String sentence();

    /**
     * Every entry is as it was written, none is missing between the first and the last.
     *
     * @param count how many entries
     * @param head the last entry's hash; 64 zeros for an empty journal
     * @param anchored true if an anchor was given and found in its place
     */
    record Whole(long count, String head, boolean anchored) implements Proof {
        @Override
        public String sentence() {
            String entries = count == 1 ? "1 entry" : count + " entries";
            String end = anchored
                    ? "the anchor noted earlier is in its place."
                    : "entries cut off at the end would show only against a head hash noted earlier.";
            return "The journal is whole: " + entries + ", head " + head + "; " + end;
        }
    }

    /**
     * Something differs.
     *
     * @param number where the first difference shows
     * @param what what kind of difference
     * @param detail what was expected and what was found
     */
    record Broken(long number, Difference what, String detail) implements Proof {
        @Override
        public String sentence() {
            return "The journal is broken at entry " + number + ": " + what.words() + " (" + detail
                    + "). Entries before it are as they were written.";
        }
    }

    /** What can differ. */
    enum Difference {
        /** The entry does not give its own hash: something in it, or the hash, was changed. */
        CHANGED_ENTRY("the entry was changed after it was written"),
        /** A number is left out, or one stands where another was expected. */
        MISSING_NUMBER("an entry is missing before it"),
        /** The entry fits its own hash but follows another than the one before it. */
        WRONG_PREVIOUS("it was written after another entry than the one before it"),
        /** Its facts can no longer be read. */
        UNREADABLE("its facts are not what this journal writes"),
        /** The anchor's number has another hash: the record was rewritten from some entry on. */
        ANCHOR_DIFFERS("the record was rewritten since the anchor was noted"),
        /** The record ends before the anchor's number: its end was cut off. */
        CUT_OFF("the record ends before the anchor that was noted");

        private final String words;

        Difference(String words) {
            this.words = words;
        }

        /** As a person reads it. */
        public String words() {
            return words;
        }
    }
}
