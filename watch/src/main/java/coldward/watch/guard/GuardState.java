package coldward.watch.guard;

import coldward.model.shop.ReadName;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * Everything a guard remembers. Immutable; made only by {@link #begin} and by {@link Guard#step}. Times are ns of the
 * events' clock.
 */
public final class GuardState {

    final FanState fan;
    final long since;
    final Reads held;
    final boolean asked;
    final long heardAt;
    final boolean everHeard;
    final long countedAt;
    final boolean everCounted;
    final int lows;
    final int goods;
    final long firstLowAt;
    final long startedAt;
    final boolean starting;
    final boolean graceWithheld;
    final boolean off;
    final long offSince;
    final int offGoods;
    final boolean concern;
    final long concernSince;
    final boolean announced;
    final boolean bypassed;
    final long bypassUntil;
    final Optional<TripCause> cause;
    final ColdSideTrend coldSide;
    final boolean heatLetGo;
    final boolean workLetGo;
    final boolean usedAgain;
    final boolean useTold;

    GuardState(Draft d) {
        fan = d.fan;
        since = d.since;
        held = d.held;
        asked = d.asked;
        heardAt = d.heardAt;
        everHeard = d.everHeard;
        countedAt = d.countedAt;
        everCounted = d.everCounted;
        lows = d.lows;
        goods = d.goods;
        firstLowAt = d.firstLowAt;
        startedAt = d.startedAt;
        starting = d.starting;
        graceWithheld = d.graceWithheld;
        off = d.off;
        offSince = d.offSince;
        offGoods = d.offGoods;
        concern = d.concern;
        concernSince = d.concernSince;
        announced = d.announced;
        bypassed = d.bypassed;
        bypassUntil = d.bypassUntil;
        cause = d.cause;
        coldSide = d.coldSide;
        heatLetGo = d.heatLetGo;
        workLetGo = d.workLetGo;
        usedAgain = d.usedAgain;
        useTold = d.useTold;
    }

    /** A guard that has heard nothing yet: {@code unheard}, and quiet until the time for a first report is over. */
    public static GuardState begin(long at) {
        return new GuardState(new Draft(at));
    }

    /** The fan's state. */
    public FanState fan() {
        return fan;
    }

    /** When that state was entered. */
    public long since() {
        return since;
    }

    /** The last value of each read. */
    public Reads held() {
        return held;
    }

    /** Whether the fan should turn, by what the machine said last. */
    public boolean asked() {
        return asked;
    }

    /** Counted reports in a row below the trip speed. */
    public int confirmations() {
        return lows;
    }

    /** When the last report came; empty before the first. */
    public OptionalLong heardAt() {
        return everHeard ? OptionalLong.of(heardAt) : OptionalLong.empty();
    }

    /** When the last counted report came; empty before the first. */
    public OptionalLong countedAt() {
        return everCounted ? OptionalLong.of(countedAt) : OptionalLong.empty();
    }

    /** The last speed, rpm. */
    public OptionalDouble speed() {
        return held.find(ReadName.SPEED);
    }

    /** What led to the trip; empty unless tripped. */
    public Optional<TripCause> cause() {
        return cause;
    }

    /** Tripped, and yet heated or set to work again since its response let go. */
    public boolean usedAgain() {
        return usedAgain;
    }

    /** When the bypass ends by itself; empty if there is none. */
    public OptionalLong bypassUntil() {
        return bypassed ? OptionalLong.of(bypassUntil) : OptionalLong.empty();
    }

    /** Unheard, last seen at rest and cold, or never seen: of no concern, perhaps just switched off. */
    public boolean outOfReach() {
        return fan == FanState.UNHEARD && !concern;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof GuardState that
                && fan == that.fan
                && since == that.since
                && held.equals(that.held)
                && asked == that.asked
                && heardAt == that.heardAt
                && everHeard == that.everHeard
                && countedAt == that.countedAt
                && everCounted == that.everCounted
                && lows == that.lows
                && goods == that.goods
                && firstLowAt == that.firstLowAt
                && startedAt == that.startedAt
                && starting == that.starting
                && graceWithheld == that.graceWithheld
                && off == that.off
                && offSince == that.offSince
                && offGoods == that.offGoods
                && concern == that.concern
                && concernSince == that.concernSince
                && announced == that.announced
                && bypassed == that.bypassed
                && bypassUntil == that.bypassUntil
                && cause.equals(that.cause)
                && coldSide.equals(that.coldSide)
                && heatLetGo == that.heatLetGo
                && workLetGo == that.workLetGo
                && usedAgain == that.usedAgain
                && useTold == that.useTold;
    }

    @Override
    public int hashCode() {
        return Objects.hash(fan, since, held, heardAt, countedAt, lows);
    }

    @Override
    public String toString() {
        return "GuardState[" + fan.word() + " since " + since + ", " + held + ", asked=" + asked + ", lows=" + lows
                + (graceWithheld ? ", no grace" : "") + (bypassed ? ", bypassed until " + bypassUntil : "")
                + cause.map(c -> ", " + c.word()).orElse("") + "]";
    }
}
