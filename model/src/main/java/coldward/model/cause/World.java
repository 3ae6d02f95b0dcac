package coldward.model.cause;

import coldward.model.build.Reading.Counter;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import coldward.model.reading.ChoppedPulses;
import coldward.model.reading.Chopping;
import coldward.model.reading.EdgePulses;
import coldward.model.reading.SampledPulses;
import java.util.Optional;

/**
 * One way the matter may stand, with every unknown filled in, and what each look would show in it.
 *
 * @param rpm true speed at the usual command, rpm
 * @param pulses per turn that the fan gives
 * @param duty of its pulses
 * @param polledEvery s between looks in truth, where the interval asked for is the sheet's; empty where it is as asked
 * @param bothEdges both edges are counted
 * @param coupled pulses a second from the motors, Hz
 * @param chopping of the supply in the usual reading
 * @param wire what the third wire is
 * @param voltsShare mean voltage at the fan's plug over the rated one
 * @param airShare air over what a free fan of this speed moves
 * @param hand number of the choice of {@link Look#HAND}
 * @param exponent of speed against command
 * @param start command below which it stands
 */
record World(
        double rpm,
        int pulses,
        double duty,
        Optional<Double> polledEvery,
        boolean bothEdges,
        double coupled,
        Optional<Chopping> chopping,
        Wire wire,
        double voltsShare,
        double airShare,
        int hand,
        double exponent,
        double start) {

    private static final double NO_AIR = 0.12;

    private static final double USUAL_AIR = 0.65;

    /** As if looks were early or late by so much of their interval. */
    private static final double MOTORS_VARY = 0.1;

    /** What comes through the third wire. */
    enum Wire {
        PULSES,
        LOCKED_LEVEL,
        LOW_SPEED_LEVEL,
        OPEN
    }

    /** All as it should be. */
    static World sound(double rpm, int pulses, double duty, double voltsShare, double exponent, double start) {
        return new World(
                rpm,
                pulses,
                duty,
                Optional.empty(),
                false,
                0,
                Optional.empty(),
                Wire.PULSES,
                voltsShare,
                1,
                0,
                exponent,
                start);
    }

    World withRpm(double other) {
        return new World(
                other,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                chopping,
                wire,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withPulses(int other) {
        return new World(
                rpm,
                other,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                chopping,
                wire,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withPolledEvery(double seconds) {
        return new World(
                rpm,
                pulses,
                duty,
                Optional.of(seconds),
                bothEdges,
                coupled,
                chopping,
                wire,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withBothEdges() {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                true,
                coupled,
                chopping,
                wire,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withCoupled(double rate) {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                rate,
                chopping,
                wire,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withChopping(Chopping by) {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                Optional.of(by),
                wire,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withWire(Wire other) {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                chopping,
                other,
                voltsShare,
                airShare,
                hand,
                exponent,
                start);
    }

    World withVolts(double share) {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                chopping,
                wire,
                share,
                airShare,
                hand,
                exponent,
                start);
    }

    World withAir(double share) {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                chopping,
                wire,
                voltsShare,
                share,
                hand,
                exponent,
                start);
    }

    World withHand(String choice) {
        return new World(
                rpm,
                pulses,
                duty,
                polledEvery,
                bothEdges,
                coupled,
                chopping,
                wire,
                voltsShare,
                airShare,
                Look.HAND.choice(choice),
                exponent,
                start);
    }

    /** What a look shows: rpm, V, or the number of the choice. */
    double shows(Seen.Asked asked, Expected expected) {
        double setting = asked.setting();
        return switch (asked.look()) {
            case SHOWN -> shown(expected, rpm, 1, chopping, true);
            case AT_DUTY ->
                shown(
                        expected,
                        atCommand(setting),
                        1,
                        // chopped as commanded; 0.01 is as good as off and the speed is 0 there anyway
                        chopping.map(c -> new Chopping(c.frequency(), Math.max(0.01, setting))),
                        true);
            case AT_INTERVAL -> shown(expected, rpm, setting / sampledEvery(expected), chopping, true);
            case UNPLUGGED -> shown(expected, 0, 1, Optional.empty(), true);
            case MOTORS_STILL -> shown(expected, rpm, 1, chopping, false);
            case FULL_POWER -> shown(expected, atFullPower(), 1, Optional.empty(), true);
            case OTHER_COUNTER -> metered(expected);
            case STROBE -> rpm;
            case SUPPLY -> voltsShare * expected.ratedVolts();
            case AIR -> {
                double air = rpm / expected.ratedRpm() * airShare;
                yield air < NO_AIR ? 0 : air < USUAL_AIR ? 1 : 2;
            }
            case HAND -> hand;
            case THIRD_WIRE -> thirdWire();
        };
    }

    private int thirdWire() {
        if (rpm == 0) {
            return Look.THIRD_WIRE.choice("nothing");
        }
        return switch (wire) {
            case PULSES, OPEN -> Look.THIRD_WIRE.choice("pulses");
            case LOCKED_LEVEL -> Look.THIRD_WIRE.choice("changes-when-held");
            case LOW_SPEED_LEVEL -> Look.THIRD_WIRE.choice("changes-when-slowed");
        };
    }

    private double atFullPower() {
        return chopping.map(c -> rpm / follow(c.onShare())).orElse(rpm);
    }

    private double atCommand(double command) {
        return atFullPower() * (command < start ? 0 : follow(command));
    }

    private double follow(double command) {
        return Math.pow(command, exponent);
    }

    private double metered(Expected expected) {
        if (wire == Wire.LOCKED_LEVEL || wire == Wire.LOW_SPEED_LEVEL) {
            return 0;
        }
        double rate = rpm * pulses / 60;
        double seen = chopping.map(c -> {
                    ChoppedPulses.Edges edges = ChoppedPulses.edges(rate, duty, c);
                    return edges.real() + edges.falseEdges();
                })
                .orElse(rate);
        return seen * 60 / expected.reading().pulsesPerTurn();
    }

    private static double sampledEvery(Expected expected) {
        return expected.reading().counter() instanceof Sampled(double every) ? every : 1;
    }

    private double shown(
            Expected expected, double speed, double stretch, Optional<Chopping> supply, boolean motorsRunning) {
        Tachometer reading = expected.reading();
        double rate = wire == Wire.PULSES ? speed * pulses / 60 : 0;
        Counter counter = counter(reading, stretch);
        double seen =
                rate > 0 && supply.isPresent() ? chopped(rate, counter, supply.get()) : plain(rate, duty, counter);
        if (bothEdges) {
            // between two looks a pin may change once: no more than every look counts
            seen = counter instanceof Sampled(double every) ? Math.min(2 * seen, 1 / every) : 2 * seen;
        }
        if (motorsRunning && coupled > 0) {
            seen = disturbed(seen, counter);
        }
        return seen * 60 / reading.pulsesPerTurn();
    }

    /**
     * A disturbance turns the pin over. Edges then add up. Of two independent signals looked at every T, with shares m and
     * n of phases in which one finds low and the next high, the pin's share is m + n - 4 m n: as +1 and -1 they multiply, so
     * do their correlations 1 - 4 m and 1 - 4 n. Motors change their speed all the time, which spreads n like a jitter.
     */
    private double disturbed(double seen, Counter counter) {
        if (!(counter instanceof Sampled(double every))) {
            return seen + plain(coupled, 0.5, counter);
        }
        double m = Math.min(0.5, seen * every);
        double n = SampledPulses.shownRate(coupled, every, 0.5, MOTORS_VARY * every) * every;
        return (m + n - 4 * m * n) / every;
    }

    private double chopped(double rate, Counter counter, Chopping supply) {
        if (counter instanceof Edge edge && (edge.shortestLevel() > 0 || edge.lockOut() > 0)) {
            // the unlimited count through the limits of a regular train: thousands of worlds cannot each be simulated
            ChoppedPulses.Edges edges = ChoppedPulses.edges(rate, duty, supply);
            return EdgePulses.shownRate(edges.real() + edges.falseEdges(), duty, edge);
        }
        return ChoppedPulses.shownRate(rate, duty, counter, supply);
    }

    private Counter counter(Tachometer reading, double stretch) {
        return polledEvery
                .<Counter>map(every -> new Sampled(every * stretch))
                .orElse(
                        reading.counter() instanceof Sampled(double every)
                                ? new Sampled(every * stretch)
                                : reading.counter());
    }

    private static double plain(double rate, double duty, Counter counter) {
        return switch (counter) {
            case Sampled(double every) -> SampledPulses.shownRate(rate, every, duty);
            case Edge edge -> EdgePulses.shownRate(rate, duty, edge);
            case PeriodTimer(double clock) -> Math.min(rate, clock);
        };
    }
}
