package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;

import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Trip;

/** Chooses a trip. A fixed share of the rated speed is wrong for a generous and for a tight hot end alike. */
public final class Trips {

    /** Reports in a row where nothing else is known; common practice, no source. */
    public static final int USUAL_CONFIRMATIONS = 3;

    /** Forgiveness for a starting fan where nothing else is known, s; common practice, no source. */
    public static final double USUAL_GRACE = 5;

    /** Trip speeds are multiples of this, rpm. */
    private static final double STEP = 10;

    private Trips() {}

    /**
     * A provisional trip from heat alone: half-way between the unsafe speed of the fastest fan within tolerance,
     * u N (1 + tol), and the rated speed of the slowest, N (1 - tol), to the nearest 10 rpm if that lies between them.
     *
     * @param build the printer; its own trip, if any, is not looked at
     * @param unsafeShare u, the unsafe speed as a share of the rated speed N, 0 or above
     */
    public static TripChoice usual(Build build, double unsafeShare) {
        notNegative("unsafe speed share", unsafeShare, "");
        Fan fan = build.hotEnd().fan();
        double low = unsafeShare * fan.ratedSpeed() * (1 + fan.speedTolerance());
        double high = fan.ratedSpeed() * (1 - fan.speedTolerance());
        if (low >= high) {
            return new TripChoice.NoRoom(low, high);
        }
        double middle = (low + high) / 2;
        double rounded = Math.rint(middle / STEP) * STEP;
        double speed = rounded > low && rounded < high ? rounded : middle;
        return new TripChoice.Provisional(new Trip(speed, USUAL_CONFIRMATIONS, USUAL_GRACE), low, high);
    }
}
