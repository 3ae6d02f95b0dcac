package coldward.watch;

import coldward.model.build.Action;
import coldward.model.build.Response;
import coldward.model.shop.LinkSpec.Proof;
import coldward.quantity.Ticker;
import coldward.watch.Link.Answer;
import coldward.watch.Link.Observation;
import coldward.watch.PrinterView.Outcome;
import coldward.watch.PrinterView.Progress;
import coldward.watch.PrinterView.TripView;
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
    private final TripFacts trip;
    private final Runnable changed;

    private final Map<Action, Errand> errands = new LinkedHashMap<>();
    private Set<Action> aim;
    private Set<Action> failedBefore = EnumSet.noneOf(Action.class);
    private boolean powerWanted;
    private Ticker.@Nullable Pending powerTimer;
    private Ticker.@Nullable Pending roundTimer;
    private long nextRound = FIRST_ROUND;
    private boolean heardSinceRound;
    private boolean alarmed;
    private final Set<Action> undoneTold = EnumSet.noneOf(Action.class);
    private Outcome outcome = Outcome.RUNNING;
    private OptionalLong safeAt = OptionalLong.empty();
    private boolean closed;

    /** @param changed run when there is something new to see */
    ResponseRun(ResponsePlan plan, Link link, Desk desk, TripFacts trip, Runnable changed) {
        this.plan = plan;
        this.link = link;
        this.desk = desk;
        this.trip = trip;
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
        List<Errand> sent = request(first);
        afterSending.run();
        desk.journal("response-started", "actions", Response.words(plan.actions()), "again", trip.resumed() ? 1L : 0L);
        sent.forEach(e -> e.journalSent(desk, trip.trippedAt()));
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
        for (Errand errand : List.copyOf(errands.values())) {
            Proof proof = plan.proofs().get(errand.action);
            if (proof == null
                    || errand.sentAt.isEmpty()
                    || observation.at() - errand.sentAt.getAsLong() <= 0
                    || !observation.reads().has(proof.read())) {
                continue;
            }
            boolean shown = Math.abs(observation.reads().get(proof.read()) - proof.is()) <= proof.tolerance();
            if (shown && errand.progress != Progress.CONFIRMED) {
                confirm(errand, "read-back");
            } else if (!shown
                    && errand.progress == Progress.CONFIRMED
                    && outcome != Outcome.SAFE
                    && desk.now() - errand.attemptAt >= PAUSE) {
                undone(errand);
            }
        }
        if (outcome == Outcome.UNCONFIRMED && roundTimer != null && !heardSinceRound) {
            // the machine can be reached again: no reason to wait for the next round
            startRound();
        }
        heardSinceRound = true;
    }

    /** Confirmed once, but set back before the response was finished, by hand or by the machine: requested again. */
    private void undone(Errand errand) {
        errand.progress = Progress.SENT;
        errand.attemptsThisRound = 0;
        request(errand);
        desk.journal("action-undone", "action", errand.action.word(), "ms_after_trip", sinceTrip());
        errand.journalSent(desk, trip.trippedAt());
        if (undoneTold.add(errand.action)) {
            desk.tell(
                    Notice.Kind.UNDONE,
                    "%s: %s was confirmed but has been set back".formatted(desk.printer(), errand.action.word()),
                    errand.action.word() + " requested again",
                    "leave the machine alone until its response is confirmed; see who or what sets it back");
        }
        settle();
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
        return trip.view(outcome, errands.values().stream().map(Errand::view).toList(), safeAt);
    }

    // sending

    private List<Errand> request(Collection<Action> actions) {
        List<Errand> sent = new ArrayList<>();
        for (Action action : actions) {
            Errand errand = new Errand(action);
            errands.put(action, errand);
            if (plan.mapped().contains(action)) {
                request(errand);
                sent.add(errand);
            } else {
                errand.progress = Progress.UNCONFIRMED;
                errand.trouble = "the link has no request for it";
            }
        }
        return sent;
    }

    private void request(Errand errand) {
        long now = desk.now();
        errand.attempts++;
        errand.attemptsThisRound++;
        errand.attemptAt = now;
        if (errand.sentAt.isEmpty()) {
            errand.sentAt = OptionalLong.of(now);
        }
        int attempt = errand.attempts;
        CompletionStage<Answer> answer;
        try {
            answer = link.request(errand.action);
        } catch (RuntimeException e) {
            desk.post(() -> answered(errand, attempt, new Answer.Failed(e.toString())));
            return;
        }
        answer.whenComplete((said, error) ->
                desk.post(() -> answered(errand, attempt, error == null ? said : new Answer.Failed(error.toString()))));
        desk.later(nanos(plan.secondsFor(errand.action)), () -> {
            if (current(errand, attempt)) {
                errand.trouble = "not confirmed within " + plan.secondsFor(errand.action) + " s";
                again(errand);
            }
        });
    }

    private void answered(Errand errand, int attempt, Answer answer) {
        if (closed) {
            return;
        }
        switch (answer) {
            case Answer.Taken taken -> {
                if (errand.answeredAt.isEmpty()) {
                    errand.answeredAt = OptionalLong.of(desk.now());
                    errand.journalTaken(desk, attempt, trip.trippedAt());
                }
                if (!plan.proofs().containsKey(errand.action) && errand.progress != Progress.CONFIRMED) {
                    confirm(errand, "answer");
                }
            }
            case Answer.Refused refused -> failed(errand, attempt, refused.why());
            case Answer.Failed failed -> failed(errand, attempt, failed.why());
        }
        changed.run();
    }

    private void failed(Errand errand, int attempt, String why) {
        desk.journal(
                "action-failed",
                "action",
                errand.action.word(),
                "attempt",
                (long) attempt,
                "why",
                why,
                "ms_after_trip",
                sinceTrip());
        if (current(errand, attempt)) {
            errand.trouble = why;
            long pause = Math.min(PAUSE, nanos(plan.secondsFor(errand.action)));
            desk.later(errand.attemptAt + pause - desk.now(), () -> {
                if (current(errand, attempt)) {
                    again(errand);
                }
            });
        }
    }

    /** Whether this is still the attempt that counts. */
    private boolean current(Errand errand, int attempt) {
        return !closed && errand.progress == Progress.SENT && errand.attempts == attempt;
    }

    private void again(Errand errand) {
        if (errand.attemptsThisRound < plan.attempts()) {
            request(errand);
            errand.journalSent(desk, trip.trippedAt());
        } else {
            errand.progress = Progress.UNCONFIRMED;
            errand.journalUnconfirmed(desk, trip.trippedAt());
            settle();
        }
    }

    private void confirm(Errand errand, String by) {
        errand.progress = Progress.CONFIRMED;
        errand.confirmedAt = OptionalLong.of(desk.now());
        errand.journalConfirmed(desk, by, trip.trippedAt());
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
                Desk.millis(trip.firstLowAt(), safeAt.orElse(now)),
                "ms_after_trip",
                Desk.millis(trip.trippedAt(), safeAt.orElse(now)));
        desk.tell(
                Notice.Kind.MADE_SAFE,
                "%s: the response is confirmed, %.1f s after the trip"
                        .formatted(desk.printer(), (safeAt.orElse(now) - trip.trippedAt()) / 1e9),
                words(with(Progress.CONFIRMED)) + " confirmed"
                        + (failed.isEmpty() ? "" : ", " + words(failed) + " not confirmed"),
                "find out why the fan failed, mend it, then release the printer by name");
    }

    private void escalate(Set<Action> failed) {
        double elapsed = (desk.now() - trip.firstLowAt()) / 1e9;
        Optional<ResponsePlan.Choice> best = plan.bestWithout(failed);
        boolean gone = best.isPresent() && !best.get().actions().equals(aim);
        if (gone) {
            aim = best.orElseThrow().actions();
            EnumSet<Action> fresh = EnumSet.copyOf(aim);
            fresh.removeAll(errands.keySet());
            List<Errand> sent = request(fresh);
            desk.journal(
                    "escalated", "unconfirmed", words(failed), "actions", words(aim), "ms_after_trip", sinceTrip());
            sent.forEach(e -> e.journalSent(desk, trip.trippedAt()));
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
        desk.journal("response-unconfirmed", "unconfirmed", words(failed), "ms_after_trip", sinceTrip());
        desk.tell(
                Notice.Kind.RESPONSE_UNCONFIRMED,
                desk.printer() + ": tripped, but " + words(failed) + " could not be confirmed",
                words(with(Progress.CONFIRMED)) + " confirmed; "
                        + (powerToCome ? "power-off follows" : "the rest is tried again until it is"),
                "switch the printer off by hand now");
    }

    private void considerPowerOff() {
        if (!powerWanted || errands.containsKey(Action.POWER_OFF)) {
            return;
        }
        Errand heater = errands.get(Action.HEATER_OFF);
        boolean heaterOff = heater != null && heater.progress == Progress.CONFIRMED;
        boolean heaterOpen = heater != null && heater.progress == Progress.SENT;
        if (heaterOpen || (heaterOff && !with(Progress.SENT).isEmpty())) {
            return;
        }
        OptionalLong blows = blowsSince();
        if (heaterOff && blows.isPresent()) {
            long earliest = blows.getAsLong() + nanos(plan.blockFanSeconds());
            if (desk.now() - earliest < 0) {
                if (powerTimer == null) {
                    powerTimer = desk.later(earliest - desk.now(), this::blownLongEnough);
                    desk.journal(
                            "power-off-waits", "ms", Desk.millis(desk.now(), earliest), "ms_after_trip", sinceTrip());
                }
                return;
            }
        }
        request(EnumSet.of(Action.POWER_OFF)).forEach(e -> e.journalSent(desk, trip.trippedAt()));
    }

    /** A block-fan that was taken but cannot be proved may blow all the same: power-off would stop it. */
    private OptionalLong blowsSince() {
        Errand blown = errands.get(Action.BLOCK_FAN);
        if (blown == null) {
            return OptionalLong.empty();
        }
        return blown.confirmedAt.isPresent() ? blown.confirmedAt : blown.answeredAt;
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
        List<Errand> sent = new ArrayList<>();
        for (Errand errand : List.copyOf(errands.values())) {
            if (errand.progress == Progress.UNCONFIRMED && plan.mapped().contains(errand.action)) {
                errand.progress = Progress.SENT;
                errand.attemptsThisRound = 0;
                request(errand);
                sent.add(errand);
            }
        }
        sent.forEach(e -> e.journalSent(desk, trip.trippedAt()));
        settle();
    }

    private long sinceTrip() {
        return Desk.millis(trip.trippedAt(), desk.now());
    }

    private boolean confirmed(Action action) {
        Errand errand = errands.get(action);
        return errand != null && errand.progress == Progress.CONFIRMED;
    }

    private Set<Action> with(Progress progress) {
        EnumSet<Action> such = EnumSet.noneOf(Action.class);
        for (Errand errand : errands.values()) {
            if (errand.progress == progress) {
                such.add(errand.action);
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
