package coldward.model.shop;

import coldward.quantity.Dimension;
import java.util.Arrays;
import java.util.Optional;

/** What can be read from a machine. Only the speed is required of a printer that is to be protected. */
public enum ReadName {
    SPEED("speed", Dimension.SPEED_OF_TURN),
    /** The machine's own number or time of the report, so that one report is never counted twice. */
    REPORT("report", Dimension.SHARE),
    DUTY("duty", Dimension.SHARE),
    SUPPLY("supply", Dimension.VOLTAGE),
    AIR("air", Dimension.TEMPERATURE),
    HEATER_POWER("heater_power", Dimension.POWER),
    NOZZLE("nozzle", Dimension.TEMPERATURE),
    NOZZLE_TARGET("nozzle_target", Dimension.TEMPERATURE),
    COLD_SIDE("cold_side", Dimension.TEMPERATURE),
    /** Is a job feeding? 0 or 1. */
    WORKING("working", Dimension.SHARE),
    FEED("feed", Dimension.FEED),
    /** Share of full part-cooling air. */
    BLOCK_FAN("block_fan", Dimension.SHARE),
    /** Is the machine's power on? 0 or 1. */
    POWER("power", Dimension.SHARE);

    private final String word;
    private final Dimension dimension;

    ReadName(String word, Dimension dimension) {
        this.word = word;
        this.dimension = dimension;
    }

    /** The key in shop files. */
    public String word() {
        return word;
    }

    /** What it measures; pure numbers, counts and yes/no are a share without unit. */
    public Dimension dimension() {
        return dimension;
    }

    /** The read of this key, if there is one. */
    public static Optional<ReadName> of(String word) {
        return Arrays.stream(values()).filter(r -> r.word.equals(word)).findFirst();
    }
}
