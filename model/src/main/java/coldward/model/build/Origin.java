package coldward.model.build;

/**
 * Where a value came from.
 *
 * @param kind given on this sheet, inherited from another, from a named class, or a default
 * @param detail the file, class or source that it came from; empty for a given value
 * @param text the value as a person reads it, with its unit
 */
public record Origin(Kind kind, String detail, String text) {

    /** From the surest to the least sure. */
    public enum Kind {
        GIVEN("given"),
        INHERITED("inherited"),
        CLASS("class"),
        DEFAULT("default");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }
    }
}
