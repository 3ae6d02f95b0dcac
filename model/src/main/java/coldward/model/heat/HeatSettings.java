package coldward.model.heat;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * How finely the heat is computed.
 *
 * @param refinement 1 for the usual grid, 2 for cells of half the size
 * @param tolerance K, for the step's embedded error estimate; the result's own error is far smaller
 * @param horizon s; the latest failure-to-response time looked at
 * @param after s; how long the softened depth must keep within its limit after the response
 */
public record HeatSettings(double refinement, double tolerance, double horizon, double after) {
    /** The usual settings: horizon 1800 s, 900 s after the response. */
    public static final HeatSettings USUAL = new HeatSettings(1, 0.1, 1800, 900);

    public HeatSettings {
        within("refinement", refinement, 0.2, 64, "");
        positive("tolerance", tolerance, "K");
        positive("horizon", horizon, "s");
        positive("after", after, "s");
    }

    /** The same with another refinement. */
    public HeatSettings withRefinement(double other) {
        return new HeatSettings(other, tolerance, horizon, after);
    }

    /** The same with another tolerance, K. */
    public HeatSettings withTolerance(double other) {
        return new HeatSettings(refinement, other, horizon, after);
    }
}
