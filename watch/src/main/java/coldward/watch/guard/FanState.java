package coldward.watch.guard;

import java.util.Locale;

/** What the watch makes of a fan. Which state may follow which is said by {@link Transition}. */
public enum FanState {
    /** Not asked to turn. */
    RESTING,
    /** Asked to turn a short while ago; forgiven for the grace. */
    STARTING,
    /** Asked to turn and turning. */
    TURNING,
    /** Asked to turn, and the last counted report was below the trip speed, but too few in a row so far. */
    DOUBTED,
    /** Stopped; latched until somebody releases it by name. */
    TRIPPED,
    /** No report in time, or none yet. */
    UNHEARD,
    /** Two signals disagree: speed fine but cold side warming, or speed shown though commanded off. */
    CONTRADICTED;

    /** The word shown to people and written to the journal. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
