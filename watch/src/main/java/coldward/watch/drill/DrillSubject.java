package coldward.watch.drill;

import static coldward.quantity.Checks.notNegative;

import coldward.model.build.Build;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.shop.LinkSpec;

/**
 * A printer as drills need it.
 *
 * @param build its sheet
 * @param trip the sheet's, or the one chosen where the sheet leaves it open
 * @param look s between two looks of the watch at the machine; 0 where the machine speaks by itself
 * @param workingDeadline of the sheet's response while a job feeds
 * @param idleDeadline of the sheet's response otherwise
 */
public record DrillSubject(Build build, Trip trip, double look, Deadline workingDeadline, Deadline idleDeadline) {
    public DrillSubject {
        notNegative("time between two looks", look, "s");
    }

    /** s between two looks over a link; 0 where the machine speaks by itself. */
    public static double look(LinkSpec link) {
        return link instanceof LinkSpec.Http http ? http.every() : 0;
    }
}
