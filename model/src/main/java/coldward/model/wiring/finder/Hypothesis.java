package coldward.model.wiring.finder;

import coldward.model.wiring.WiredFan.ThirdWire;

/**
 * One assignment.
 *
 * @param plus the wire that is the fan's supply
 * @param minus its return
 * @param third the wire that tells
 * @param tells what it tells
 */
public record Hypothesis(String plus, String minus, String third, ThirdWire tells) {

    /** True if both assign the wires alike, whatever the third tells. */
    public boolean sameWires(Hypothesis other) {
        return plus.equals(other.plus) && minus.equals(other.minus);
    }

    /** In words. */
    public String words() {
        return "plus " + plus + ", minus " + minus + ", third " + third + " tells " + tells.word();
    }
}
