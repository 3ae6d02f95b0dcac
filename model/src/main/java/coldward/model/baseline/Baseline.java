package coldward.model.baseline;

import coldward.model.trip.HealthyReports;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.BetaDistribution;

/**
 * What a recording says about a healthy fan's reports, robustly.
 *
 * <p>A report is an outlier if it reads 0 or lies more than {@value #CUT} deviations from the median (both over the reports
 * that do not read 0; the deviation at least the resolution; common practice, no source: a Gaussian passes it twice in 1e9).
 * Median and deviation (1.4826 MAD) are then taken over the rest. The correlation is the mean product of neighbouring
 * distances from the rest's mean over their mean square; a pair counts if neither of the two is an outlier. Drift is not
 * taken out: it widens the deviation and raises the correlation, and is warned of.
 *
 * @param mean median of the rest, rpm
 * @param deviation 1.4826 times the median distance from it, rpm; where that is 0 the resolution over sqrt(12)
 * @param correlation between neighbouring reports; 0 where nothing scatters
 * @param correlationError its standard error, sqrt((1 - r^2) / pairs) (Bartlett)
 * @param outlierRate share of outliers, too high and too low ones alike
 * @param outlierRateHigh its upper 95 % bound (Clopper and Pearson 1934): what a recording without outliers still allows
 * @param drift slope through the recording
 * @param warnings why not to rely on it; empty where nothing speaks against it
 */
public record Baseline(
        double mean,
        double deviation,
        double correlation,
        double correlationError,
        double outlierRate,
        double outlierRateHigh,
        Drift drift,
        List<BaselineWarning> warnings) {

    /** Deviations from the median beyond which a report is an outlier. */
    public static final double CUT = 6;

    /** Effective reports for a deviation known to 8 % (standard error 1.167 / sqrt(n) of a MAD; efficiency 36.7 %). */
    public static final double LEAST_EFFECTIVE_REPORTS = 200;

    /** Share of outliers from which the signal needs a look; common practice, no source. */
    public static final double MANY_OUTLIERS = 0.01;

    private static final double CONFIDENCE = 0.95;

    public Baseline {
        warnings = List.copyOf(warnings);
    }

    /**
     * Estimates from a recording.
     *
     * @param recording of a fan that turns at one duty
     * @throws InputError if fewer than {@value Recording#LEAST_REPORTS} reports are left without the outliers
     */
    public static Baseline of(Recording recording) {
        double[] shown = recording.reports().stream().mapToDouble(r -> r).toArray();
        boolean[] kept = kept(shown, recording.resolution());
        double[] rest = rest(shown, kept);
        if (rest.length < Recording.LEAST_REPORTS) {
            throw new InputError(
                    "reports",
                    rest.length + " of " + shown.length + " reports are no outliers but must be "
                            + Recording.LEAST_REPORTS + " or more");
        }
        double median = Robust.median(rest);
        double mad = Robust.deviation(rest, median);
        double deviation = mad > 0 ? mad : recording.resolution() / Math.sqrt(12);
        Lag lag = Lag.of(shown, kept);
        int outliers = shown.length - rest.length;
        double high = new BetaDistribution(outliers + 1.0, rest.length).inverseCumulativeProbability(CONFIDENCE);
        double rate = (double) outliers / shown.length;
        double limit = Math.max(Drift.LARGEST_CHANGE * deviation, recording.resolution());
        Drift drift = Drift.of(shown, kept, recording.interval(), limit);

        List<BaselineWarning> warnings = new ArrayList<>();
        double r = Math.clamp(lag.correlation(), 0, HealthyReports.LARGEST_CORRELATION);
        double worth = (1 - r) / (1 + r);
        if (rest.length * worth < LEAST_EFFECTIVE_REPORTS) {
            warnings.add(new BaselineWarning.TooShort(
                    rest.length * worth,
                    LEAST_EFFECTIVE_REPORTS,
                    LEAST_EFFECTIVE_REPORTS / worth / (1 - rate) * recording.interval()));
        }
        drift.warning().ifPresent(warnings::add);
        if (mad == 0) {
            warnings.add(new BaselineWarning.NoScatter(deviation, recording.resolution()));
        }
        if (rate > MANY_OUTLIERS) {
            warnings.add(new BaselineWarning.ManyOutliers(rate, MANY_OUTLIERS));
        }
        if (lag.correlation() > HealthyReports.LARGEST_CORRELATION) {
            warnings.add(new BaselineWarning.TooAlike(lag.correlation(), HealthyReports.LARGEST_CORRELATION));
        }
        return new Baseline(median, deviation, lag.correlation(), lag.error(), rate, high, drift, warnings);
    }

    /** Which reports of a recording are outliers, by their place from 0, in its order. */
    public static List<Integer> outliers(Recording recording) {
        double[] shown = recording.reports().stream().mapToDouble(r -> r).toArray();
        boolean[] kept = kept(shown, recording.resolution());
        List<Integer> outliers = new ArrayList<>();
        for (int i = 0; i < shown.length; i++) {
            if (!kept[i]) {
                outliers.add(i);
            }
        }
        return outliers;
    }

    /**
     * The reports for the trip's design; the correlation cut to what that takes.
     *
     * @return empty where nothing scatters and no resolution is known
     */
    public Optional<HealthyReports> healthy() {
        if (deviation == 0) {
            return Optional.empty();
        }
        double r = Math.clamp(correlation, HealthyReports.SMALLEST_CORRELATION, HealthyReports.LARGEST_CORRELATION);
        return Optional.of(new HealthyReports(mean, deviation, r, outlierRate));
    }

    private static boolean[] kept(double[] shown, double resolution) {
        boolean[] kept = new boolean[shown.length];
        int count = 0;
        for (int i = 0; i < shown.length; i++) {
            kept[i] = shown[i] > 0;
            count += kept[i] ? 1 : 0;
        }
        if (count == 0) {
            throw new InputError("reports", "every report reads 0 rpm but a baseline needs a turning fan");
        }
        double[] turning = rest(shown, kept);
        double median = Robust.median(turning);
        double cut = CUT * Math.max(Robust.deviation(turning, median), resolution);
        for (int i = 0; i < shown.length; i++) {
            kept[i] &= Math.abs(shown[i] - median) <= cut;
        }
        return kept;
    }

    private static double[] rest(double[] shown, boolean[] kept) {
        double[] rest = new double[shown.length];
        int count = 0;
        for (int i = 0; i < shown.length; i++) {
            if (kept[i]) {
                rest[count++] = shown[i];
            }
        }
        return Arrays.copyOf(rest, count);
    }
}
