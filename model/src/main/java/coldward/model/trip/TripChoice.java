package coldward.model.trip;

import coldward.model.build.Trip;

/** A trip for a build whose sheet leaves it open. */
public sealed interface TripChoice {

    /**
     * A trip between what is unsafe and what is healthy. Provisional: noise and spurious trips are not weighed.
     *
     * @param trip the trip
     * @param unsafeBelow rpm; a fan below it does not keep the cold side firm
     * @param healthyAbove rpm; a fan within its tolerance turns at least so fast
     */
    record Provisional(Trip trip, double unsafeBelow, double healthyAbove) implements TripChoice {}

    /**
     * A fan within its tolerance may already be too slow: no trip speed tells the two apart.
     *
     * @param unsafeBelow rpm, at or above {@code healthyAbove}
     * @param healthyAbove rpm
     */
    record NoRoom(double unsafeBelow, double healthyAbove) implements TripChoice {}
}
