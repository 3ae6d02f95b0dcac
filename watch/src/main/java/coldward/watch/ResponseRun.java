package coldward.watch;

import coldward.model.build.Action;
import coldward.model.build.Response;
import coldward.model.shop.LinkSpec.Proof;
import coldward.quantity.Ticker;
import coldward.watch.Link.Answer;
import coldward.watch.Link.Observation;
import coldward.watch.PrinterView.ActionView;
import coldward.watch.PrinterView.Outcome;
import coldward.watch.PrinterView.Progress;
import coldward.watch.PrinterView.TripView;
import coldward.watch.guard.TripCause;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.CompletionStage;
import org.jspecify.annotations.Nullable;

/**
 * Carries out one response: sends the actions at once and in order, confirms each by its read-back, repeats what is
 * not confirmed, then goes over to the best set of actions without it, at last to power-off. What cannot be confirmed
 * is told and tried again, less and less often, until it is confirmed or released. All in its printer's mailbox.
 */
final class ResponseRun {

    /** ns before a request that failed at once is repeated, unless its own time is shorter. */
    private static final long PAUSE = 1_000_000_000L;

    /** ns until everything unconfirmed is tried again; doubles up to the longest. */
    private static final long FIRST_ROUND = 5_000_000_000L;

    private static final long LONGEST_ROUND = 40_000_000_000L;

    private final ResponsePlan plan;
    private final Link link;
    private final Desk desk;
    private final TripCause cause;
    private final long wallMillis;
    private final long firstLowAt;
    private final long trippedAt;
    private final boolean resumed;
    private final Runnable changed;

    private final Map<Action, Task> tasks = new LinkedHashMap<>();
    private Set<Action> aim;
    private Set<Action> failedBefore = EnumSet.noneOf(Action.class);
    private boolean powerWanted;
    private Ticker.@Nullable Pending powerTimer;
    private Ticker.@Nullable Pending roundTimer;
    private long nextRound = FIRST_ROUND;
    private boolean heardSinceRound;
    private boolean alarmed;
    private Outcome outcome = Outcome.RUNNING;
    private OptionalLong safeAt = OptionalLong.empty();
    private boolean closed;

    private static final class Task {
        final Action action;
        Progress progress = Progress.SENT;
        int attempts;
        int attemptsThisRound;
        long attemptAt;
        OptionalLong sentAt = OptionalLong.empty();
        OptionalLong answeredAt = OptionalLong.empty();
        OptionalLong confirmedAt = OptionalLong.empty();
        String trouble = "";

        Task(Action action) {
            this.action = action;
        }

        ActionView view() {
            return new ActionView(action, progress, attempts, sentAt, answeredAt, confirmedAt, trouble);
        }
    }

    /**
     * @param firstLowAt of the first low report, ns
     * @param trippedAt of the trip, ns
     * @param resumed the trip is from before the watch's last start
     * @param changed run when there is something new to see
     */
    ResponseRun(
            ResponsePlan plan,
            Link link,
            Desk desk,
            TripCause cause,
            long wallMillis,
            long firstLowAt,
            long trippedAt,
            boolean resumed,
            Runnable changed) {
        this.plan = plan;
        this.link = link;
        this.desk = desk;
        this.cause = cause;
        this.wallMillis = wallMillis;
        this.firstLowAt = firstLowAt;
        this.trippedAt = trippedAt;
        this.resumed = resumed;
        this.changed = changed;
        this.aim = plan.actions();
    }

    /**
     * Sends the response.
     *
     * @param afterSending run when the requests are out, before anything of them is journalled
     */
    void start(Runnable afterSending) {
        EnumSet<Action> first = EnumSet.copyOf(plan.actions());
        powerWanted = first.remove(Action.POWER_OFF);
        List<Task> sent = request(first);
        afterSending.run();
        desk.journal("response-started", "actions", Response.words(plan.actions()), "again", resumed ? 1L : 0L);
        sent.forEach(this::journalSent);
        settle();
    }

    /** The response was finished before the watch's last start; nothing is sent. */
    void alreadyFinished() {
        outcome = Outcome.SAFE;
    }

    /** Looks for proofs in what the machine says. */
    void observed(Observation observation) {
        if (closed) {
            return;
        }
        for (Task task : List.copyOf(tasks.values())) {
            Proof proof = plan.proofs().get(task.action);
            if (proof != null
                    && task.progress != Progress.CONFIRMED
                    && task.sentAt.isPresent()
                    && observation.at() - task.sentAt.getAsLong() > 0
                    && observation.reads().has(proof.read())
                    && Math.abs(observation.reads().get(proof.read()) - proof.is()) <= proof.tolerance()) {
                confirm(task, "read-back");
            }
        }
        if (outcome == Outcome.UNCONFIRMED && roundTimer != null && !heardSinceRound) {
            // the machine can be reached again: no reason to wait for the next round
            startRound();
        }
        heardSinceRound = true;
    }

    boolean finished() {
        return outcome == Outcome.SAFE;
    }

    /** Ends it; what is under way may still arrive at the machine. */
    void close() {
        closed = true;
        if (powerTimer != null) {
            powerTimer.close();
        }
        if (roundTimer != null) {
            roundTimer.close();
        }
    }

    TripView view() {
        return new TripView(
                cause,
                wallMillis,
                firstLowAt,
                trippedAt,
                resumed,
                outcome,
                tasks.values().stream().map(Task::view).toList(),
                safeAt);
    }

    // sending

    private List<Task> request(Collection<Action> actions) {
        List<Task> sent = new ArrayList<>();
        for (Action action : actions) {
            Task task = new Task(action);
            tasks.put(action, task);
            if (plan.mapped().contains(action)) {
                request(task);
                sent.add(task);
            } else {
                task.progress = Progress.UNCONFIRMED;
                task.trouble = "the link has no request for it";
            }
        }
        return sent;
    }

    private void request(Task task) {
        long now = desk.now();
        task.attempts++;
        task.attemptsThisRound++;
        task.attemptAt = now;
        if (task.sentAt.isEmpty()) {
            task.sentAt = OptionalLong.of(now);
        }
        int attempt = task.attempts;
        CompletionStage<Answer> answer;
        try {
            answer = link.request(task.action);
        } catch (RuntimeException e) {
            desk.post(() -> answered(task, attempt, new Answer.Failed(e.toString())));
            return;
        }
        answer.whenComplete((said, error) ->
                desk.post(() -> answered(task, attempt, error == null ? said : new Answer.Failed(error.toString()))));
        desk.later(nanos(plan.secondsFor(task.action)), () -> {
            if (current(task, attempt)) {
                task.trouble = "not confirmed within " + plan.secondsFor(task.action) + " s";
                again(task);
            }
        });
    }

    private void journalSent(Task task) {
        desk.journal(
                "action-sent",
                "action",
                task.action.word(),
                "attempt",
                (long) task.attempts,
                "ms_after_trip",
                Desk.millis(trippedAt, task.attemptAt));
    }

    private void answered(Task task, int attempt, Answer answer) {
        if (closed) {
            return;
        }
        switch (answer) {
            case Answer.Taken taken -> {
                if (task.answeredAt.isEmpty()) {
                    task.answeredAt = OptionalLong.of(desk.now());
                    desk.journal(
                            "action-taken",
                            "action",
                            task.action.word(),
                            "attempt",
                            (long) attempt,
                            "ms",
                            Desk.millis(task.attemptAt, desk.now()));
                }
                if (!plan.proofs().containsKey(task.action) && task.progress != Progress.CONFIRMED) {
                    confirm(task, "answer");
                }
            }
            case Answer.Refused refused -> failed(task, attempt, refused.why());
            case Answer.Failed failed -> failed(task, attempt, failed.why());
        }
        changed.run();
    }

    private void failed(Task task, int attempt, String why) {
        desk.journal("action-failed", "action", task.action.word(), "attempt", (long) attempt, "why", why);
        if (current(task, attempt)) {
            task.trouble = why;
            long pause = Math.min(PAUSE, nanos(plan.secondsFor(task.action)));
            desk.later(task.attemptAt + pause - desk.now(), () -> {
                if (current(task, attempt)) {
                    again(task);
                }
            });
        }
    }

    /** Whether this is still the attempt that counts. */
    private boolean current(Task task, int attempt) {
        return !closed && task.progress == Progress.SENT && task.attempts == attempt;
    }

    private void again(Task task) {
        if (task.attemptsThisRound < plan.attempts()) {
            request(task);
            journalSent(task);
        } else {
            task.progress = Progress.UNCONFIRMED;
            desk.journal(
                    "action-unconfirmed",
                    "action",
                    task.action.word(),
                    "attempts",
                    (long) task.attempts,
                    "why",
                    task.trouble);
            settle();
        }
    }

    private void confirm(Task task, String by) {
        long now = desk.now();
        task.progress = Progress.CONFIRMED;
        task.confirmedAt = OptionalLong.of(now);
        desk.journal(
                "action-confirmed",
                "action",
                task.action.word(),
                "by",
                by,
                "ms",
                Desk.millis(task.sentAt.orElse(now), now),
                "ms_after_trip",
                Desk.millis(trippedAt, now));
        settle();
    }

    // what follows from how far the actions are

    private void settle() {
        judge();
        changed.run();
    }

    private void judge() {
        if (closed || outcome == Outcome.SAFE) {
            return;
        }
        considerPowerOff();
        if (safe()) {
            finish();
            return;
        }
        Set<Action> failed = with(Progress.UNCONFIRMED);
        if (!failed.isEmpty() && !failed.equals(failedBefore)) {
            failedBefore = failed;
            escalate(failed);
            considerPowerOff();
            if (safe()) {
                finish();
                return;
            }
        }
        if (with(Progress.SENT).isEmpty()
                && powerTimer == null
                && !with(Progress.UNCONFIRMED).isEmpty()) {
            exhausted();
        }
    }

    private boolean safe() {
        if (confirmed(Action.POWER_OFF)) {
            nowSafe();
            return true;
        }
        boolean planned = confirmedButPower(plan.actions());
        boolean aimed = confirmedButPower(aim);
        if (planned || aimed) {
            nowSafe();
        }
        return (planned && !plan.actions().contains(Action.POWER_OFF)) || (aimed && !powerWanted);
    }

    private void nowSafe() {
        if (safeAt.isEmpty()) {
            safeAt = OptionalLong.of(desk.now());
        }
    }

    /** All but power-off, and that at least one. */
    private boolean confirmedButPower(Set<Action> actions) {
        return actions.stream().allMatch(a -> a == Action.POWER_OFF || confirmed(a))
                && actions.stream().anyMatch(a -> a != Action.POWER_OFF);
    }

    private void finish() {
        outcome = Outcome.SAFE;
        if (roundTimer != null) {
            roundTimer.close();
        }
        Set<Action> failed = with(Progress.UNCONFIRMED);
        long now = desk.now();
        desk.journal(
                "response-finished",
                "outcome",
                "safe",
                "confirmed",
                words(with(Progress.CONFIRMED)),
                "unconfirmed",
                words(failed),
                "ms_after_first_low",
                Desk.millis(firstLowAt, safeAt.orElse(now)),
                "ms_after_trip",
                Desk.millis(trippedAt, safeAt.orElse(now)));
        desk.tell(
                Notice.Kind.MADE_SAFE,
                "%s: the response is confirmed, %.1f s after the trip"
                        .formatted(desk.printer(), (safeAt.orElse(now) - trippedAt) / 1e9),
                words(with(Progress.CONFIRMED)) + " confirmed"
                        + (failed.isEmpty() ? "" : ", " + words(failed) + " not confirmed"),
                "find out why the fan failed, mend it, then release the printer by name");
    }

    private void escalate(Set<Action> failed) {
        double elapsed = (desk.now() - firstLowAt) / 1e9;
        Optional<ResponsePlan.Choice> best = plan.bestWithout(failed);
        boolean gone = best.isPresent() && !best.get().actions().equals(aim);
        if (gone) {
            aim = best.orElseThrow().actions();
            EnumSet<Action> fresh = EnumSet.copyOf(aim);
            fresh.removeAll(tasks.keySet());
            List<Task> sent = request(fresh);
            desk.journal("escalated", "unconfirmed", words(failed), "actions", words(aim));
            sent.forEach(this::journalSent);
            desk.tell(
                    Notice.Kind.ESCALATED,
                    desk.printer() + ": " + words(failed) + " could not be confirmed",
                    "gone over to " + words(aim),
                    "go to the printer; be ready to switch it off by hand");
        }
        boolean stillSaves = best.isPresent() && best.get().saves().stillAt(elapsed);
        if (!stillSaves && plan.mapped().contains(Action.POWER_OFF)) {
            powerWanted = true;
        }
        if (!gone) {
            alarm(failed);
        }
    }

    private void alarm(Set<Action> failed) {
        if (alarmed) {
            return;
        }
        alarmed = true;
        boolean powerToCome =
                powerWanted && plan.mapped().contains(Action.POWER_OFF) && !failed.contains(Action.POWER_OFF);
        desk.journal("response-unconfirmed", "unconfirmed", words(failed));
        desk.tell(
                Notice.Kind.RESPONSE_UNCONFIRMED,
                desk.printer() + ": tripped, but " + words(failed) + " could not be confirmed",
                words(with(Progress.CONFIRMED)) + " confirmed; "
                        + (powerToCome ? "power-off follows" : "the rest is tried again until it is"),
                "switch the printer off by hand now");
    }

    private void considerPowerOff() {
        if (!powerWanted || tasks.containsKey(Action.POWER_OFF)) {
            return;
        }
        Task heater = tasks.get(Action.HEATER_OFF);
        boolean heaterOff = heater != null && heater.progress == Progress.CONFIRMED;
        boolean heaterOpen = heater != null && heater.progress == Progress.SENT;
        if (heaterOpen || (heaterOff && !with(Progress.SENT).isEmpty())) {
            return;
        }
        Task blown = tasks.get(Action.BLOCK_FAN);
        if (heaterOff && blown != null && blown.confirmedAt.isPresent()) {
            long earliest = blown.confirmedAt.getAsLong() + nanos(plan.blockFanSeconds());
            if (desk.now() - earliest < 0) {
                if (powerTimer == null) {
                    powerTimer = desk.later(earliest - desk.now(), this::blownLongEnough);
                    desk.journal("power-off-waits", "ms", Desk.millis(desk.now(), earliest));
                }
                return;
            }
        }
        request(EnumSet.of(Action.POWER_OFF)).forEach(this::journalSent);
    }

    private void blownLongEnough() {
        powerTimer = null;
        settle();
    }

    private void exhausted() {
        if (roundTimer != null) {
            return;
        }
        outcome = Outcome.UNCONFIRMED;
        Set<Action> failed = with(Progress.UNCONFIRMED);
        alarm(failed);
        if (failed.stream().anyMatch(plan.mapped()::contains)) {
            roundTimer = desk.later(nextRound, this::startRound);
            nextRound = Math.min(2 * nextRound, LONGEST_ROUND);
        }
    }

    private void startRound() {
        if (roundTimer != null) {
            roundTimer.close();
            roundTimer = null;
        }
        if (closed || outcome == Outcome.SAFE) {
            return;
        }
        heardSinceRound = false;
        failedBefore = EnumSet.noneOf(Action.class);
        List<Task> sent = new ArrayList<>();
        for (Task task : List.copyOf(tasks.values())) {
            if (task.progress == Progress.UNCONFIRMED && plan.mapped().contains(task.action)) {
                task.progress = Progress.SENT;
                task.attemptsThisRound = 0;
                request(task);
                sent.add(task);
            }
        }
        sent.forEach(this::journalSent);
        settle();
    }

    private boolean confirmed(Action action) {
        Task task = tasks.get(action);
        return task != null && task.progress == Progress.CONFIRMED;
    }

    private Set<Action> with(Progress progress) {
        EnumSet<Action> such = EnumSet.noneOf(Action.class);
        for (Task task : tasks.values()) {
            if (task.progress == progress) {
                such.add(task.action);
            }
        }
        return such;
    }

    private static String words(Set<Action> actions) {
        return actions.isEmpty() ? "nothing" : Response.words(actions);
    }

    private static long nanos(double seconds) {
        return Math.round(seconds * 1e9);
    }
}
