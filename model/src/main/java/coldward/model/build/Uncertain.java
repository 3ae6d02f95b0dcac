package coldward.model.build;

/** The inputs that are drawn when a band is computed. */
public enum Uncertain {
    NECK_CONDUCTANCE("neck conductance", "neck", Law.LOG_NORMAL, 0.15),
    SINK_ON("sink conductance with the fan on", "sink_on", Law.LOG_NORMAL, 0.20),
    SINK_STILL("sink conductance in still air", "sink_still", Law.LOG_NORMAL, 0.20),
    COUPLING("coupling between wall and filament", "coupling", Law.LOG_NORMAL, 0.30),
    BLOCK_LOSS("block losses", "block_loss", Law.LOG_NORMAL, 0.20),
    BLOCK_TO_SINK("heat from block to sink beside the neck", "block_to_sink", Law.LOG_NORMAL, 0.40),
    CONTACT("contact between shank and sink", "contact", Law.LOG_NORMAL, 0.50),
    SOFTENING("softening temperature", "softens_at", Law.NORMAL_KELVIN, 3.0),
    AIR("air temperature", "air", Law.NORMAL_KELVIN, 2.0),
    BLOCK_HEAT_CAPACITY("heat capacity of the block", "block_heat_capacity", Law.LOG_NORMAL, 0.0),
    SINK_HEAT_CAPACITY("heat capacity of the sink", "sink_heat_capacity", Law.LOG_NORMAL, 0.0);

    /** How an input is drawn. */
    public enum Law {
        /** A factor whose logarithm is normal; the spread is that normal's deviation, a share. */
        LOG_NORMAL,
        /** Something added; the spread is its standard deviation in kelvin. */
        NORMAL_KELVIN
    }

    private final String words;
    private final String key;
    private final Law law;
    private final double usualSpread;

    Uncertain(String words, String key, Law law, double usualSpread) {
        this.words = words;
        this.key = key;
        this.law = law;
        this.usualSpread = usualSpread;
    }

    /** As a person reads it. */
    public String words() {
        return words;
    }

    /** As a key of outputs. */
    public String key() {
        return key;
    }

    /** How it is drawn. */
    public Law law() {
        return law;
    }

    /** Its spread where every fact behind it was given on the sheet: share or kelvin, after {@link #law()}. */
    public double usualSpread() {
        return usualSpread;
    }
}
