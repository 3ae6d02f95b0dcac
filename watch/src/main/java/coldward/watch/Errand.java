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

    void journalTaken(Desk desk, int attempt, long trippedAt) {
        long now = desk.now();
        desk.journal(
                "action-taken",
                "action",
                action.word(),
                "attempt",
                (long) attempt,
                "ms",
                Desk.millis(attemptAt, now),
                "ms_after_trip",
                Desk.millis(trippedAt, now));
    }

    void journalConfirmed(Desk desk, String by, long trippedAt) {
        long now = desk.now();
        desk.journal(
                "action-confirmed",
                "action",
                action.word(),
                "by",
                by,
                "attempt",
                (long) attempts,
                "ms",
                Desk.millis(sentAt.orElse(now), now),
                "ms_of_attempt",
                Desk.millis(attemptAt, now),
                "ms_after_trip",
                Desk.millis(trippedAt, now));
    }

    void journalUnconfirmed(Desk desk, long trippedAt) {
        desk.journal(
                "action-unconfirmed",
                "action",
                action.word(),
                "attempts",
                (long) attempts,
                "why",
                trouble,
                "ms_after_trip",
                Desk.millis(trippedAt, desk.now()));
    }

    ActionView view() {
        return new ActionView(action, progress, attempts, sentAt, answeredAt, confirmedAt, trouble);
    }
}
