package coldward.model.trip;

import static coldward.quantity.Checks.positive;

import coldward.model.heat.FanFailure;
import java.util.OptionalDouble;

/**
 * What a report makes of a failing speed: its mean over the window, as a share of the speed before; the exact integral of
 * {@link FanFailure#speed}. Speeds never rise after a failure, so neither do the means.
 *
 * @param failure how the speed goes
 * @param window W, s, above 0
 */
public record WindowMean(FanFailure failure, double window) {

    private static final int MOST_HALVINGS = 200;
    private static final double LONGEST = 1e6;

    public WindowMean {
        positive("report_interval", window, "s");
    }

    /**
     * The mean of the window that ends at a moment.
     *
     * @param end s since the failure; at or before 0 the mean is 1
     */
    public double share(double end) {
        return (turned(end) - turned(end - window)) / window;
    }

    /**
     * The moment x from which on every window's mean is below a share: the largest x with share(x) at or above it.
     *
     * @param share of the speed before the failure, above 0, at most 1
     * @return s since the failure; empty if no window's mean is ever below it
     */
    public OptionalDouble timeBelow(double share) {
        double high = window;
        while (!(share(high) < share)) {
            high *= 2;
            if (high > LONGEST) {
                return OptionalDouble.empty();
            }
        }
        double low = 0;
        for (int i = 0; i < MOST_HALVINGS && high - low > Math.ulp(high); i++) {
            double middle = (low + high) / 2;
            if (share(middle) < share) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalDouble.of(high);
    }

    /** The integral of the speed's share from the failure on; negative before it. */
    private double turned(double t) {
        if (t <= 0) {
            return t;
        }
        return switch (failure) {
            case FanFailure.Stop(double tau) -> tau == 0 ? 0 : tau * Math.log1p(t / tau);
            case FanFailure.Slow(double fraction) -> fraction * t;
            case FanFailure.Fade(double duration) -> t < duration ? t - t * t / (2 * duration) : duration / 2;
            case FanFailure.Healthy() -> t;
        };
    }
}
