package coldward.watch;

import coldward.watch.PrinterView.ActionView;
import coldward.watch.PrinterView.Outcome;
import coldward.watch.PrinterView.TripView;
import coldward.watch.guard.TripCause;
import java.util.List;
import java.util.OptionalLong;

/**
 * What a response answers.
 *
 * @param cause why
 * @param wallMillis when it tripped, wall time, ms since 1970
 * @param firstLowAt when the first low report came, ns
 * @param trippedAt when it tripped, ns
 * @param resumed the trip is from before the watch's last start
 */
record TripFacts(TripCause cause, long wallMillis, long firstLowAt, long trippedAt, boolean resumed) {

    TripView view(Outcome outcome, List<ActionView> actions, OptionalLong safeAt) {
        return new TripView(cause, wallMillis, firstLowAt, trippedAt, resumed, outcome, actions, safeAt);
    }
}
