package coldward.model.cause;

import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import coldward.model.cause.World.Wire;
import coldward.model.reading.Chopping;
import coldward.model.reading.Conditions;
import coldward.model.reading.Readings;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Draws worlds of each cause: the nuisance parameters, integrated by seeded sampling. */
final class Worlds {

    private static final int FEW = 2_000;

    private static final int MANY = 8_000;

    /** How often worlds of folding keep the sheet's own interval, where that is too long already. */
    private static final double AS_ON_THE_SHEET = 0.8;

    private static final long SEED = 4711;

    private final Expected expected;
    private final SplittableRandom draws;
    private final Cause cause;

    private Worlds(Expected expected, Cause cause) {
        this.expected = expected;
        this.cause = cause;
        this.draws = new SplittableRandom(SEED + cause.key().hashCode());
    }

    static List<World> of(Cause cause, Expected expected) {
        Worlds worlds = new Worlds(expected, cause);
        int count = switch (cause) {
            case FOLDING, CHOPPING, COUPLING -> MANY;
            default -> FEW;
        };
        List<World> all = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            all.add(worlds.draw());
        }
        return List.copyOf(all);
    }

    /** Whether the sheet's counter shows a world's speed as it is. */
    static boolean honest(World world, Expected expected) {
        Tachometer as = expected.reading();
        Tachometer reading = new Tachometer(world.pulses(), world.duty(), as.counter(), as.reportInterval());
        return Readings.of(reading, world.rpm(), Conditions.PLAIN).honest();
    }

    private double uniform(Tolerances range) {
        return range.at(draws.nextDouble());
    }

    private double logarithmic(Tolerances range) {
        return range.logarithmic(draws.nextDouble());
    }

    private boolean chance(Tolerances probability) {
        return draws.nextDouble() < probability.low();
    }

    private World draw() {
        double exponent = uniform(Tolerances.SPEED_EXPONENT);
        double rail = 1 + Tolerances.RAIL.low() * draws.nextGaussian();
        double rpm = expected.ratedRpm() * (1 + expected.tolerance() * (2 * draws.nextDouble() - 1)) * rail;
        double duty = Math.clamp(expected.reading().duty() * (1 + uniform(Tolerances.DUTY_SKEW)), 0.05, 0.95);
        int pulses = expected.reading().pulsesPerTurn();
        World sound = World.sound(rpm, pulses, duty, rail, exponent, uniform(Tolerances.START));
        return switch (cause) {
            case READING_RIGHT -> sound;
            case WRONG_PULSES -> sound.withPulses(otherPulses(pulses));
            case FOLDING -> folding(sound);
            case CHOPPING -> {
                Chopping by = new Chopping(logarithmic(Tolerances.CHOP_FREQUENCY), uniform(Tolerances.CHOP_SHARE));
                yield sound.withRpm(rpm * Math.pow(by.onShare(), exponent))
                        .withChopping(by)
                        .withVolts(rail * by.onShare());
            }
            case BOTH_EDGES -> sound.withBothEdges();
            case SUPPLY_LOW -> {
                double volts = uniform(Tolerances.LOW_VOLTS);
                double speed = volts < uniform(Tolerances.LOW_START) ? 0 : rpm * Math.pow(volts, exponent);
                yield sound.withRpm(speed).withVolts(volts);
            }
            case AIR_BLOCKED ->
                sound.withRpm(rpm * uniform(Tolerances.BLOCKED_SPEED)).withAir(uniform(Tolerances.BLOCKED_AIR));
            case BEARING -> sound.withRpm(rpm * uniform(Tolerances.DRAG)).withHand("stiff");
            case COUPLING ->
                sound.withRpm(chance(Tolerances.COUPLED_TURNING) ? rpm : 0)
                        .withCoupled(logarithmic(Tolerances.COUPLED));
            case LOCKED_LEVEL -> sound.withWire(Wire.LOCKED_LEVEL);
            case LOW_SPEED_LEVEL -> sound.withWire(Wire.LOW_SPEED_LEVEL);
            case FAN_STOPPED -> {
                World standing = sound.withRpm(0);
                yield chance(Tolerances.STANDS_POWERED)
                        ? standing.withHand(chance(Tolerances.STANDS_HELD) ? "held" : "free")
                        : standing.withVolts(0);
            }
            case SIGNAL_OPEN -> sound.withWire(Wire.OPEN);
        };
    }

    /** The sheet's interval if that misses pulses already, else one longer than the longest honest one. */
    private World folding(World world) {
        if (!honest(world, expected) && draws.nextDouble() < AS_ON_THE_SHEET) {
            return world;
        }
        double longest = Math.min(world.duty(), 1 - world.duty()) / (world.rpm() * world.pulses() / 60);
        double every = longest * logarithmic(Tolerances.LATE_LOOKS);
        if (expected.reading().counter() instanceof Sampled(double asked)) {
            // looks come late, never early
            every = Math.max(every, asked);
        }
        return world.withPolledEvery(every);
    }

    private int otherPulses(int set) {
        double total = Tolerances.PULSES.stream()
                .filter(p -> (int) p[0] != set)
                .mapToDouble(p -> p[1])
                .sum();
        double left = draws.nextDouble() * total;
        int last = set == 2 ? 1 : 2;
        for (double[] one : Tolerances.PULSES) {
            if ((int) one[0] != set) {
                last = (int) one[0];
                left -= one[1];
                if (left < 0) {
                    break;
                }
            }
        }
        return last;
    }
}
