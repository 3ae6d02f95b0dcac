package coldward.watch.guard;

import coldward.model.shop.ReadName;
import java.util.Arrays;

/**
 * Does the cold side warm although the speed is fine? Keeps the lowest cold-side temperature of the last minute, in
 * twelve slices of 5 s, so the window is 55 to 60 s long: a rise slower than the rule never counts.
 *
 * <p>Heating up warms the cold side with a healthy fan, too. Where the nozzle is read, the window therefore begins only
 * once the nozzle has stayed within {@value #STEADY_BAND} K for {@value #SETTLE_SECONDS} s, some three time constants of
 * a finned sink with its fan on (common practice, no source); without it, that long after the fan was first seen
 * turning. Immutable.
 */
final class ColdSideTrend {

    /** K; a nozzle that moves further than this starts the settling anew. */
    static final double STEADY_BAND = 10;

    /** s; how long a sink is given to reach its working temperature. */
    static final long SETTLE_SECONDS = 120;

    private static final int SLICES = 12;
    private static final long SLICE = 5_000_000_000L;

    /** No cold-side temperature seen since the fan began to turn. */
    static final ColdSideTrend NONE = new ColdSideTrend(false, 0, 0, 0, empty(), false, 0);

    private final boolean begun;
    private final long steadySince;
    private final double steadyNozzle;

    /** Number of the newest slice since the clock's origin. */
    private final long slice;

    /** Lowest temperature of each slice, K, newest at {@code slice mod SLICES}; infinite where none was read. */
    private final double[] lowest;

    private final boolean warming;

    /** K; the level from which the warming was judged. */
    private final double level;

    private ColdSideTrend(
            boolean begun,
            long steadySince,
            double steadyNozzle,
            long slice,
            double[] lowest,
            boolean warming,
            double level) {
        this.begun = begun;
        this.steadySince = steadySince;
        this.steadyNozzle = steadyNozzle;
        this.slice = slice;
        this.lowest = lowest;
        this.warming = warming;
        this.level = level;
    }

    /**
     * The trend with one more reading.
     *
     * @param at when, ns
     * @param coldSide K
     * @param held the machine's reads, for the nozzle
     * @param rise K within a minute, above which (strictly) the cold side counts as warming
     */
    ColdSideTrend with(long at, double coldSide, Reads held, double rise) {
        if (warming) {
            // it ends when the cold side has come back, not when it has settled at a higher level
            return coldSide < level + rise / 2
                    ? new ColdSideTrend(true, at, steadyNozzle, slice, empty(), false, 0)
                    : this;
        }
        double nozzle = held.has(ReadName.NOZZLE) ? held.get(ReadName.NOZZLE) : 0;
        if (!begun || Math.abs(nozzle - steadyNozzle) > STEADY_BAND) {
            return new ColdSideTrend(true, at, nozzle, slice, empty(), false, 0);
        }
        if (at - steadySince < SETTLE_SECONDS * 1_000_000_000L) {
            return this;
        }
        long now = Math.floorDiv(at, SLICE);
        double[] window = moved(now);
        double lowestSoFar = Double.POSITIVE_INFINITY;
        for (double one : window) {
            lowestSoFar = Math.min(lowestSoFar, one);
        }
        if (coldSide - lowestSoFar > rise) {
            return new ColdSideTrend(true, steadySince, steadyNozzle, now, window, true, lowestSoFar);
        }
        int index = (int) Math.floorMod(now, (long) SLICES);
        window[index] = Math.min(window[index], coldSide);
        return new ColdSideTrend(true, steadySince, steadyNozzle, now, window, false, 0);
    }

    /** Whether it rose by more than the rule allows and has not come back since. */
    boolean warming() {
        return warming;
    }

    private double[] moved(long now) {
        long ahead = now - slice;
        if (ahead < 0 || ahead >= SLICES) {
            return empty();
        }
        double[] window = lowest.clone();
        for (long s = slice + 1; s <= now; s++) {
            window[(int) Math.floorMod(s, (long) SLICES)] = Double.POSITIVE_INFINITY;
        }
        return window;
    }

    private static double[] empty() {
        double[] none = new double[SLICES];
        Arrays.fill(none, Double.POSITIVE_INFINITY);
        return none;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof ColdSideTrend that
                && begun == that.begun
                && steadySince == that.steadySince
                && steadyNozzle == that.steadyNozzle
                && slice == that.slice
                && Arrays.equals(lowest, that.lowest)
                && warming == that.warming
                && level == that.level;
    }

    @Override
    public int hashCode() {
        return Long.hashCode(steadySince) * 31 + Arrays.hashCode(lowest);
    }
}
