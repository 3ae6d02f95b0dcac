package coldward.model.trip;

import coldward.model.build.Trip;

/** A trip between what heat demands and what a healthy fan allows. */
public sealed interface TripChoice {

    /**
     * Such a trip.
     *
     * @param trip the trip
     * @param unsafeBelow rpm; a fan below it does not keep the cold side firm
     * @param spuriousAbove rpm; with these confirmations a higher trip speed trips too often for nothing
     */
    record Chosen(Trip trip, double unsafeBelow, double spuriousAbove) implements TripChoice {}

    /**
     * Every trip speed that heat demands trips too often for nothing.
     *
     * @param unsafeBelow rpm, above {@code spuriousAbove}
     * @param spuriousAbove rpm, with the most confirmations that are looked at; 0 if no trip speed meets the limit
     */
    record NoRoom(double unsafeBelow, double spuriousAbove) implements TripChoice {}

    /** No speed is read, so there is nothing to trip on. */
    record NoReading() implements TripChoice {}
}
