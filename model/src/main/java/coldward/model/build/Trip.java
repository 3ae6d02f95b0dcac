package coldward.model.build;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * When the machine is stopped.
 *
 * @param speed rpm; a report below it (strictly) counts against the fan
 * @param confirmations how many such reports in a row, 1 to 100
 * @param grace s for which a starting fan is forgiven
 */
public record Trip(double speed, int confirmations, double grace) {
    public Trip {
        positive("trip speed", speed, "rpm");
        within("trip confirmations", confirmations, 1, 100);
        within("trip grace", grace, 0, 120, "s");
    }
}
