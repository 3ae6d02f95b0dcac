package coldward.watch.guard;

import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;

/**
 * A random machine, watch and people, from a seed.
 *
 * @param settings what the guard judges by
 * @param events in order of their times
 */
record GuardScenario(GuardSettings settings, List<GuardEvent> events) {

    private static final double[] SPEEDS = {0, 0, Math.nextDown(GuardRun.TRIP), GuardRun.TRIP, 8000, 8000, 8000};

    static GuardScenario of(long seed) {
        RandomGenerator random =
                RandomGeneratorFactory.<RandomGenerator>of("L64X128MixRandom").create(seed);
        return new GuardScenario(settings(random), events(random));
    }

    private static GuardSettings settings(RandomGenerator random) {
        return new GuardSettings(
                GuardRun.TRIP,
                1 + random.nextInt(5),
                random.nextInt(4) * GuardRun.S,
                GuardRun.S,
                50 + 273.15,
                random.nextInt(3) == 0 ? Says.ON_CHANGE : Says.ALWAYS,
                (2 + random.nextInt(4)) * GuardRun.S,
                random.nextBoolean() ? OptionalLong.of(random.nextInt(10) * GuardRun.S) : OptionalLong.empty(),
                4,
                random.nextBoolean(),
                random.nextInt(3) * GuardRun.S);
    }

    private static List<GuardEvent> events(RandomGenerator random) {
        List<GuardEvent> events = new ArrayList<>();
        long at = random.nextLong(-1_000 * GuardRun.S, 1_000 * GuardRun.S);
        if (random.nextInt(3) == 0) {
            events.add(new GuardEvent.Resumed(
                    at,
                    random.nextInt(3) == 0 ? Optional.of(TripCause.LOW_SPEED) : Optional.empty(),
                    random.nextBoolean(),
                    random.nextBoolean(),
                    random.nextInt(4) == 0 ? OptionalLong.of(at + 20 * GuardRun.S) : OptionalLong.empty()));
        }
        boolean numbered = random.nextBoolean();
        boolean hasDuty = random.nextInt(4) > 0;
        boolean hasNozzle = random.nextInt(4) > 0;
        boolean hasColdSide = random.nextInt(3) == 0;
        double number = 0;
        double duty = 0;
        double nozzle = 298;
        double coldSide = 308;
        double speed = 0;
        for (int i = 0; i < 300; i++) {
            at += pause(random);
            if (random.nextInt(20) == 0) {
                duty = random.nextBoolean() ? 0 : 0.7;
            }
            if (random.nextInt(20) == 0) {
                nozzle = new double[] {298, 323.15, Math.nextUp(323.15), 500}[random.nextInt(4)];
            }
            // runs of the same speed are what trips are made of
            if (random.nextInt(4) == 0) {
                speed = SPEEDS[random.nextInt(SPEEDS.length)];
            }
            coldSide += random.nextInt(30) == 0 ? 5 : random.nextInt(30) == 0 ? -5 : 0;
            int what = random.nextInt(40);
            if (what < 30) {
                number = random.nextInt(50) == 0 ? 0 : number + random.nextInt(3);
                Reads.Builder reads = new Reads.Builder();
                if (random.nextInt(10) > 0) {
                    reads.with(ReadName.SPEED, speed);
                    if (numbered) {
                        reads.with(ReadName.REPORT, number);
                    }
                }
                if (hasDuty) {
                    reads.with(ReadName.DUTY, duty);
                }
                if (hasNozzle) {
                    reads.with(ReadName.NOZZLE, nozzle);
                }
                if (hasColdSide) {
                    reads.with(ReadName.COLD_SIDE, coldSide);
                }
                events.add(new GuardEvent.Report(at, reads.build()));
            } else if (what < 36) {
                events.add(new GuardEvent.Tick(at));
            } else if (what == 36) {
                events.add(new GuardEvent.Release(at, "Ada", "looked at it"));
            } else if (what == 37 && random.nextInt(3) == 0) {
                events.add(new GuardEvent.Bypass(at, "Ada", "cleaning", at + 1 + random.nextLong(10 * GuardRun.S)));
            } else if (what == 38 && random.nextInt(3) == 0) {
                events.add(new GuardEvent.Stalled(at));
            }
        }
        return events;
    }

    private static long pause(RandomGenerator random) {
        return switch (random.nextInt(10)) {
            case 0 -> random.nextLong(8 * GuardRun.S);
            case 1, 2, 3 -> GuardRun.S;
            case 4, 5 -> GuardRun.S / 4;
            case 6 -> 0;
            default -> random.nextLong(2 * GuardRun.S);
        };
    }
}
