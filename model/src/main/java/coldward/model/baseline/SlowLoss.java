package coldward.model.baseline;

import static coldward.quantity.Checks.positive;

import java.util.Optional;

/**
 * How soon a lasting loss of speed shows in reports like these, far above any trip speed: a {@link RunningSum} over means of
 * so many neighbouring reports that they may be taken as independent (ten correlation times; common practice, no source).
 *
 * @param loss rpm
 * @param reportsPerMean how many reports a mean is taken over
 * @param seconds expected time from the loss until it shows, s; half a mean's length for its beginning within one included
 * @param wronglyEvery expected time until it shows without a loss, s
 */
public record SlowLoss(double loss, int reportsPerMean, double seconds, double wronglyEvery) {

    /** Share of the mean that is asked about; half of a fan's usual tolerance of 10 % is 5 %, a tenth 1 %. */
    public static final double SHARE = 0.01;

    private static final double CORRELATION_TIMES = 10;
    private static final double SMALLEST_REFERENCE = 0.25;
    private static final double LARGEST_REFERENCE = 2;
    private static final double LARGEST_CORRELATION = 0.99;
    private static final double LEAST_MEANS = 1000;

    /**
     * Of a baseline.
     *
     * @param interval from one report to the next, s
     * @param wronglyEvery wished time between two errors, s
     * @return empty where nothing scatters, or a mean takes so long that fewer than a thousand fit into that time
     */
    public static Optional<SlowLoss> of(Baseline baseline, double interval, double wronglyEvery) {
        positive("report interval", interval, "s");
        positive("time between errors", wronglyEvery, "s");
        double r = Math.clamp(baseline.correlation(), 0, LARGEST_CORRELATION);
        int m = (int) Math.ceil(CORRELATION_TIMES * (1 + r) / (1 - r));
        double means = wronglyEvery / (m * interval);
        if (baseline.deviation() == 0 || means < LEAST_MEANS || means > 1e9) {
            return Optional.empty();
        }
        // variance of a mean of m values of an AR(1) process
        double factor = (1 + r) / (1 - r) - 2 * r * (1 - Math.pow(r, m)) / (m * (1 - r) * (1 - r));
        double deviation = baseline.deviation() * Math.sqrt(factor / m);
        double loss = SHARE * baseline.mean();
        double shift = loss / deviation;
        double reference = Math.clamp(shift / 2, SMALLEST_REFERENCE, LARGEST_REFERENCE);
        RunningSum sum = RunningSum.erringOnceIn(reference, means);
        double waited = sum.expected(Math.min(shift, 20)) + 0.5;
        return Optional.of(new SlowLoss(loss, m, waited * m * interval, wronglyEvery));
    }
}
