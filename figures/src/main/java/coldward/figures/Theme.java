package coldward.figures;

/** The ground a drawing is made for. */
public enum Theme {
    /** Off-white ground. */
    LIGHT,
    /** Near-black ground. */
    DARK,
    /** Light, and dark on a screen whose reader asked for dark; printed light. */
    AUTO
}
