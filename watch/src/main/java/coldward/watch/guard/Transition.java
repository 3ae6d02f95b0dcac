package coldward.watch.guard;

import static coldward.watch.guard.FanState.CONTRADICTED;
import static coldward.watch.guard.FanState.DOUBTED;
import static coldward.watch.guard.FanState.RESTING;
import static coldward.watch.guard.FanState.STARTING;
import static coldward.watch.guard.FanState.TRIPPED;
import static coldward.watch.guard.FanState.TURNING;
import static coldward.watch.guard.FanState.UNHEARD;

import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/** Every legal transition of the guard, as data; the diagram in docs/guard.md is drawn from it and tested against it. */
public enum Transition {
    REST_TO_START(RESTING, STARTING, "asked to turn"),
    REST_TO_SILENCE(RESTING, UNHEARD, "no report in time"),
    REST_TO_CONFLICT(RESTING, CONTRADICTED, "turns though commanded off"),
    START_TO_REST(STARTING, RESTING, "no longer asked"),
    START_TO_TURN(STARTING, TURNING, "good reports, or a good one after the grace"),
    START_TO_DOUBT(STARTING, DOUBTED, "low report after the grace"),
    START_TO_SILENCE(STARTING, UNHEARD, "no report in time"),
    TURN_TO_REST(TURNING, RESTING, "no longer asked"),
    TURN_TO_DOUBT(TURNING, DOUBTED, "low report"),
    TURN_TO_SILENCE(TURNING, UNHEARD, "no report in time"),
    TURN_TO_CONFLICT(TURNING, CONTRADICTED, "signals disagree"),
    DOUBT_TO_REST(DOUBTED, RESTING, "no longer asked"),
    DOUBT_TO_TURN(DOUBTED, TURNING, "good report"),
    DOUBT_TO_TRIP(DOUBTED, TRIPPED, "enough low reports in a row"),
    DOUBT_TO_SILENCE(DOUBTED, UNHEARD, "no report in time"),
    TRIP_TO_REST(TRIPPED, RESTING, "released by name"),
    SILENCE_TO_REST(UNHEARD, RESTING, "heard, not asked"),
    SILENCE_TO_START(UNHEARD, STARTING, "heard, newly asked"),
    SILENCE_TO_TURN(UNHEARD, TURNING, "heard, good report"),
    SILENCE_TO_DOUBT(UNHEARD, DOUBTED, "heard, low report"),
    SILENCE_TO_TRIP(UNHEARD, TRIPPED, "silence rule, or a trip kept from before a restart"),
    CONFLICT_TO_REST(CONTRADICTED, RESTING, "no longer asked, signals agree"),
    CONFLICT_TO_START(CONTRADICTED, STARTING, "asked to turn"),
    CONFLICT_TO_TURN(CONTRADICTED, TURNING, "signals agree"),
    CONFLICT_TO_DOUBT(CONTRADICTED, DOUBTED, "low report"),
    CONFLICT_TO_TRIP(CONTRADICTED, TRIPPED, "contradiction rule"),
    CONFLICT_TO_SILENCE(CONTRADICTED, UNHEARD, "no report in time");

    private static final Map<FanState, Set<FanState>> NEXT = table();

    private final FanState from;
    private final FanState to;
    private final String why;

    Transition(FanState from, FanState to, String why) {
        this.from = from;
        this.to = to;
        this.why = why;
    }

    private static Map<FanState, Set<FanState>> table() {
        Map<FanState, Set<FanState>> next = new EnumMap<>(FanState.class);
        for (FanState state : FanState.values()) {
            next.put(state, EnumSet.noneOf(FanState.class));
        }
        for (Transition t : values()) {
            next.getOrDefault(t.from, Set.of()).add(t.to);
        }
        next.replaceAll((state, following) -> Collections.unmodifiableSet(following));
        return Collections.unmodifiableMap(next);
    }

    /** Whether one state may follow another. */
    public static boolean legal(FanState from, FanState to) {
        return next(from).contains(to);
    }

    /** The states that may follow one. */
    public static Set<FanState> next(FanState from) {
        return NEXT.getOrDefault(from, Set.of());
    }

    /** The state left. */
    public FanState from() {
        return from;
    }

    /** The state entered. */
    public FanState to() {
        return to;
    }

    /** What leads from one to the other, as the diagram has it. */
    public String why() {
        return why;
    }
}
