package coldward.watch.guard;

import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.watch.guard.Effect.Matter;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Judges one fan: {@code step(state, event) -> (state, effects)}. No clock, thread, log or input of its own, so that
 * the watch, a backtest and a test all run the same judgement.
 *
 * <p><b>Should the fan turn?</b> Yes if the commanded duty is above 0 or the nozzle is hotter than
 * {@link GuardSettings#runsAbove}. A nozzle target above it does not ask for the fan yet, since a fan that is switched
 * by temperature begins only when the nozzle gets there; but it is about to be needed, so silence is then no longer
 * harmless. Where neither duty nor nozzle is read, the target stands in for the nozzle, then {@code working}; where
 * nothing is read but speed, the fan is taken to be asked always.
 *
 * <p><b>What is one report?</b> With a report identity: a message with a higher one than before; a lower one is a
 * numbering begun anew and counts only a report interval after the last counted report. Without: at most one message
 * per report interval. Where the machine says only changes, a message without a new speed shows that it is alive and
 * that the speed still holds, so a steady value counts once per report interval; that is how a stopped fan that says
 * nothing more is still confirmed by time. Messages that are not counted change what is shown, never the count.
 *
 * <p><b>Grace.</b> A fan is starting from the moment it is asked until the grace is over, or sooner after as many good
 * reports in a row as a trip takes confirmations. Low reports within the grace do not count. After an end of the watch
 * and after a release there is no grace until one good report or one that shows the fan not asked.
 *
 * <p><b>Trip.</b> {@code confirmations} counted reports in a row strictly below the trip speed, outside the grace. A
 * silence does not break the row. While bypassed nothing trips; after it the next low report of a long enough row does.
 *
 * <p><b>Used again while tripped.</b> A trip latches, but a printer that is heated or set to work again by hand without
 * a release is not left alone: once a report has shown the heater (or the job) let go, being called for again starts a
 * fresh count, and {@code confirmations} low reports in a row ask for the response again. A fan that turns then is told
 * of, once. Where neither target nor nozzle nor {@code working} is read, this cannot be seen.
 */
public final class Guard {

    private final GuardSettings settings;
    private final double tripSpeed;
    private final int confirmations;
    private final long interval;

    public Guard(GuardSettings settings) {
        this.settings = settings;
        this.tripSpeed = settings.tripSpeed();
        this.confirmations = settings.confirmations();
        this.interval = settings.reportInterval();
    }

    /** What it judges by. */
    public GuardSettings settings() {
        return settings;
    }

    /**
     * The state after an event and what it asks for.
     *
     * @throws InputError if {@link GuardEvent.Resumed} is not the guard's first event
     */
    public Step step(GuardState state, GuardEvent event) {
        Draft d = new Draft(state);
        if (d.bypassed && event.at() - d.bypassUntil >= 0) {
            d.bypassed = false;
            d.effect(new Effect.BypassOver(event.at()));
        }
        switch (event) {
            case GuardEvent.Report report -> report(d, report.at(), report.reads());
            case GuardEvent.Tick tick -> silence(d, tick.at());
            case GuardEvent.Release release -> release(d, release);
            case GuardEvent.Bypass bypass -> bypass(d, bypass);
            case GuardEvent.Resumed resumed -> resume(d, resumed);
            case GuardEvent.Stalled stalled -> d.heardAt = Math.max(d.heardAt, stalled.at());
        }
        return d.step();
    }

    /** When a {@link GuardEvent.Tick} would next have something to notice if no report comes; empty: never. */
    public OptionalLong wakeAt(GuardState s) {
        long wake = Long.MAX_VALUE;
        if (s.bypassed) {
            wake = s.bypassUntil;
        }
        if (s.fan != FanState.TRIPPED) {
            if (!s.announced) {
                wake = Math.min(wake, s.heardAt + settings.unheardAfter());
            } else if (s.fan == FanState.UNHEARD
                    && s.concern
                    && !s.bypassed
                    && settings.unheardRespondsAfter().isPresent()) {
                wake = Math.min(wake, respondsAt(s.heardAt, s.concernSince));
            }
        }
        return wake == Long.MAX_VALUE ? OptionalLong.empty() : OptionalLong.of(wake);
    }

    // reports

    private void report(Draft d, long at, Reads reads) {
        boolean hadIdentity = d.held.has(ReadName.REPORT);
        double identity = hadIdentity ? d.held.get(ReadName.REPORT) : 0;
        d.held = reads.over(d.held);
        boolean heard = heard(d, reads, hadIdentity, identity);
        boolean counted = heard && counts(d, at, reads, hadIdentity, identity);
        if (heard) {
            d.heardAt = Math.max(d.heardAt, at);
            d.everHeard = true;
        }
        if (counted) {
            d.countedAt = at;
            d.everCounted = true;
        }
        if (d.fan == FanState.TRIPPED) {
            if (counted) {
                usedAgain(d, at);
            }
            return;
        }
        boolean askedBefore = d.asked;
        if (d.fan == FanState.UNHEARD && !heard) {
            stillUnheard(d, at);
            return;
        }
        d.asked = asked(d.held);
        if (d.fan == FanState.UNHEARD) {
            hearAgain(d, at);
        }
        d.announced = d.announced && !heard;
        commandedOff(d, at, counted);
        if (d.asked) {
            runs(d, at, askedBefore, counted);
        } else {
            rests(d, at);
        }
        contradiction(d, at, reads);
    }

    private boolean heard(Draft d, Reads reads, boolean hadIdentity, double identity) {
        if (settings.says() == Says.ON_CHANGE) {
            return d.held.has(ReadName.SPEED);
        }
        return reads.has(ReadName.SPEED)
                && !(hadIdentity && reads.has(ReadName.REPORT) && reads.get(ReadName.REPORT) == identity);
    }

    private boolean counts(Draft d, long at, Reads reads, boolean hadIdentity, double identity) {
        if (!d.everCounted) {
            return true;
        }
        if (reads.has(ReadName.REPORT) && reads.has(ReadName.SPEED) && hadIdentity) {
            if (reads.get(ReadName.REPORT) > identity) {
                return true;
            }
        }
        return at - d.countedAt >= interval;
    }

    private boolean asked(Reads held) {
        boolean duty = held.has(ReadName.DUTY);
        boolean nozzle = held.has(ReadName.NOZZLE);
        if ((duty && held.get(ReadName.DUTY) > 0) || (nozzle && held.get(ReadName.NOZZLE) > settings.runsAbove())) {
            return true;
        }
        if (duty || nozzle) {
            return false;
        }
        if (held.has(ReadName.NOZZLE_TARGET)) {
            return held.get(ReadName.NOZZLE_TARGET) > settings.runsAbove();
        }
        return !held.has(ReadName.WORKING) || held.get(ReadName.WORKING) > 0;
    }

    private void hearAgain(Draft d, long at) {
        if (d.announced && d.concern) {
            d.effect(new Effect.Tell(at, Matter.HEARD_AGAIN));
        }
        d.concern = false;
    }

    private void runs(Draft d, long at, boolean askedBefore, boolean counted) {
        boolean newly = !askedBefore || d.fan == FanState.RESTING;
        if (newly) {
            d.startedAt = at;
            d.starting = true;
            d.lows = 0;
            d.goods = 0;
        }
        d.starting = d.starting && !d.graceWithheld && at - d.startedAt < settings.grace();
        if (d.fan == FanState.RESTING
                || (newly && d.fan == FanState.CONTRADICTED)
                || (d.starting && d.fan == FanState.UNHEARD)) {
            d.coldSide = ColdSideTrend.NONE;
            d.move(at, FanState.STARTING);
        }
        boolean low = counted && d.held.get(ReadName.SPEED) < tripSpeed;
        boolean good = counted && !low;
        if (d.starting) {
            starts(d, at, low, good);
        } else if (low) {
            lowReport(d, at);
        } else if (good) {
            d.lows = 0;
            d.graceWithheld = false;
            if (d.fan != FanState.TURNING && d.fan != FanState.CONTRADICTED) {
                d.move(at, FanState.TURNING);
            }
        } else if (d.fan == FanState.UNHEARD) {
            d.move(at, d.lows > 0 ? FanState.DOUBTED : FanState.TURNING);
        }
    }

    private void starts(Draft d, long at, boolean low, boolean good) {
        if (low) {
            d.goods = 0;
        } else if (good) {
            d.goods++;
            if (d.goods >= confirmations) {
                d.starting = false;
                d.move(at, FanState.TURNING);
            }
        }
    }

    private void lowReport(Draft d, long at) {
        if (d.lows == 0) {
            d.firstLowAt = at;
        }
        d.lows++;
        if (d.fan != FanState.DOUBTED) {
            d.move(at, FanState.DOUBTED);
        }
        if (d.lows >= confirmations && !d.bypassed) {
            trip(d, at, TripCause.LOW_SPEED, d.firstLowAt);
        }
    }

    private static void rests(Draft d, long at) {
        d.graceWithheld = false;
        d.starting = false;
        d.lows = 0;
        d.goods = 0;
        d.coldSide = ColdSideTrend.NONE;
        if (d.fan != FanState.RESTING && d.fan != FanState.CONTRADICTED) {
            d.move(at, FanState.RESTING);
        }
    }

    private void trip(Draft d, long at, TripCause cause, long firstLowAt) {
        d.move(at, FanState.TRIPPED);
        d.cause = Optional.of(cause);
        d.heatLetGo = false;
        d.workLetGo = false;
        d.usedAgain = false;
        d.effect(new Effect.StartResponse(at, cause, firstLowAt));
    }

    // used again although tripped

    private void usedAgain(Draft d, long at) {
        boolean askedBefore = d.asked;
        d.asked = asked(d.held);
        boolean heating = heating(d.held);
        boolean working = d.held.has(ReadName.WORKING) && d.held.get(ReadName.WORKING) > 0;
        boolean used = (heating && d.heatLetGo) || (working && d.workLetGo);
        d.heatLetGo |= !heating;
        d.workLetGo |= !working;
        if (used && (!d.usedAgain || !d.asked)) {
            d.lows = 0;
            d.goods = 0;
            d.useTold = d.useTold && d.usedAgain;
        }
        d.usedAgain = used;
        if (!used || !d.asked) {
            d.starting = false;
            return;
        }
        if (!askedBefore) {
            d.startedAt = at;
            d.starting = true;
        }
        d.starting = d.starting && at - d.startedAt < settings.grace();
        judgeUse(d, at, d.held.get(ReadName.SPEED) < tripSpeed);
    }

    private void judgeUse(Draft d, long at, boolean low) {
        if (!low) {
            d.lows = 0;
            d.goods++;
            if (d.goods >= confirmations && !d.useTold) {
                d.useTold = true;
                d.effect(new Effect.Tell(at, Matter.USED_WHILE_TRIPPED));
            }
            return;
        }
        d.goods = 0;
        if (d.starting) {
            return;
        }
        if (d.lows == 0) {
            d.firstLowAt = at;
        }
        d.lows++;
        if (d.lows >= confirmations && !d.bypassed) {
            d.heatLetGo = false;
            d.workLetGo = false;
            d.usedAgain = false;
            d.effect(new Effect.RespondAgain(at, d.firstLowAt));
        }
    }

    /** By its target, or where that is not read by its nozzle. */
    private boolean heating(Reads held) {
        ReadName read = held.has(ReadName.NOZZLE_TARGET) ? ReadName.NOZZLE_TARGET : ReadName.NOZZLE;
        return held.has(read) && held.get(read) > settings.runsAbove();
    }

    // two signals that disagree

    private void commandedOff(Draft d, long at, boolean counted) {
        boolean off = d.held.has(ReadName.DUTY) && d.held.get(ReadName.DUTY) <= 0;
        if (off && !d.off) {
            d.offSince = at;
            d.offGoods = 0;
        }
        d.off = off;
        if (!off) {
            d.offGoods = 0;
        } else if (counted) {
            boolean shows = d.held.get(ReadName.SPEED) >= tripSpeed;
            boolean coasting = at - d.offSince <= settings.coastAllowance();
            d.offGoods = shows && !coasting ? d.offGoods + 1 : 0;
        }
    }

    private void contradiction(Draft d, long at, Reads reads) {
        if (d.fan == FanState.TRIPPED) {
            return;
        }
        if (d.asked
                && (d.fan == FanState.TURNING || d.fan == FanState.CONTRADICTED)
                && reads.has(ReadName.COLD_SIDE)
                && d.held.get(ReadName.SPEED) >= tripSpeed) {
            d.coldSide = d.coldSide.with(at, reads.get(ReadName.COLD_SIDE), d.held, settings.contradictedRise());
        }
        boolean turnsWhileOff = d.offGoods >= confirmations;
        boolean warming = d.asked && d.coldSide.warming();
        if (d.fan == FanState.CONTRADICTED) {
            if (!turnsWhileOff && !warming) {
                d.effect(new Effect.Tell(at, Matter.AGREES_AGAIN));
                d.move(at, d.asked ? FanState.TURNING : FanState.RESTING);
            }
        } else if ((turnsWhileOff || warming) && (d.fan == FanState.TURNING || d.fan == FanState.RESTING)) {
            d.move(at, FanState.CONTRADICTED);
            d.effect(new Effect.Tell(at, warming ? Matter.WARMING : Matter.TURNS_WHILE_OFF));
        }
        if (d.fan == FanState.CONTRADICTED && settings.contradictedResponds() && !d.bypassed) {
            trip(d, at, TripCause.CONTRADICTED, at);
        }
    }

    // silence

    private void silence(Draft d, long at) {
        if (d.fan == FanState.TRIPPED) {
            return;
        }
        if (!d.announced && at - d.heardAt >= settings.unheardAfter()) {
            d.announced = true;
            if (d.fan != FanState.UNHEARD) {
                d.move(at, FanState.UNHEARD);
            }
            beConcerned(d, at);
        }
        silenceRule(d, at);
    }

    private void stillUnheard(Draft d, long at) {
        if (d.announced && !d.concern) {
            beConcerned(d, at);
        }
        silenceRule(d, at);
    }

    private void beConcerned(Draft d, long at) {
        d.concern = d.asked || needed(d.held);
        if (d.concern) {
            d.concernSince = at;
            d.effect(new Effect.Tell(at, Matter.UNHEARD));
        }
    }

    private void silenceRule(Draft d, long at) {
        if (d.fan == FanState.UNHEARD
                && d.announced
                && d.concern
                && !d.bypassed
                && settings.unheardRespondsAfter().isPresent()
                && at - respondsAt(d.heardAt, d.concernSince) >= 0) {
            trip(d, at, TripCause.UNHEARD, at);
        }
    }

    private long respondsAt(long heardAt, long concernSince) {
        return Math.max(heardAt + settings.unheardAfter(), concernSince)
                + settings.unheardRespondsAfter().orElseThrow();
    }

    /** Hot, about to be hot, or working: silence is then not harmless. */
    private boolean needed(Reads held) {
        return (held.has(ReadName.DUTY) && held.get(ReadName.DUTY) > 0)
                || (held.has(ReadName.NOZZLE) && held.get(ReadName.NOZZLE) > settings.runsAbove())
                || (held.has(ReadName.NOZZLE_TARGET) && held.get(ReadName.NOZZLE_TARGET) > settings.runsAbove())
                || (held.has(ReadName.WORKING) && held.get(ReadName.WORKING) > 0);
    }

    // people, and the watch's own ends

    private static void release(Draft d, GuardEvent.Release release) {
        if (d.fan != FanState.TRIPPED) {
            d.effect(new Effect.NotReleased(release.at(), release.name(), release.reason()));
            return;
        }
        d.effect(new Effect.Released(release.at(), release.name(), release.reason()));
        d.move(release.at(), FanState.RESTING);
        d.cause = Optional.empty();
        d.asked = false;
        d.graceWithheld = true;
        d.announced = false;
        d.concern = false;
        d.lows = 0;
        d.goods = 0;
        d.offGoods = 0;
        d.coldSide = ColdSideTrend.NONE;
        d.usedAgain = false;
        d.starting = false;
    }

    private static void bypass(Draft d, GuardEvent.Bypass bypass) {
        d.bypassed = true;
        d.bypassUntil = bypass.until();
        d.effect(new Effect.Bypassed(bypass.at(), bypass.name(), bypass.reason(), bypass.until()));
    }

    private static void resume(Draft d, GuardEvent.Resumed resumed) {
        if (d.everHeard || d.fan != FanState.UNHEARD) {
            throw new InputError("resumed", "resumed must be the guard's first event");
        }
        d.asked = resumed.asked();
        d.graceWithheld = resumed.asked() || resumed.hardEnd();
        if (resumed.bypassUntil().isPresent()) {
            d.bypassed = true;
            d.bypassUntil = resumed.bypassUntil().getAsLong();
        }
        if (resumed.tripped().isPresent()) {
            d.move(resumed.at(), FanState.TRIPPED);
            // what happened meanwhile is not known: a use found now counts
            d.heatLetGo = true;
            d.workLetGo = true;
            d.cause = resumed.tripped();
        }
    }
}
