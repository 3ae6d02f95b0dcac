package coldward.model.shop;

import static coldward.quantity.Checks.within;

import java.util.OptionalDouble;

/**
 * What the watch does about silence and contradiction, and how often its trip is to be tried.
 *
 * @param unheardAfter s without a report until the printer is unheard
 * @param unheardRespondsAfter s of being unheard, hot or working, until the response starts; empty: it only tells
 * @param contradictedRise K that the cold side may rise within a minute while the speed is fine
 * @param contradictedResponds true if a contradiction starts the response
 * @param drillEvery s from one drill to the next; one that is older is overdue
 */
public record WatchRules(
        double unheardAfter,
        OptionalDouble unheardRespondsAfter,
        double contradictedRise,
        boolean contradictedResponds,
        double drillEvery) {

    /** s; 90 days between two drills (common practice, no source). */
    public static final double USUAL_DRILL_EVERY = 90 * 86_400.0;

    public WatchRules {
        within("unheard_after", unheardAfter, 0.1, 3600, "s");
        unheardRespondsAfter.ifPresent(s -> within("unheard_responds_after", s, 0, 3600, "s"));
        within("contradicted_rise", contradictedRise, 0.5, 100, "K");
        within("drill_every", drillEvery, 3600, 5 * 366 * 86_400.0, "s");
    }
}
