package coldward.watch;

import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.TripCause;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What the journal says of a printer when the watch starts.
 *
 * @param known whether there is anything about it
 * @param trip a trip that nobody has released
 * @param responseFinished whether that trip's response was carried out to the end
 * @param asked whether the fan was asked to turn at the end
 * @param hardEnd whether the watch ended without saying so
 * @param bypassUntilMillis end of the last bypass, wall time, ms since 1970
 * @param lastDrill the last drill carried to its end
 */
record Past(
        boolean known,
        Optional<Trip> trip,
        boolean responseFinished,
        boolean asked,
        boolean hardEnd,
        OptionalLong bypassUntilMillis,
        Optional<PrinterView.LastDrill> lastDrill) {

    /**
     * A trip as journalled.
     *
     * @param cause why
     * @param wallMillis when
     * @param lowForMillis ms from the first low report to the trip
     */
    record Trip(TripCause cause, long wallMillis, long lowForMillis) {}

    static Past of(String printer, Journal journal) {
        Optional<Journal.Kept> trip = journal.latest(printer, "trip");
        Optional<Journal.Kept> change = journal.latest(printer, "state-changed");
        boolean latched = trip.isPresent() && newer(trip, journal.latest(printer, "release"));
        return new Past(
                trip.isPresent() || change.isPresent(),
                latched ? trip.map(Past::trip) : Optional.empty(),
                latched && newer(journal.latest(printer, "response-finished"), trip),
                change.map(k -> Long.valueOf(1).equals(k.entry().facts().get("asked")))
                        .orElse(false),
                newer(journal.latest("", "watch-started"), journal.latest("", "watch-stopped")),
                journal.latest(printer, "bypass")
                        .map(k -> number(k, "until_ms"))
                        .map(OptionalLong::of)
                        .orElse(OptionalLong.empty()),
                journal.latest(printer, "drill")
                        .map(k -> new PrinterView.LastDrill(k.entry().wallMillis(), number(k, "passed") == 1)));
    }

    private static Trip trip(Journal.Kept kept) {
        Object cause = kept.entry().facts().get("cause");
        return new Trip(
                // an unreadable cause must not unlatch the trip
                TripCause.of(String.valueOf(cause)).orElse(TripCause.LOW_SPEED),
                kept.entry().wallMillis(),
                number(kept, "ms_low"));
    }

    private static long number(Journal.Kept kept, String fact) {
        return kept.entry().facts().get(fact) instanceof Long value ? value : 0;
    }

    private static boolean newer(Optional<Journal.Kept> one, Optional<Journal.Kept> other) {
        return one.isPresent()
                && (other.isEmpty() || one.get().number() > other.get().number());
    }

    /** The guard's first event; a printer without a past needs none. */
    Optional<GuardEvent.Resumed> event(long now, long wallMillis) {
        if (!known) {
            return Optional.empty();
        }
        long left = bypassUntilMillis.orElse(wallMillis) - wallMillis;
        long longest = GuardEvent.LONGEST_BYPASS / 1_000_000;
        // a wall clock set back would stretch a bypass beyond what anybody may ask for; it is over then
        OptionalLong until =
                left > 0 && left <= longest ? OptionalLong.of(now + left * 1_000_000) : OptionalLong.empty();
        return Optional.of(new GuardEvent.Resumed(now, trip.map(Trip::cause), asked, hardEnd, until));
    }
}
