package coldward.model.heat;

import coldward.model.build.Action;
import coldward.model.build.HotEnd;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleFunction;

/**
 * The race between the heat and the response, for one machine: what is steady, when the cold side softens with nothing
 * done, and by when each response must have taken effect. Results are computed when first asked for and kept; an
 * instance belongs to one thread.
 */
public final class Race {

    /** The responses that are reported, from the least to the last resort. */
    public static final List<Set<Action>> RESPONSES = List.of(
            Collections.unmodifiableSet(EnumSet.of(Action.HOLD)),
            Collections.unmodifiableSet(EnumSet.of(Action.HEATER_OFF)),
            Collections.unmodifiableSet(EnumSet.of(Action.HOLD, Action.HEATER_OFF)),
            Collections.unmodifiableSet(EnumSet.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN)),
            Collections.unmodifiableSet(EnumSet.of(Action.POWER_OFF)));

    private static final double SPEED_RESOLUTION = 1e-4;
    private static final double AIR_RESOLUTION = 0.05;
    private static final double COLDEST_AIR_LOOKED_AT = 273.15 - 20;

    private final HotEnd hotEnd;
    private final Factors factors;
    private final FanFailure failure;
    private final HeatSettings settings;
    private final Network network;
    private final Transient heat;
    private final Map<Regime, double[]> steady = new EnumMap<>(Regime.class);
    private final Map<Regime, Transient.Untouched> untouched = new EnumMap<>(Regime.class);
    private final Map<Regime, Map<Transient.Doing, Deadline>> deadlines = new EnumMap<>(Regime.class);

    /** The race after the fan's supply is lost, with its coast-down. */
    public Race(HotEnd hotEnd) {
        this(hotEnd, Factors.NONE, new FanFailure.Stop(hotEnd.fan().coastDown()), HeatSettings.USUAL);
    }

    /** The race of one draw, after one kind of failure. */
    public Race(HotEnd hotEnd, Factors factors, FanFailure failure, HeatSettings settings) {
        this.hotEnd = hotEnd;
        this.factors = factors;
        this.failure = failure;
        this.settings = settings;
        this.network = new Network(hotEnd, factors, settings.refinement());
        this.heat = new Transient(network, failure, settings);
    }

    /** The machine whose race this is. */
    public HotEnd hotEnd() {
        return hotEnd;
    }

    /** What the air model warns about; empty if nothing. */
    public List<String> warnings() {
        return hotEnd.sink().measured().isPresent()
                ? List.of()
                : network.sinkAir.airflow().warnings();
    }

    private double feedOf(Regime regime) {
        return regime == Regime.PRINTING ? hotEnd.feed() : 0;
    }

    private double[] steadyState(Regime regime) {
        return steady.computeIfAbsent(regime, r -> heat.steady(1, feedOf(r)));
    }

    /** The steady state with a healthy fan. */
    public Standing standing(Regime regime) {
        double[] y = steadyState(regime);
        double feed = feedOf(regime);
        heat.system.feed(feed);
        boolean printing = regime == Regime.PRINTING;
        double mean = heat.system.sinkMean(y);
        double filament = y[2 * network.n];
        double meltHeat = hotEnd.plastic().meltSpecificHeat().isPresent()
                ? network.carried(feed)
                        * (hotEnd.plastic().meltSpecificHeat().getAsDouble()
                                        / hotEnd.plastic().specificHeat()
                                - 1)
                        * (hotEnd.nozzle() - filament)
                : 0;
        return new Standing(
                printing ? OptionalDouble.of(network.sinkAir.airflow().flow(1)) : OptionalDouble.empty(),
                printing ? OptionalDouble.of(network.sinkAir.conductance(1, mean)) : OptionalDouble.empty(),
                heat.system.intoWall(y),
                heat.profile.throat(y),
                mean,
                heat.profile.filamentAtThroat(y),
                heat.profile.softenedDepth(y),
                heat.system.blockDemand(y, false) + meltHeat);
    }

    /** True if the depth is above its limit with a healthy fan: no race to run, a finding. */
    public boolean softWhileHealthy(Regime regime) {
        return heat.profile.excess(steadyState(regime)) > 0;
    }

    /** True if so in either regime. */
    public boolean softWhileHealthy() {
        return softWhileHealthy(Regime.HOT_IDLE) || softWhileHealthy(Regime.PRINTING);
    }

    /**
     * How far the filament is below softening in steady state, K: of the coldest between throat and limit, so that 0 is
     * where the depth reaches its limit; negative if soft while healthy.
     */
    public double belowSoftening(Regime regime) {
        return -heat.profile.excess(steadyState(regime));
    }

    private Transient.Untouched untouched(Regime regime) {
        return untouched.computeIfAbsent(regime, r -> heat.untouched(steadyState(r), feedOf(r)));
    }

    /** The softening time: when the depth passes its limit with nothing done, s; empty if not within the horizon. */
    public OptionalDouble softens(Regime regime) {
        return untouched(regime).softens();
    }

    /** The deadline of a response in a regime. */
    public Deadline deadline(Regime regime, Set<Action> response) {
        Transient.Doing doing = doing(regime, response);
        Map<Transient.Doing, Deadline> known = deadlines.computeIfAbsent(regime, r -> new LinkedHashMap<>());
        Deadline before = known.get(doing);
        if (before != null) {
            return before;
        }
        Deadline deadline = heat.deadline(untouched(regime), doing);
        known.put(doing, deadline);
        return deadline;
    }

    /** The deadline of a response in the worse regime. */
    public Deadline deadline(Set<Action> response) {
        Deadline printing = deadline(Regime.PRINTING, response);
        Deadline idle = deadline(Regime.HOT_IDLE, response);
        return printing.compareTo(idle) <= 0 ? printing : idle;
    }

    private Transient.Doing doing(Regime regime, Set<Action> response) {
        boolean power = response.contains(Action.POWER_OFF);
        boolean off = power || response.contains(Action.HEATER_OFF);
        boolean hold = power || response.contains(Action.HOLD);
        double feed = hold ? 0 : feedOf(regime);
        // a standing filament neither ends feeding nor goes on with it: one kind of doing, computed once
        return new Transient.Doing(feed, feed == 0, !off, !power && off && response.contains(Action.BLOCK_FAN));
    }

    /** True if a response at a moment after the failure keeps the depth within its limit. */
    public boolean inTime(Regime regime, Set<Action> response, double seconds) {
        if (softWhileHealthy(regime)) {
            return false;
        }
        Transient.Untouched course = untouched(regime);
        if (course.softens().isPresent() && course.softens().getAsDouble() <= seconds) {
            return false;
        }
        double moment = Math.min(seconds, settings.horizon());
        return heat.peakAfter(heat.at(course, moment), doing(regime, response)) <= 0;
    }

    /**
     * Unsafe speed in a regime: the largest share of rated speed at which the steady depth is above its limit; 0 if
     * none, 1 if already at full speed.
     */
    public double unsafeSpeed(Regime regime) {
        DoubleFunction<Boolean> soft = s -> heat.profile.excess(heat.steady(s, feedOf(regime))) > 0;
        if (soft.apply(1)) {
            return 1;
        }
        if (!soft.apply(0)) {
            return 0;
        }
        return bisect(0, 1, SPEED_RESOLUTION, soft);
    }

    /** True if in either regime the steady depth is above its limit with the fan at a share of its rated speed, 0 to 1. */
    public boolean softAtSpeed(double share) {
        return heat.profile.excess(heat.steady(share, hotEnd.feed())) > 0
                || heat.profile.excess(heat.steady(share, 0)) > 0;
    }

    /** The larger unsafe speed of the two regimes, a share of rated speed. */
    public double unsafeSpeed() {
        return Math.max(unsafeSpeed(Regime.PRINTING), unsafeSpeed(Regime.HOT_IDLE));
    }

    /**
     * The hottest surroundings at which a response that takes effect after {@code stopTime} is still in time in both
     * regimes, K; empty if none from -20 degC up is.
     *
     * @param stopTime s from the failure to the response's effect
     */
    public OptionalDouble highestSafeAir(Set<Action> response, double stopTime) {
        DoubleFunction<Boolean> safe = air -> {
            Race other = new Race(hotEnd.withAir(air), factors, failure, settings);
            return other.inTime(Regime.HOT_IDLE, response, stopTime)
                    && other.inTime(Regime.PRINTING, response, stopTime);
        };
        double ceiling = Math.min(hotEnd.plastic().softensAt(), hotEnd.nozzle()) - 0.01;
        double low = Math.min(hotEnd.surroundings().air(), ceiling);
        double high = ceiling;
        if (!safe.apply(low)) {
            high = low;
            low = COLDEST_AIR_LOOKED_AT;
            if (low >= high || !safe.apply(low)) {
                return OptionalDouble.empty();
            }
        } else if (safe.apply(high)) {
            return OptionalDouble.of(high);
        }
        return OptionalDouble.of(bisect(low, high, AIR_RESOLUTION, safe));
    }

    /** Narrows a switch from true at {@code low} to false at {@code high}; returns the last true. */
    private static double bisect(double low, double high, double resolution, DoubleFunction<Boolean> holds) {
        double yes = low;
        double no = high;
        while (no - yes > resolution) {
            double middle = 0.5 * (yes + no);
            if (holds.apply(middle)) {
                yes = middle;
            } else {
                no = middle;
            }
        }
        return yes;
    }

    /**
     * The filament's temperature where the cold side begins, after the failure.
     *
     * @param regime what the machine was doing
     * @param response what is done; an empty set: nothing
     * @param responseAt s after the failure
     * @param end s
     * @return times, s, and temperatures, K, of the same length
     */
    public Curve curve(Regime regime, Set<Action> response, double responseAt, double end) {
        List<Double> times = new ArrayList<>();
        List<Double> kelvin = new ArrayList<>();
        Transient.Observer note = (t, y) -> {
            times.add(t);
            kelvin.add(heat.profile.filamentAtThroat(y));
            return true;
        };
        Transient.Doing nothing = new Transient.Doing(feedOf(regime), true, true, false);
        Transient.Moment start = new Transient.Moment(0, steadyState(regime));
        double until = response.isEmpty() ? end : Math.min(responseAt, end);
        Transient.Moment reached = heat.run(start, until, nothing, note);
        if (!response.isEmpty() && reached.time() < end) {
            heat.run(reached, end, doing(regime, response), note);
        }
        return new Curve(
                times.stream().mapToDouble(Double::doubleValue).toArray(),
                kelvin.stream().mapToDouble(Double::doubleValue).toArray());
    }

    /**
     * The deepest softening after a response, m.
     *
     * @param responseAt s after the failure
     */
    public double deepest(Regime regime, Set<Action> response, double responseAt) {
        double[] deepest = {0};
        Transient.Observer note = (t, y) -> {
            deepest[0] = Math.max(deepest[0], heat.profile.softenedDepth(y));
            return true;
        };
        Transient.Doing nothing = new Transient.Doing(feedOf(regime), true, true, false);
        Transient.Moment reached = heat.run(new Transient.Moment(0, steadyState(regime)), responseAt, nothing, note);
        heat.run(reached, responseAt + settings.after(), doing(regime, response), note);
        return deepest[0];
    }
}
