package coldward.figures;

/** The page a drawing is laid out for. */
public enum Format {
    /** 1200 units wide, read at 720 px and above. */
    WIDE,
    /** 360 units wide, read below 720 px. */
    NARROW
}
