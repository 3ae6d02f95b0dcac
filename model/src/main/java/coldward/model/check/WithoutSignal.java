package coldward.model.check;

import coldward.model.build.Build;
import coldward.model.build.HotEnd;
import coldward.model.build.Reading;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.heat.Deadline;
import coldward.model.heat.LiveHotEnd;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.trip.Coast;
import coldward.model.trip.Detection;
import coldward.model.trip.FailureMode;
import coldward.model.trip.Margin;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

/**
 * What a printer that reads no speed could notice by, in seconds: the hot end is run on after a stop, with heater and feed
 * as they were, until the sign is large enough. Thresholds are common practice, no source.
 */
public final class WithoutSignal {

    /** K that a sensor on the sink has to rise above where it stood; a warm draught is less. */
    public static final double COLD_SIDE_RISE = 5;

    /** Share by which the heater's mean power has to change; supply voltage and feed move it by less within minutes. */
    public static final double POWER_CHANGE = 0.10;

    /** s over which a heater's power has to be averaged, for it is switched. */
    public static final double POWER_AVERAGED = 10;

    /** s between two looks at a temperature or a mean power; three in a row have to agree. */
    private static final double LOOK = 1;

    private static final int LOOKS_THAT_AGREE = 3;

    /** s that are looked at. */
    private static final double HORIZON = 1800;

    private static final double STEP = 0.25;

    /** A fan with two pulses per turn on an edge counter with a report every second: what is usual. */
    private static final Reading THIRD_WIRE = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);

    private final Build build;
    private final Race race;

    private WithoutSignal(Build build) {
        this.build = build;
        this.race = new Race(build.hotEnd());
    }

    /** The ways, the one with the largest margin first. */
    public static List<Noticing> of(Build build) {
        WithoutSignal without = new WithoutSignal(build);
        return List.of(without.thirdWire(), without.coldSide(), without.heaterPower()).stream()
                .sorted(Comparator.comparing(Noticing::margin).reversed())
                .toList();
    }

    private Noticing thirdWire() {
        TripDesign design = TripDesign.of(build.withReading(THIRD_WIRE).withoutTrip());
        String words = "a fan with a third wire: two pulses per turn, every edge counted, a report every second";
        return design.standing()
                .map(judged -> new Noticing(Noticing.Way.THIRD_WIRE, words, stop(judged), judged.margin()))
                .orElseGet(() -> new Noticing(
                        Noticing.Way.THIRD_WIRE, words, OptionalDouble.empty(), new Margin.NothingSaves()));
    }

    private static OptionalDouble stop(Judged judged) {
        return judged.of(FailureMode.STOP).detection() instanceof Detection.Noticed noticed
                ? OptionalDouble.of(noticed.p99())
                : OptionalDouble.empty();
    }

    private Noticing coldSide() {
        String words = "a temperature sensor on the sink, tripping %s K above where it stands"
                .formatted(coldward.quantity.Checks.number(COLD_SIDE_RISE));
        return noticing(Noticing.Way.COLD_SIDE, words, LiveHotEnd::sinkKelvin, start -> COLD_SIDE_RISE, 0);
    }

    private Noticing heaterPower() {
        String words = "the power that holds the nozzle, tripping when its mean over %s s has changed by %.0f %%"
                .formatted(coldward.quantity.Checks.number(POWER_AVERAGED), 100 * POWER_CHANGE);
        return noticing(
                Noticing.Way.HEATER_POWER,
                words,
                LiveHotEnd::heaterPower,
                start -> POWER_CHANGE * start,
                POWER_AVERAGED);
    }

    private Noticing noticing(
            Noticing.Way way,
            String words,
            ToDoubleFunction<LiveHotEnd> sign,
            java.util.function.DoubleUnaryOperator change,
            double averaged) {
        double slowest = 0;
        Margin smallest = new Margin.Unlimited();
        for (Regime regime : Regime.values()) {
            OptionalDouble at = changesAt(regime, sign, change, averaged);
            Deadline deadline = race.deadline(regime, build.response().actions());
            Margin margin;
            if (at.isPresent()) {
                double noticed = at.getAsDouble() + LOOKS_THAT_AGREE * LOOK;
                slowest = Math.max(slowest, noticed);
                margin = Margin.of(
                        deadline,
                        noticed
                                + build.response().linkLatency()
                                + build.response().machineLatency());
            } else {
                slowest = Double.POSITIVE_INFINITY;
                margin = deadline instanceof Deadline.Always ? new Margin.Unlimited() : new Margin.NothingSaves();
            }
            smallest = margin.compareTo(smallest) < 0 ? margin : smallest;
        }
        return new Noticing(
                way, words, Double.isFinite(slowest) ? OptionalDouble.of(slowest) : OptionalDouble.empty(), smallest);
    }

    /** When the running mean of a sign has changed by enough after a stop, s; empty if not within the horizon. */
    private OptionalDouble changesAt(
            Regime regime,
            ToDoubleFunction<LiveHotEnd> sign,
            java.util.function.DoubleUnaryOperator change,
            double averaged) {
        HotEnd hotEnd = build.hotEnd();
        LiveHotEnd live = LiveHotEnd.settled(hotEnd, regime);
        double feed = regime == Regime.PRINTING ? hotEnd.feed() : 0;
        Coast coast = new Coast(hotEnd.fan().coastDown());
        double start = sign.applyAsDouble(live);
        double limit = change.applyAsDouble(start);
        double mean = start;
        double kept = averaged == 0 ? 0 : Math.exp(-STEP / averaged);
        for (double t = STEP; t <= HORIZON; t += STEP) {
            live.advance(STEP, new LiveHotEnd.Drive(coast.share(t - STEP / 2), hotEnd.nozzle(), feed, false));
            mean = kept * mean + (1 - kept) * sign.applyAsDouble(live);
            if (Math.abs(mean - start) >= limit) {
                return OptionalDouble.of(t);
            }
        }
        return OptionalDouble.empty();
    }
}
