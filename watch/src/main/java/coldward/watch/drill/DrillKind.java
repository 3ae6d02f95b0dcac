package coldward.watch.drill;

import java.util.Arrays;
import java.util.Optional;

/** How a fan is made to fail in a drill. Each tries one path only, and what it leaves untried is said with it. */
public enum DrillKind {
    /** The fan's plug is pulled. */
    PULL(
            "pull",
            "pull the fan's plug",
            "a fan whose supply is lost: it coasts down and its signal falls to nothing",
            "a slow fan: without supply there are no pulses either, so no low but true speed is ever read; a signal that"
                    + " looks alive with a dead fan is not tried either"),
    /** The blade is held. */
    STALL(
            "stall",
            "hold the fan's hub with a soft stick",
            "a blocked fan whose supply and signal wire are whole",
            "a lost supply or plug, a slow fan, and a fan that starts again by itself from time to time"),
    /** Only the signal wire is opened. */
    CUT_SIGNAL(
            "cut-signal",
            "open the fan's signal wire only",
            "that a lost signal stops the machine although the fan is fine: it fails to the safe side",
            "any failure of the fan itself: the air never stopped, so the heat was never at stake"),
    /** The supply is lowered. */
    LOW_SUPPLY(
            "low-supply",
            "lower the fan's supply, at once, until the fan turns clearly below the trip speed",
            "a slow fan: the trip speed itself is tried, with a low but true speed",
            "a fan that stands, a lost supply or plug, and a lost signal");

    private final String word;
    private final String doIt;
    private final String tests;
    private final String doesNotTest;

    DrillKind(String word, String doIt, String tests, String doesNotTest) {
        this.word = word;
        this.doIt = doIt;
        this.tests = tests;
        this.doesNotTest = doesNotTest;
    }

    /** The word in commands and records. */
    public String word() {
        return word;
    }

    /** What a person has to do, in the imperative. */
    public String doIt() {
        return doIt;
    }

    /** What it tries. */
    public String tests() {
        return tests;
    }

    /** What it leaves untried. */
    public String doesNotTest() {
        return doesNotTest;
    }

    /** The kind of this word, if there is one. */
    public static Optional<DrillKind> of(String word) {
        return Arrays.stream(values()).filter(k -> k.word.equals(word)).findFirst();
    }
}
