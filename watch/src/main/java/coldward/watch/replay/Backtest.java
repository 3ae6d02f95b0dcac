package coldward.watch.replay;

import coldward.model.shop.ReadName;
import coldward.watch.guard.Effect;
import coldward.watch.guard.FanState;
import coldward.watch.guard.Guard;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.GuardState;
import coldward.watch.guard.Reads;
import coldward.watch.guard.Step;
import coldward.watch.guard.TripCause;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;

/**
 * What the guard would have done with recorded reports: the same {@link Guard#step} as in the watch, silence included. A
 * trip latches; here it is taken back once its cause is over (as many good reports in a row as a trip takes low ones, or the
 * fan not asked), so that one failure counts once and the next is found. A near-trip is a row of low reports that ended
 * one short of a trip.
 */
public final class Backtest implements Consumer<GuardEvent.Report> {

    /** Trips and near-trips that are listed; all of them are counted. */
    public static final int MOST_LISTED = 1000;

    private static final double NS = 1e9;

    private final Guard guard;
    private final int confirmations;
    private GuardState state = GuardState.begin(0);
    private boolean begun;
    private long first;
    private long last;
    private long reports;
    private int goods;

    private long rowFrom;
    private double rowLowest = Double.POSITIVE_INFINITY;
    private final long[] rows;
    private final List<Happening> trips = new ArrayList<>();
    private final List<Happening> nearTrips = new ArrayList<>();
    private long tripCount;
    private long nearCount;
    private long doubtedSpells;
    private long doubted;
    private long unheardSpells;
    private long unheard;
    private long contradictedSpells;

    /**
     * A trip or a near-trip.
     *
     * @param at when it tripped or the row ended, ns of the recording's clock
     * @param firstLowAt when the first low report came, ns
     * @param lowest smallest speed of the row, rpm; the trip speed where no speed was low
     * @param cause of the trip; empty for a near-trip
     */
    public record Happening(long at, long firstLowAt, double lowest, Optional<TripCause> cause) {}

    /**
     * What came out.
     *
     * @param reports how many were judged
     * @param length from the first to the last, s
     * @param tripCount trips in all
     * @param trips the first {@value #MOST_LISTED} of them
     * @param nearTripCount near-trips in all
     * @param nearTrips the first {@value #MOST_LISTED} of them
     * @param rows how many rows of 1, 2, ... low reports ended without a trip; one fewer than the confirmations
     * @param doubtedSpells spells of {@code doubted}, those that end in a trip among them
     * @param doubted their length, s
     * @param unheardSpells spells of {@code unheard} after the first report
     * @param unheard their length, s
     * @param contradictedSpells spells of {@code contradicted}
     */
    public record Outcome(
            long reports,
            double length,
            long tripCount,
            List<Happening> trips,
            long nearTripCount,
            List<Happening> nearTrips,
            List<Long> rows,
            long doubtedSpells,
            double doubted,
            long unheardSpells,
            double unheard,
            long contradictedSpells) {
        public Outcome {
            trips = List.copyOf(trips);
            nearTrips = List.copyOf(nearTrips);
            rows = List.copyOf(rows);
        }
    }

    /** Begins a guard of its own. */
    public Backtest(Guard guard) {
        this.guard = guard;
        this.confirmations = guard.settings().confirmations();
        this.rows = new long[confirmations];
    }

    @Override
    public void accept(GuardEvent.Report report) {
        long at = report.at();
        if (!begun) {
            begun = true;
            first = at;
            state = GuardState.begin(at);
        }
        silence(at);
        int before = state.confirmations();
        step(report);
        int after = state.confirmations();
        if (after > before) {
            if (before == 0) {
                rowFrom = at;
                rowLowest = Double.POSITIVE_INFINITY;
            }
            rowLowest = Math.min(rowLowest, state.speed().orElse(rowLowest));
        } else if (after < before) {
            rowEnds(at, before);
        }
        if (state.fan() == FanState.TRIPPED) {
            over(report);
        }
        last = at;
        reports++;
    }

    /** What it would have done so far. */
    public Outcome outcome() {
        long end = last;
        long openDoubted = state.fan() == FanState.DOUBTED ? end - state.since() : 0;
        long openUnheard = begun && state.fan() == FanState.UNHEARD ? Math.max(0, end - state.since()) : 0;
        List<Long> ended = new ArrayList<>();
        for (int i = 1; i < confirmations; i++) {
            ended.add(rows[i]);
        }
        return new Outcome(
                reports,
                (last - first) / NS,
                tripCount,
                trips,
                nearCount,
                nearTrips,
                ended,
                doubtedSpells,
                (doubted + openDoubted) / NS,
                unheardSpells,
                (unheard + openUnheard) / NS,
                contradictedSpells);
    }

    /** What the guard would have noticed between two reports. */
    private void silence(long until) {
        OptionalLong wake = guard.wakeAt(state);
        // after each of at most two things to notice there is one fewer
        for (int i = 0; i < 2 && wake.isPresent() && wake.getAsLong() < until; i++) {
            step(new GuardEvent.Tick(wake.getAsLong()));
            wake = guard.wakeAt(state);
        }
    }

    private void step(GuardEvent event) {
        long since = state.since();
        Step step = guard.step(state, event);
        state = step.state();
        for (Effect effect : step.effects()) {
            if (effect instanceof Effect.Changed changed) {
                since = changed(changed, since);
            } else if (effect instanceof Effect.StartResponse response) {
                tripCount++;
                if (trips.size() < MOST_LISTED) {
                    boolean low = response.cause() == TripCause.LOW_SPEED;
                    double speed = state.speed().orElse(guard.settings().tripSpeed());
                    double lowest = low
                            ? Math.min(speed, confirmations > 1 ? rowLowest : speed)
                            : guard.settings().tripSpeed();
                    trips.add(
                            new Happening(response.at(), response.firstLowAt(), lowest, Optional.of(response.cause())));
                }
                goods = 0;
            }
        }
    }

    /** Counts a change of state; returns when the new one began. */
    private long changed(Effect.Changed changed, long since) {
        if (changed.from() == FanState.DOUBTED) {
            doubted += changed.at() - since;
        } else if (changed.from() == FanState.UNHEARD && reports > 0) {
            unheard += changed.at() - since;
        }
        if (changed.to() == FanState.DOUBTED) {
            doubtedSpells++;
        } else if (changed.to() == FanState.UNHEARD) {
            unheardSpells++;
        } else if (changed.to() == FanState.CONTRADICTED) {
            contradictedSpells++;
        }
        return changed.at();
    }

    private void rowEnds(long at, int length) {
        if (length < confirmations) {
            rows[length]++;
            if (length == confirmations - 1) {
                nearCount++;
                if (nearTrips.size() < MOST_LISTED) {
                    nearTrips.add(new Happening(at, rowFrom, rowLowest, Optional.empty()));
                }
            }
        }
    }

    private void over(GuardEvent.Report report) {
        Reads held = state.held();
        boolean asked = held.has(ReadName.DUTY)
                ? held.get(ReadName.DUTY) > 0
                : !held.has(ReadName.NOZZLE)
                        || held.get(ReadName.NOZZLE) > guard.settings().runsAbove();
        boolean good = report.reads().has(ReadName.SPEED)
                && report.reads().get(ReadName.SPEED) >= guard.settings().tripSpeed();
        goods = good ? goods + 1 : report.reads().has(ReadName.SPEED) ? 0 : goods;
        if (!asked || goods >= confirmations) {
            step(new GuardEvent.Release(report.at(), "backtest", "the cause is over"));
            goods = 0;
        }
    }
}
