package coldward.watch;

import coldward.model.build.Action;
import coldward.watch.guard.FanState;
import coldward.watch.guard.Reads;
import coldward.watch.guard.TripCause;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * One printer as it stood at one moment, for tables and pages. Times are ns of the ticker.
 *
 * @param printer its name
 * @param fan the fan's state
 * @param since when that state was entered
 * @param speed the last speed, rpm
 * @param heardAt when the last report came
 * @param reads the last value of each read
 * @param asked whether the fan should turn
 * @param confirmations low reports in a row so far
 * @param outOfReach unheard, but last seen at rest and cold, or never seen
 * @param bypassUntil when a bypass ends
 * @param trip what was done, while tripped
 * @param lastDrill the last drill that was carried to its end; empty if there has been none
 * @param link how the link fares
 */
public record PrinterView(
        String printer,
        FanState fan,
        long since,
        OptionalDouble speed,
        OptionalLong heardAt,
        Reads reads,
        boolean asked,
        int confirmations,
        boolean outOfReach,
        OptionalLong bypassUntil,
        Optional<TripView> trip,
        Optional<LastDrill> lastDrill,
        LinkView link) {

    /** s since the last report. */
    public OptionalDouble age(long now) {
        return heardAt.isPresent() ? OptionalDouble.of((now - heardAt.getAsLong()) / 1e9) : OptionalDouble.empty();
    }

    /**
     * The last drill that was carried to its end.
     *
     * @param wallMillis when, wall time, ms since 1970
     * @param passed whether it was passed
     */
    public record LastDrill(long wallMillis, boolean passed) {

        private static final long MILLIS_PER_DAY = 86_400_000;

        /**
         * Whole days since then; 0 where the wall clock was set back.
         *
         * @param nowMillis wall time, ms since 1970
         */
        public long days(long nowMillis) {
            return Math.max(0, (nowMillis - wallMillis) / MILLIS_PER_DAY);
        }
    }

    /**
     * How a link fares.
     *
     * @param observations answers used, since the watch began
     * @param troubles things that could not be used, since the watch began
     * @param last the last of them
     */
    public record LinkView(long observations, long troubles, Optional<Link.Trouble> last) {}

    /**
     * A trip and its response.
     *
     * @param cause why
     * @param wallMillis when it tripped, wall time, ms since 1970
     * @param firstLowAt when the first low report came; equal to {@code trippedAt} where the cause is another
     * @param trippedAt when it tripped
     * @param resumed the trip is from before the watch's last start; its ns times are then worked out from wall time
     * @param outcome how far the response is
     * @param actions each action requested so far, in the order of sending
     * @param safeAt when the last action needed for safety (power-off apart, if others did) was confirmed
     */
    public record TripView(
            TripCause cause,
            long wallMillis,
            long firstLowAt,
            long trippedAt,
            boolean resumed,
            Outcome outcome,
            List<ActionView> actions,
            OptionalLong safeAt) {
        public TripView {
            actions = List.copyOf(actions);
        }

        /** s from the first low report until safe. */
        public OptionalDouble secondsToSafe() {
            return safeAt.isPresent()
                    ? OptionalDouble.of((safeAt.getAsLong() - firstLowAt) / 1e9)
                    : OptionalDouble.empty();
        }
    }

    /** How far a response is. */
    public enum Outcome {
        /** Under way. */
        RUNNING,
        /** Everything it needs is confirmed. */
        SAFE,
        /** Everything was tried and something is not confirmed; it is tried again and again. */
        UNCONFIRMED
    }

    /**
     * One action.
     *
     * @param action which
     * @param progress how far
     * @param attempts how often it was requested
     * @param sentAt when it was first requested
     * @param answeredAt when the machine first said that it has it
     * @param confirmedAt when its effect was first seen
     * @param trouble what went wrong last; empty if nothing did
     */
    public record ActionView(
            Action action,
            Progress progress,
            int attempts,
            OptionalLong sentAt,
            OptionalLong answeredAt,
            OptionalLong confirmedAt,
            String trouble) {}

    /** How far an action is. */
    public enum Progress {
        SENT,
        CONFIRMED,
        UNCONFIRMED
    }
}
