package coldward.watch.guard;

import coldward.quantity.OwnBug;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The next state while one step is being worked out; lives only within {@link Guard#step}. */
final class Draft {

    FanState fan;

    /** When {@link #fan} was entered. */
    long since;

    /** The last value of every read. */
    Reads held;

    /** Should the fan turn? Before the first report of a resumed watch: was it asked to? */
    boolean asked;

    /** Of the last report; before the first, of the beginning. */
    long heardAt;

    boolean everHeard;

    /** Of the last counted report, if {@link #everCounted}. */
    long countedAt;

    boolean everCounted;

    /** Counted reports in a row below the trip speed. */
    int lows;

    /** While starting: counted reports in a row at or above it. */
    int goods;

    /** Of the first of {@link #lows}. */
    long firstLowAt;

    /** When the fan was last asked to turn. */
    long startedAt;

    /** The start is not over: neither has the grace passed nor have there been enough good reports. */
    boolean starting;

    /** No grace until one good report, or one that shows that the fan is not asked. */
    boolean graceWithheld;

    /** The machine says that it commands no duty. */
    boolean off;

    /** Since when, if {@link #off}. */
    long offSince;

    /** While off: counted reports in a row at or above the trip speed, after coasting. */
    int offGoods;

    /** While unheard: hot, about to be, or working when last heard. */
    boolean concern;

    /** Since when, if {@link #concern}. */
    long concernSince;

    /** The silence has been noticed. */
    boolean announced;

    boolean bypassed;

    /** If {@link #bypassed}. */
    long bypassUntil;

    /** Of the trip, if tripped. */
    Optional<TripCause> cause;

    ColdSideTrend coldSide;

    /** While tripped: a report has shown the heater let go since the last response began. */
    boolean heatLetGo;

    /** While tripped: a report has shown the machine at rest since the last response began. */
    boolean workLetGo;

    /** While tripped: used again after that; whether it was so at the report before. */
    boolean usedAgain;

    /** People know of this use. */
    boolean useTold;

    private @Nullable List<Effect> effects;

    Draft(long at) {
        fan = FanState.UNHEARD;
        since = at;
        heardAt = at;
        concernSince = at;
        held = Reads.NONE;
        cause = Optional.empty();
        coldSide = ColdSideTrend.NONE;
    }

    Draft(GuardState s) {
        fan = s.fan;
        since = s.since;
        held = s.held;
        asked = s.asked;
        heardAt = s.heardAt;
        everHeard = s.everHeard;
        countedAt = s.countedAt;
        everCounted = s.everCounted;
        lows = s.lows;
        goods = s.goods;
        firstLowAt = s.firstLowAt;
        startedAt = s.startedAt;
        starting = s.starting;
        graceWithheld = s.graceWithheld;
        off = s.off;
        offSince = s.offSince;
        offGoods = s.offGoods;
        concern = s.concern;
        concernSince = s.concernSince;
        announced = s.announced;
        bypassed = s.bypassed;
        bypassUntil = s.bypassUntil;
        cause = s.cause;
        coldSide = s.coldSide;
        heatLetGo = s.heatLetGo;
        workLetGo = s.workLetGo;
        usedAgain = s.usedAgain;
        useTold = s.useTold;
    }

    void move(long at, FanState to) {
        if (!Transition.legal(fan, to)) {
            throw new OwnBug("guard tried to go from " + fan.word() + " to " + to.word());
        }
        effect(new Effect.Changed(at, fan, to));
        fan = to;
        since = at;
    }

    void effect(Effect effect) {
        if (effects == null) {
            effects = new ArrayList<>(4);
        }
        effects.add(effect);
    }

    Step step() {
        return new Step(new GuardState(this), effects == null ? List.of() : List.copyOf(effects));
    }
}
