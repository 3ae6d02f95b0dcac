package coldward.proof.fast;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Trip;
import coldward.model.heat.Factors;
import coldward.model.heat.Regime;
import coldward.rig.Failure;
import coldward.rig.SimulatedPrinter;
import coldward.rig.Traits;
import coldward.rig.Truth;
import coldward.watch.guard.FanState;
import java.util.OptionalDouble;
import java.util.random.RandomGenerator;

/**
 * One failure of one printer, followed to its end.
 *
 * @param mode what kind of failure
 * @param failure what was broken
 * @param regime what the machine was doing
 * @param detected s from the failure to the trip; empty if it did not trip
 * @param deepest softened depth after the failure, m
 * @param limit of it, m
 */
record FailureRound(Mode mode, Failure failure, Regime regime, OptionalDouble detected, double deepest, double limit) {

    /** s; as long as the heat model itself looks at. */
    private static final double LONGEST = 3600;

    /** Reports before the failure, at least; the trembling then has no memory of how it began. */
    private static final int REPORTS_BEFORE = 12;

    enum Mode {
        STOP,
        SLOW,
        FADE,
        SIGNAL_LOST;

        Failure draw(RandomGenerator random) {
            return switch (this) {
                case STOP -> new Failure.Stop();
                case SLOW -> new Failure.Slow(random.nextDouble(0, 0.95));
                case FADE -> new Failure.Fade(random.nextDouble(20, 400));
                case SIGNAL_LOST -> new Failure.CutSignal();
            };
        }
    }

    /** True if it ended as a safe printer's failure must: firm, and a lost signal tripped. */
    boolean saved() {
        return mode == Mode.SIGNAL_LOST ? detected.isPresent() : deepest <= limit;
    }

    /** Breaks a printer at a random moment within a report and follows what its guard makes of it. */
    static FailureRound run(Build build, Trip trip, Factors factors, Mode mode, Regime regime, RandomGenerator random) {
        SimulatedPrinter printer =
                SimulatedPrinter.of(build.printer(), build, regime, factors, Traits.USUAL, random.nextLong());
        GuardedPrinter guarded = new GuardedPrinter(printer, trip, true);
        double interval = ((Reading.Tachometer) build.reading()).reportInterval();
        guarded.settle(REPORTS_BEFORE + trip.confirmations() + (int) Math.ceil(trip.grace() / interval));
        if (guarded.fan() != FanState.TURNING) {
            throw new AssertionError(
                    build.printer() + " with a healthy fan is " + guarded.fan() + " before the failure");
        }
        guarded.advance(interval * random.nextDouble(1e-6, 1));
        long failedAt = guarded.truth().at();
        Failure failure = mode.draw(random);
        guarded.fail(failure);
        guarded.toTheEnd(mode == Mode.SIGNAL_LOST ? 60 * interval : LONGEST);
        Truth end = guarded.truth();
        return new FailureRound(
                mode,
                failure,
                regime,
                guarded.trippedAt().isPresent()
                        ? OptionalDouble.of((guarded.trippedAt().getAsLong() - failedAt) / 1e9)
                        : OptionalDouble.empty(),
                end.deepest(),
                end.limit());
    }
}
