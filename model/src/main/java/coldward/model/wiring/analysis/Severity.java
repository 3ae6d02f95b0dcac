package coldward.model.wiring.analysis;

/** How much a finding matters, worst first. */
public enum Severity {
    /** Does not work, or harms a part. */
    ERROR,
    /** Works today; a corner, an ageing part or a careless hand breaks it. */
    WARNING,
    /** Worth knowing. */
    NOTE;

    /** Lower case, as results show it. */
    public String shown() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
