package coldward.proof.fast;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Trip;
import coldward.model.heat.Factors;
import coldward.model.heat.Regime;
import coldward.model.trip.HealthyReports;
import coldward.model.trip.SpuriousTrips;
import coldward.model.trip.SpuriousWait;
import coldward.rig.SimulatedPrinter;
import coldward.rig.Traits;
import coldward.watch.guard.FanState;

/**
 * Spurious trips of a healthy fan on the rig, counted, beside the number that the chain expects.
 *
 * @param correlation of the reports
 * @param confirmations of the trip
 * @param reports that the guard judged
 * @param trips counted
 * @param expected by the chain
 * @param low end of the 99 % interval
 * @param high end of it
 */
record SpuriousCount(
        double correlation, int confirmations, long reports, long trips, double expected, double low, double high) {

    /** Two-sided 99 % point of the normal law. */
    private static final double Z99 = 2.5758293035489004;

    /** Between a release and the trip before it, so that the reports have no memory of the trip: r^n below 1e-6. */
    private static int forget(double correlation) {
        return correlation == 0 ? 1 : (int) Math.ceil(Math.log(1e-6) / Math.log(correlation));
    }

    boolean agrees() {
        return trips >= low && trips <= high;
    }

    String line() {
        return "r %.2f, k %d: %d trips in %d reports; expected %.1f, 99 %% interval %.1f to %.1f"
                .formatted(correlation, confirmations, trips, reports, expected, low, high);
    }

    /**
     * Counts.
     *
     * @param build its counter must resolve far finer than the trembling
     * @param deviations how far below the mean the trip speed lies, in standard deviations
     * @param wanted how many trips are to be expected
     */
    static SpuriousCount of(
            Build build, double correlation, double deviations, int confirmations, int wanted, long seed) {
        Traits traits = new Traits(Traits.USUAL.spinUp(), 0.02, correlation, 0, 0, 0);
        double mean = build.hotEnd().fan().ratedSpeed();
        HealthyReports healthy = new HealthyReports(mean, traits.noise() * mean, correlation, 0);
        Trip trip = new Trip(mean - deviations * healthy.deviation(), confirmations, 0);
        if (!(SpuriousTrips.first(healthy, trip.speed(), confirmations) instanceof SpuriousWait.Expected wait)) {
            throw new AssertionError("only a bound is known at this trip speed");
        }
        long reports = Math.round(wanted * wait.reports());
        GuardedPrinter guarded = new GuardedPrinter(
                SimulatedPrinter.of(build.printer(), build, Regime.HOT_IDLE, Factors.NONE, traits, seed), trip, false);
        double interval = ((Reading.Tachometer) build.reading()).reportInterval();
        // the rig begins with one draw of the stationary law; a trip on the way is none of the counted ones
        guarded.settle(forget(correlation));
        long trips = 0;
        if (guarded.fan() == FanState.TRIPPED) {
            guarded.settle(forget(correlation));
            guarded.release();
        }
        for (long judged = 0; judged < reports; judged++) {
            guarded.advance(interval);
            if (guarded.fan() == FanState.TRIPPED) {
                trips++;
                guarded.settle(forget(correlation));
                guarded.release();
            }
        }
        double expected = reports / wait.reports();
        double deviation = wait.spread() * Math.sqrt(expected);
        return new SpuriousCount(
                correlation,
                confirmations,
                reports,
                trips,
                expected,
                expected - Z99 * deviation,
                expected + Z99 * deviation);
    }
}
