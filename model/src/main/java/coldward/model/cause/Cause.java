package coldward.model.cause;

/** Why a fan's speed is shown as it is. Prior weights are common practice, no source; they need not add up to anything. */
public enum Cause {
    READING_RIGHT("reading-right", 20, "the fan turns as it should and the reading is right"),
    WRONG_PULSES("wrong-pulses", 12, "the fan gives another number of pulses per turn than is set"),
    FOLDING("folding", 10, "the pin is looked at too seldom: pulses are missed, the reading folds back"),
    CHOPPING("chopping", 10, "the fan's supply is chopped while the speed is read"),
    BOTH_EDGES("both-edges", 4, "both edges of every pulse are counted"),
    SUPPLY_LOW("supply-low", 10, "the fan gets too little voltage"),
    AIR_BLOCKED("air-blocked", 8, "the fan turns but its air is blocked"),
    BEARING("bearing", 10, "the bearing drags"),
    COUPLING("coupling", 6, "the motors' wires couple into the signal wire"),
    LOCKED_LEVEL("locked-rotor-level", 6, "the third wire is a locked-rotor level, no tachometer"),
    LOW_SPEED_LEVEL("low-speed-level", 3, "the third wire is a low-speed level, no tachometer"),
    FAN_STOPPED("fan-stopped", 6, "the fan stands"),
    SIGNAL_OPEN("signal-open", 8, "the signal wire is open");

    private final String key;
    private final double weight;
    private final String words;

    Cause(String key, double weight, String words) {
        this.key = key;
        this.weight = weight;
        this.words = words;
    }

    /** As in results. */
    public String key() {
        return key;
    }

    /** Prior weight, before anything is seen. */
    public double weight() {
        return weight;
    }

    /** As a person reads it. */
    public String words() {
        return words;
    }
}
