package coldward.watch;

import coldward.model.build.Action;
import coldward.watch.PrinterView.ActionView;
import coldward.watch.PrinterView.Progress;
import java.util.OptionalLong;

/** One action of a response under way. Times are ns; changed only within its printer's mailbox. */
final class Errand {

    final Action action;
    Progress progress = Progress.SENT;

    /** Requests so far. */
    int attempts;

    /** Of them, since the last round began. */
    int attemptsThisRound;

    /** Of the last request. */
    long attemptAt;

    OptionalLong sentAt = OptionalLong.empty();
    OptionalLong answeredAt = OptionalLong.empty();
    OptionalLong confirmedAt = OptionalLong.empty();

    /** What went wrong last. */
    String trouble = "";

    Errand(Action action) {
        this.action = action;
    }

    void journalSent(Desk desk, long trippedAt) {
        desk.journal(
                "action-sent",
                "action",
                action.word(),
                "attempt",
                (long) attempts,
                "ms_after_trip",
                Desk.millis(trippedAt, attemptAt));
    }

    ActionView view() {
        return new ActionView(action, progress, attempts, sentAt, answeredAt, confirmedAt, trouble);
    }
}
