package coldward.model.wiring.analysis;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

/**
 * How long an input took to see an edge.
 *
 * @param at the input's contact
 * @param state in which state and corner
 * @param rises true for the edge that lifts the input
 * @param time s from the stage's move to the threshold; at least as long where it never got there
 * @param limit s, the shortest half-pulse
 */
public record EdgeTime(String at, String state, boolean rises, double time, double limit) {
    public EdgeTime {
        notNegative("edge time", time, "s");
        positive("edge limit", limit, "s");
    }
}
