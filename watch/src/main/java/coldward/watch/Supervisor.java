package coldward.watch;

import coldward.model.build.Response;
import coldward.quantity.Ticker;
import coldward.watch.Link.Observation;
import coldward.watch.Link.Trouble;
import coldward.watch.PrinterView.LinkView;
import coldward.watch.guard.Effect;
import coldward.watch.guard.FanState;
import coldward.watch.guard.Guard;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.GuardState;
import coldward.watch.guard.Step;
import coldward.watch.guard.TripCause;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Looks after one printer: runs its guard on what the link says, carries out what the guard asks for, journals it, and
 * keeps a view of it all. Everything happens in one mailbox, one thing after another; nothing blocks.
 */
final class Supervisor implements Link.Listener {

    /** ns between two journal entries about the same kind of trouble. */
    private static final long TROUBLE_PAUSE = 60_000_000_000L;

    /** ns by which a wake-up may be late before the watch itself counts as having stood still. */
    private static final long LATE = 1_000_000_000L;

    /** Told of silence, so that a common cause can be named. */
    interface Silence {
        void unheard(String printer, String place, double seconds);

        /** Returns whether people were told of the silence that is over. */
        boolean heardAgain(String printer);
    }

    private final WatchedPrinter printer;
    private final Guard guard;
    private final Link link;
    private final Desk desk;
    private final History history;
    private final Consumer<PrinterView> viewed;
    private final Silence silence;

    private GuardState state;
    private @Nullable ResponseRun run;
    private Ticker.@Nullable Pending wake;
    private long wakeAt;
    private long observations;
    private long troubles;
    private Optional<Trouble> lastTrouble = Optional.empty();
    private final Map<Trouble.Kind, Long> troubleJournalledAt = new EnumMap<>(Trouble.Kind.class);
    private Optional<PrinterView.LastDrill> lastDrill = Optional.empty();
    private boolean closed;
    private volatile PrinterView view;

    Supervisor(
            WatchedPrinter printer,
            Link link,
            Desk desk,
            History history,
            Consumer<PrinterView> viewed,
            Silence silence) {
        this.printer = printer;
        this.guard = new Guard(printer.settings());
        this.link = link;
        this.desk = desk;
        this.history = history;
        this.viewed = viewed;
        this.silence = silence;
        this.state = GuardState.begin(desk.now());
        this.view = snapshot();
    }

    /** Takes up what the journal knows, finishes an unfinished response and begins to read. */
    void start(Past past) {
        desk.post(() -> {
            past.event(desk.now(), desk.wallMillis()).ifPresent(event -> {
                desk.journal(
                        "resumed",
                        "tripped",
                        past.trip().isPresent() ? 1L : 0L,
                        "response_finished",
                        past.responseFinished() ? 1L : 0L,
                        "asked",
                        past.asked() ? 1L : 0L,
                        "hard_end",
                        past.hardEnd() ? 1L : 0L);
                step(event);
            });
            lastDrill = past.lastDrill();
            past.trip().ifPresent(trip -> resumeTrip(trip, past.responseFinished()));
            link.start(this);
            scheduleWake();
            publish();
        });
    }

    private void resumeTrip(Past.Trip trip, boolean finished) {
        long trippedAt = desk.now() - (desk.wallMillis() - trip.wallMillis()) * 1_000_000;
        TripFacts facts = new TripFacts(
                trip.cause(), trip.wallMillis(), trippedAt - trip.lowForMillis() * 1_000_000, trippedAt, true);
        ResponseRun again = new ResponseRun(printer.plan(), link, desk, facts, this::publish);
        run = again;
        if (finished) {
            again.alreadyFinished();
        } else {
            again.start(() -> {});
        }
    }

    @Override
    public void observed(Observation observation) {
        desk.post(() -> {
            if (closed) {
                return;
            }
            observations++;
            step(new GuardEvent.Report(observation.at(), observation.reads()));
            if (run != null) {
                run.observed(observation);
            }
            history.keep(printer.name(), desk.wallMillis(), observation.reads());
            publish();
        });
    }

    @Override
    public void troubled(Trouble trouble) {
        desk.post(() -> {
            if (closed) {
                return;
            }
            troubles++;
            lastTrouble = Optional.of(trouble);
            Long before = troubleJournalledAt.get(trouble.kind());
            if (before == null || desk.now() - before >= TROUBLE_PAUSE) {
                troubleJournalledAt.put(trouble.kind(), desk.now());
                desk.journal(
                        "link-trouble",
                        "kind",
                        trouble.kind().word(),
                        "detail",
                        trouble.detail(),
                        "troubles_so_far",
                        troubles);
            }
            publish();
        });
    }

    CompletionStage<Boolean> release(String name, String reason) {
        // checked here, so that the caller hears of a missing name at once
        GuardEvent.Release event = new GuardEvent.Release(desk.now(), name, reason);
        CompletableFuture<Boolean> released = new CompletableFuture<>();
        desk.post(() -> {
            boolean tripped = state.fan() == FanState.TRIPPED;
            step(event);
            publish();
            released.complete(tripped);
        });
        return released;
    }

    CompletionStage<Void> bypass(String name, String reason, long nanos) {
        long now = desk.now();
        GuardEvent.Bypass event = new GuardEvent.Bypass(now, name, reason, now + nanos);
        CompletableFuture<Void> done = new CompletableFuture<>();
        desk.post(() -> {
            step(event);
            publish();
            done.complete(null);
        });
        return done;
    }

    void drilled(PrinterView.LastDrill drill) {
        desk.post(() -> {
            lastDrill = Optional.of(drill);
            publish();
        });
    }

    PrinterView view() {
        return view;
    }

    void close() {
        desk.post(() -> {
            closed = true;
            if (wake != null) {
                wake.close();
            }
            if (run != null) {
                run.close();
            }
            link.close();
        });
    }

    // the guard

    private void step(GuardEvent event) {
        Step step = guard.step(state, event);
        state = step.state();
        for (Effect effect : step.effects()) {
            if (effect instanceof Effect.StartResponse response) {
                // first of all: the requests go out before anything is written
                respond(response, step);
                return;
            }
        }
        step.effects().forEach(this::carryOut);
        scheduleWake();
    }

    private void respond(Effect.StartResponse response, Step step) {
        TripFacts facts = new TripFacts(response.cause(), desk.wallMillis(), response.firstLowAt(), desk.now(), false);
        ResponseRun started = new ResponseRun(printer.plan(), link, desk, facts, this::publish);
        run = started;
        started.start(() -> {
            step.effects().forEach(this::carryOut);
            journalTrip(response);
        });
        scheduleWake();
    }

    /** The response again, for a printer that was heated or set to work without a release; one under way suffices. */
    private void respondAgain(Effect.RespondAgain again) {
        ResponseRun before = run;
        if (before != null && !before.finished()) {
            return;
        }
        if (before != null) {
            before.close();
        }
        TripFacts facts = new TripFacts(
                state.cause().orElse(TripCause.LOW_SPEED), desk.wallMillis(), again.firstLowAt(), desk.now(), false);
        ResponseRun started = new ResponseRun(printer.plan(), link, desk, facts, this::publish);
        run = started;
        started.start(() -> {
            journalTrip(facts.cause(), again.firstLowAt(), again.at(), true);
            desk.tell(
                    Notice.Kind.TRIP_AGAIN,
                    "%s: heated or set to work again although tripped, and its fan does not turn (%.0f rpm)"
                            .formatted(printer.name(), state.speed().orElse(0)),
                    Response.words(printer.plan().actions()) + " requested again",
                    "do not heat it before the fan is mended; then release it by name");
        });
    }

    private void journalTrip(TripCause cause, long firstLowAt, long at, boolean again) {
        desk.journal(
                "trip",
                "cause",
                cause.word(),
                "speed_rpm",
                Math.round(state.speed().orElse(0)),
                "trip_speed_rpm",
                Math.round(printer.settings().tripSpeed()),
                "confirmations",
                (long) state.confirmations(),
                "ms_low",
                Desk.millis(firstLowAt, at),
                "again",
                again ? 1L : 0L);
    }

    private void journalTrip(Effect.StartResponse response) {
        journalTrip(response.cause(), response.firstLowAt(), response.at(), false);
        String happened = switch (response.cause()) {
            case LOW_SPEED ->
                "%s: %d reports in a row below %.0f rpm, the last %.0f rpm"
                        .formatted(
                                printer.name(),
                                state.confirmations(),
                                printer.settings().tripSpeed(),
                                state.speed().orElse(0));
            case UNHEARD -> "%s: unheard for too long while hot or working".formatted(printer.name());
            case CONTRADICTED -> "%s: two signals about the fan disagree".formatted(printer.name());
        };
        desk.tell(
                Notice.Kind.TRIP,
                happened,
                Response.words(printer.plan().actions()) + " requested",
                "leave the printer alone until the response is confirmed; after mending, release it by name");
    }

    private void carryOut(Effect effect) {
        String name = printer.name();
        switch (effect) {
            case Effect.Changed changed ->
                desk.journal(
                        "state-changed",
                        "from",
                        changed.from().word(),
                        "to",
                        changed.to().word(),
                        "asked",
                        state.asked() ? 1L : 0L);
            case Effect.StartResponse response -> {
                // already under way, see step
            }
            case Effect.Tell tell -> tell(tell.matter());
            case Effect.RespondAgain again -> respondAgain(again);
            case Effect.Released released -> {
                endResponse();
                desk.journal("release", "name", released.name(), "reason", released.reason());
                desk.tell(
                        Notice.Kind.RELEASED,
                        "%s: released by %s, %s".formatted(name, released.name(), released.reason()),
                        "the printer is watched again",
                        "watch the first minutes yourself");
            }
            case Effect.NotReleased refused ->
                desk.journal("release-without-trip", "name", refused.name(), "reason", refused.reason());
            case Effect.Bypassed bypassed -> {
                long untilMillis = desk.wallMillis() + (bypassed.until() - bypassed.at()) / 1_000_000;
                desk.journal("bypass", "name", bypassed.name(), "reason", bypassed.reason(), "until_ms", untilMillis);
                desk.tell(
                        Notice.Kind.BYPASSED,
                        "%s: bypassed by %s, %s".formatted(name, bypassed.name(), bypassed.reason()),
                        "nothing trips for %d s".formatted((bypassed.until() - bypassed.at()) / 1_000_000_000L),
                        "do not leave the printer alone until then");
            }
            case Effect.BypassOver over -> {
                desk.journal("bypass-over");
                desk.tell(
                        Notice.Kind.BYPASS_OVER,
                        name + ": the bypass is over",
                        "the printer trips again when it must",
                        "nothing");
            }
        }
    }

    private void endResponse() {
        if (run != null) {
            if (!run.finished()) {
                desk.journal("response-finished", "outcome", "released");
            }
            run.close();
            run = null;
        }
    }

    private void tell(Effect.Matter matter) {
        String name = printer.name();
        switch (matter) {
            case UNHEARD ->
                silence.unheard(name, link.place(), printer.settings().unheardAfter() / 1e9);
            case HEARD_AGAIN -> {
                if (silence.heardAgain(name)) {
                    desk.tell(
                            Notice.Kind.HEARD_AGAIN, name + ": heard again", "the printer is watched again", "nothing");
                }
            }
            case WARMING ->
                desk.tell(
                        Notice.Kind.CONTRADICTED,
                        name + ": the cold side warms although the fan's speed is fine",
                        done(),
                        "see whether the duct is off, the fins are dirty or the fan is reversed");
            case TURNS_WHILE_OFF ->
                desk.tell(
                        Notice.Kind.CONTRADICTED,
                        name + ": a speed is shown although the fan is commanded off",
                        done(),
                        "do not trust the reading: look whether the fan turns");
            case USED_WHILE_TRIPPED ->
                desk.tell(
                        Notice.Kind.USED_WHILE_TRIPPED,
                        name + ": heated or set to work again although tripped; its fan turns",
                        "nothing; the response comes again if the fan stops turning",
                        "if it is mended, release it by name, so that it is watched in full");
            case AGREES_AGAIN ->
                desk.tell(
                        Notice.Kind.AGREES_AGAIN,
                        name + ": the signals agree again",
                        "nothing",
                        "find out why they did not");
        }
    }

    private String done() {
        return printer.settings().contradictedResponds() ? "the response starts" : "nothing; only told";
    }

    private void scheduleWake() {
        OptionalLong next = guard.wakeAt(state);
        if (next.isEmpty()) {
            return;
        }
        if (wake != null && wakeAt - next.getAsLong() <= 0) {
            // an earlier wake-up looks again by itself; cheaper than a new one after every report
            return;
        }
        if (wake != null) {
            wake.close();
        }
        wakeAt = next.getAsLong();
        wake = desk.later(wakeAt - desk.now(), this::wakeUp);
    }

    private void wakeUp() {
        if (closed) {
            return;
        }
        wake = null;
        long now = desk.now();
        if (now - wakeAt > Math.max(LATE, printer.settings().unheardAfter() / 2)) {
            desk.journal("watch-stood-still", "ms", Desk.millis(wakeAt, now));
            step(new GuardEvent.Stalled(now));
        }
        step(new GuardEvent.Tick(now));
        publish();
    }

    private void publish() {
        PrinterView next = snapshot();
        view = next;
        viewed.accept(next);
    }

    private PrinterView snapshot() {
        return new PrinterView(
                printer.name(),
                state.fan(),
                state.since(),
                state.speed(),
                state.heardAt(),
                state.held(),
                state.asked(),
                state.confirmations(),
                state.outOfReach(),
                state.bypassUntil(),
                Optional.ofNullable(run).map(ResponseRun::view),
                lastDrill,
                new LinkView(observations, troubles, lastTrouble));
    }
}
