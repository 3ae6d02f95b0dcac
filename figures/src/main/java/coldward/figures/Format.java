package coldward.figures;

/** The page a drawing is laid out for. */
public enum Format {
    /** 1200 units wide; letters are comfortable from about 900 px of room upwards. */
    WIDE,
    /** 360 units wide, for telephones and narrow columns; let it grow to 560 px, not more. */
    NARROW
}
