package coldward.rig;

import coldward.model.build.Fan;
import coldward.quantity.Seeds;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * A fan: spins up exponentially, coasts by {@code ds/dt = -s^2/tau} (so s = 1/(1 + t/tau) from full speed), wears with
 * the hours it turns, and trembles. The trembling is AR(1) from report to report: constant within one report, innovation
 * sigma sqrt(1 - r^2), so that the reports' standard deviation and lag-1 correlation are exactly sigma and r. Each
 * innovation depends on the seed and the report's number only: a restored fan goes on as it would have.
 */
final class SimulatedFan {

    private static final double SECONDS_PER_HOUR = 3600;

    private final Fan fan;
    private final Traits traits;
    private final long seed;

    /** Smooth speed, share of rated speed. */
    private double share;

    private double noise;
    private double hoursTurned;
    private Optional<Failure.OfFan> failure = Optional.empty();
    private double failedFor;
    private double shareAtFailure = 1;

    SimulatedFan(Fan fan, Traits traits, long seed, boolean turning) {
        this.fan = fan;
        this.traits = traits;
        this.seed = seed;
        this.hoursTurned = traits.hoursTurned();
        this.share = turning ? healthy() : 0;
    }

    /** What the fan is, for going on later. */
    PrinterRecord.FanRecord state() {
        double number = switch (failure.orElse(null)) {
            case Failure.Slow slow -> slow.fraction();
            case Failure.Fade fade -> fade.seconds();
            case null, default -> 0;
        };
        return new PrinterRecord.FanRecord(
                share, noise, hoursTurned, failure.map(Failure::word).orElse(""), number, failedFor, shareAtFailure);
    }

    void restore(PrinterRecord.FanRecord state) {
        share = state.share();
        noise = state.noise();
        hoursTurned = state.hoursTurned();
        failure = Failure.of(state.failure(), state.number(), state.number())
                .filter(Failure.OfFan.class::isInstance)
                .map(Failure.OfFan.class::cast);
        failedFor = state.failedFor();
        shareAtFailure = state.shareAtFailure();
    }

    private double healthy() {
        return Math.max(0, 1 - traits.wear() * hoursTurned);
    }

    /** Draws the trembling of one report. */
    void tremble(long report) {
        double sigma = traits.noise() * (1 + traits.noiseGrowth() * hoursTurned);
        double r = traits.correlation();
        SplittableRandom random = new SplittableRandom(Seeds.of(seed, report));
        noise = r * noise + sigma * Math.sqrt(1 - r * r) * random.nextGaussian();
    }

    /**
     * Goes on.
     *
     * @param seconds s, above 0
     * @param powered its supply is on
     * @return mean speed over this time, share of rated speed
     */
    double advance(double seconds, boolean powered) {
        double turned = powered
                ? switch (failure.orElse(null)) {
                    case Failure.Stop stop -> coast(seconds);
                    case Failure.Slow slow -> follow(seconds, healthy() * slow.fraction());
                    case Failure.Fade fade -> fade(seconds, fade.seconds());
                    case null -> spin(seconds, healthy());
                }
                : coast(seconds);
        failedFor += seconds;
        double mean = turned / seconds * (1 + noise);
        hoursTurned += seconds * Math.min(1, share) / SECONDS_PER_HOUR;
        return Math.max(0, mean);
    }

    private double coast(double seconds) {
        double tau = fan.coastDown();
        if (tau == 0 || share == 0) {
            share = 0;
            return 0;
        }
        double grown = 1 + share * seconds / tau;
        share /= grown;
        return tau * Math.log(grown);
    }

    private double spin(double seconds, double target) {
        double kept = Math.exp(-seconds / traits.spinUp());
        double gap = share - target;
        share = target + gap * kept;
        return target * seconds + gap * traits.spinUp() * (1 - kept);
    }

    /** To a lower speed at once, to a higher one by spinning up. */
    private double follow(double seconds, double target) {
        if (share >= target) {
            share = target;
            return target * seconds;
        }
        return spin(seconds, target);
    }

    private double fade(double seconds, double duration) {
        double before = Math.max(0, 1 - failedFor / duration);
        double after = Math.max(0, 1 - (failedFor + seconds) / duration);
        double reached = Math.min(seconds, Math.max(0, duration - failedFor));
        share = shareAtFailure * after;
        return shareAtFailure * (before + after) / 2 * reached;
    }

    void fail(Failure.OfFan kind) {
        failure = Optional.of(kind);
        failedFor = 0;
        shareAtFailure = share;
    }

    void mend() {
        failure = Optional.empty();
    }

    Optional<Failure.OfFan> failure() {
        return failure;
    }

    /** rpm at this moment, trembling included. */
    double speed() {
        return fan.ratedSpeed() * Math.max(0, share * (1 + noise));
    }

    /** True while the speed is on its way to another. */
    boolean changing(boolean powered) {
        boolean stands = share < 1e-3;
        boolean steady = powered && failure.isEmpty() && Math.abs(share - healthy()) < 1e-3;
        boolean slowed =
                powered && failure.filter(Failure.Slow.class::isInstance).isPresent();
        return !(stands || steady || slowed);
    }
}
