package coldward.model.heat;

import coldward.quantity.NumericalFailure;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Runs of one machine after its fan's failure: what happens with nothing done, and what a response at some moment makes
 * of it. For one thread.
 */
final class Transient {

    private static final double FIRST_STEP = 0.05;
    private static final double SHORTEST_STEP = 1e-6;
    private static final int MOST_STEPS = 200_000;
    /** A peak counts as passed once the excess has fallen this far below it with the heater off, K. */
    private static final double PASSED = 0.5;

    /**
     * What the machine does from a moment on.
     *
     * @param feed m3/s
     * @param feedsToTheEnd false: feeding ends when the block has fallen below the plastic's feeding limit
     * @param heated block held at its set-point, or floating without power
     * @param blown part-cooling air on the block
     */
    record Doing(double feed, boolean feedsToTheEnd, boolean heated, boolean blown) {}

    /** One moment of a run; the state is not to be changed. */
    static final class Moment {
        private final double time;
        private final double[] state;

        Moment(double time, double[] state) {
            this.time = time;
            this.state = state;
        }

        double time() {
            return time;
        }

        double[] state() {
            return state;
        }
    }

    /** Receives each step; returns false to end the run. */
    interface Observer {
        boolean at(double time, double[] state);
    }

    final Network net;
    final HeatSystem system;
    final Profile profile;
    private final Stepper stepper;
    private final FanFailure failure;
    private final HeatSettings settings;

    Transient(Network net, FanFailure failure, HeatSettings settings) {
        this.net = net;
        this.system = new HeatSystem(net);
        this.profile = new Profile(net);
        this.stepper = new Stepper(system);
        this.failure = failure;
        this.settings = settings;
    }

    /** The steady state with the fan at a relative speed and this feed. */
    double[] steady(double speed, double feed) {
        system.feed(feed);
        return Stepper.steady(system, speed);
    }

    /** Integrates from a moment to an end; the observer sees the start and every step. */
    Moment run(Moment from, double end, Doing doing, Observer observer) {
        double[] y = from.state().clone();
        double[] next = new double[y.length];
        double t = from.time();
        double feed = doing.feed();
        system.feed(feed);
        double dt = FIRST_STEP;
        if (!observer.at(t, y)) {
            return new Moment(t, y);
        }
        int block = y.length - 1;
        for (int steps = 0; t < end - 1e-9; steps++) {
            if (steps > MOST_STEPS) {
                throw new NumericalFailure(
                        "heat: %d steps did not reach %.1f s (at %.3f s, step %.2e s)".formatted(steps, end, t, dt));
            }
            double h = Math.min(dt, end - t);
            double error =
                    stepper.step(y, next, h, failure.speed(t), failure.speed(t + h), 0, !doing.heated(), doing.blown());
            if (!(error < 1e6)) {
                throw new NumericalFailure("heat: the step at %.3f s gave no finite state".formatted(t));
            }
            double wanted = h * Math.clamp(0.9 * Math.sqrt(settings.tolerance() / Math.max(error, 1e-12)), 0.2, 3);
            if (error > settings.tolerance() && h > SHORTEST_STEP) {
                dt = wanted;
                continue;
            }
            boolean feedEnds = feed > 0 && !doing.feedsToTheEnd() && next[block] < net.feedsAbove;
            if (feedEnds && y[block] > net.feedsAbove + 0.05) {
                // step to the moment at which the block gets too cold to feed, not beyond it
                dt = Math.max(h * (y[block] - net.feedsAbove) / (y[block] - next[block]), 1e-3);
                if (dt < h * 0.999) {
                    continue;
                }
            }
            t += h;
            double[] swap = y;
            y = next;
            next = swap;
            dt = h < dt ? Math.max(dt, wanted) : wanted;
            if (feedEnds) {
                feed = 0;
                system.feed(0);
                dt = FIRST_STEP;
            }
            if (!observer.at(t, y)) {
                break;
            }
        }
        return new Moment(t, y);
    }

    /** What happens with nothing done, from a steady state, until the depth passes its limit or the horizon is reached. */
    Untouched untouched(double[] steady, double feed) {
        List<Moment> moments = new ArrayList<>();
        double[] crossing = {Double.NaN};
        double[] before = {0, Double.NaN};
        Doing nothing = new Doing(feed, true, true, false);
        run(new Moment(0, steady), settings.horizon(), nothing, (t, y) -> {
            moments.add(new Moment(t, y.clone()));
            double excess = profile.excess(y);
            if (excess > 0) {
                double share = t == 0 ? 0 : -before[1] / (excess - before[1]);
                crossing[0] = before[0] + share * (t - before[0]);
                return false;
            }
            before[0] = t;
            before[1] = excess;
            return true;
        });
        OptionalDouble softens = Double.isNaN(crossing[0]) ? OptionalDouble.empty() : OptionalDouble.of(crossing[0]);
        return new Untouched(nothing, moments, softens);
    }

    /**
     * The course with nothing done.
     *
     * @param doing what the machine keeps doing
     * @param moments every step
     * @param softens when the depth passes its limit, s
     */
    record Untouched(Doing doing, List<Moment> moments, OptionalDouble softens) {}

    /** The untouched state at a moment. */
    Moment at(Untouched untouched, double time) {
        List<Moment> moments = untouched.moments();
        int low = 0;
        int high = moments.size() - 1;
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (moments.get(middle).time() <= time) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        Moment from = moments.get(low);
        return time - from.time() < 1e-9 ? from : run(from, time, untouched.doing(), (t, y) -> true);
    }

    /** Largest excess from the response on, K; below 0 means that the response at this moment is in time. */
    double peakAfter(Moment from, Doing doing) {
        double[] peak = {Double.NEGATIVE_INFINITY};
        double[] last = {Double.NaN, Double.NaN, Double.NaN, Double.NaN};
        run(from, from.time() + settings.after(), doing, (t, y) -> {
            double excess = profile.excess(y);
            // a parabola through three steps finds a peak between them
            if (!Double.isNaN(last[1]) && last[3] > excess && last[3] >= last[1]) {
                peak[0] = Math.max(peak[0], vertex(last[0], last[1], last[2], last[3], t, excess));
            }
            peak[0] = Math.max(peak[0], excess);
            last[0] = last[2];
            last[1] = last[3];
            last[2] = t;
            last[3] = excess;
            if (doing.heated()) {
                return excess <= 0;
            }
            boolean unsafeAndPassed = peak[0] > 0 && excess < peak[0] - PASSED;
            return !unsafeAndPassed && profile.hottest(y) >= net.softens;
        });
        return peak[0];
    }

    private static double vertex(double t0, double f0, double t1, double f1, double t2, double f2) {
        double a = (f1 - f0) / (t1 - t0);
        double b = ((f2 - f1) / (t2 - t1) - a) / (t2 - t0);
        if (!(b < 0)) {
            return f1;
        }
        double t = 0.5 * (t0 + t1 - a / b);
        return t < t0 || t > t2 ? f1 : f0 + a * (t - t0) + b * (t - t0) * (t - t1);
    }

    /**
     * The latest moment at which a response is in time: never if at once is too late, always if every moment up to the
     * horizon will do, else the largest moment before the first that is too late, to 0.1 s.
     */
    Deadline deadline(Untouched untouched, Doing response) {
        Excess excess = t -> peakAfter(at(untouched, t), response);
        double atOnce = excess.at(0);
        if (atOnce > 0) {
            return Deadline.never();
        }
        double end = untouched.softens().orElse(settings.horizon());
        double atEnd = untouched.softens().isPresent() ? Math.max(excess.at(end), 1e-6) : excess.at(end);
        if (atEnd <= 0) {
            double third = excess.at(end / 3);
            if (third <= 0 && excess.at(2 * end / 3) <= 0) {
                return Deadline.always();
            }
            end = third > 0 ? end / 3 : 2 * end / 3;
            atEnd = excess.at(end);
        }
        double found = largestSafe(excess, 0, atOnce, end, atEnd);
        // a look below guards against an earlier unsafe stretch
        double half = excess.at(found / 2);
        return Deadline.until(half > 0 ? largestSafe(excess, 0, atOnce, found / 2, half) : found);
    }

    private interface Excess {
        double at(double time);
    }

    /** Illinois variant of regula falsi, kept between a safe and an unsafe moment. */
    private static double largestSafe(Excess excess, double low, double atLow, double high, double atHigh) {
        double safe = low;
        double unsafe = high;
        double fSafe = atLow;
        double fUnsafe = atHigh;
        int side = 0;
        for (int i = 0; i < 60 && unsafe - safe > 0.1; i++) {
            double t = i % 5 == 4 ? 0.5 * (safe + unsafe) : safe + (unsafe - safe) * fSafe / (fSafe - fUnsafe);
            // stay off the ends, so that the bracket closes from both sides
            t = Math.clamp(t, safe + 0.05, Math.max(safe + 0.05, unsafe - 0.05));
            double f = excess.at(t);
            if (f <= 0) {
                safe = t;
                fSafe = f;
                if (side == -1) {
                    fUnsafe /= 2;
                }
                side = -1;
            } else {
                unsafe = t;
                fUnsafe = f;
                if (side == 1) {
                    fSafe /= 2;
                }
                side = 1;
            }
        }
        return safe;
    }
}
