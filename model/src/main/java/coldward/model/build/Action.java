package coldward.model.build;

import java.util.Arrays;
import java.util.Optional;

/** What can be done to a machine whose fan has failed. The order is that in which they are sent. */
public enum Action {
    /** The heater's target goes to nothing; the block floats. */
    HEATER_OFF("heater-off"),
    /** Stop feeding. */
    HOLD("hold"),
    /** Part-cooling air on the block. */
    BLOCK_FAN("block-fan"),
    /** Everything off, block-fan included; the last resort. */
    POWER_OFF("power-off");

    private final String word;

    Action(String word) {
        this.word = word;
    }

    /** The word in sheets, commands and records. */
    public String word() {
        return word;
    }

    /** The action of this word, if there is one. */
    public static Optional<Action> of(String word) {
        return Arrays.stream(values()).filter(a -> a.word.equals(word)).findFirst();
    }
}
