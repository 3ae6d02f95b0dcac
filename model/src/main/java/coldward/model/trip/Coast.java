package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * How a fan without supply slows down: s(t) = 1/(1 + t/tau) of its speed at the failure, the motion of a rotor braked by
 * its air alone (torque as the square of speed); tau is the time to half speed. A blocked rotor has tau = 0 and stands at
 * once.
 *
 * @param tau s to half speed, 0 or above
 */
public record Coast(double tau) {

    /** More halvings than a double has bits. */
    private static final int MOST_HALVINGS = 200;

    public Coast {
        notNegative("coast_down", tau, "s");
    }

    /**
     * Share of the speed left.
     *
     * @param t s since the failure; before it (negative) the fan turns at full speed
     */
    public double share(double t) {
        if (t <= 0) {
            return 1;
        }
        return tau == 0 ? 0 : 1 / (1 + t / tau);
    }

    /**
     * When the true speed has fallen to a share: tau (1/s - 1).
     *
     * @param share above 0, at most 1
     * @return s since the failure
     */
    public double timeTo(double share) {
        positive("share of the speed", share, "");
        within("share of the speed", share, 0, 1, "");
        return tau * (1 / share - 1);
    }

    /**
     * The mean share of the speed over a window: the exact integral of s, tau ln(1 + t/tau), over the window's length.
     *
     * @param end s since the failure at which the window ends
     * @param window s, above 0
     */
    public double meanShare(double end, double window) {
        positive("report_interval", window, "s");
        return (turned(end) - turned(end - window)) / window;
    }

    /**
     * When a running mean over one window has fallen to a share: the one x with {@code meanShare(x, window) == share}. For
     * x of a window or more it is x = W/(1 - exp(-share W/tau)) - tau; below that by halving.
     *
     * @param share above 0, at most 1
     * @param window s, above 0
     * @return s since the failure
     */
    public double timeToMean(double share, double window) {
        positive("share of the speed", share, "");
        within("share of the speed", share, 0, 1, "");
        if (share == 1) {
            return 0;
        }
        if (tau == 0) {
            return window * (1 - share);
        }
        if (meanShare(window, window) >= share) {
            return Math.max(window, window / -Math.expm1(-share * window / tau) - tau);
        }
        double low = 0;
        double high = window;
        for (int i = 0; i < MOST_HALVINGS && high - low > Math.ulp(high); i++) {
            double middle = (low + high) / 2;
            if (meanShare(middle, window) > share) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }

    private double turned(double t) {
        if (t <= 0) {
            return t;
        }
        return tau == 0 ? 0 : tau * Math.log1p(t / tau);
    }
}
