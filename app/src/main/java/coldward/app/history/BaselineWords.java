package coldward.app.history;

import coldward.model.baseline.Baseline;
import coldward.model.baseline.BaselineWarning;
import coldward.quantity.Checks;
import java.util.Locale;

/** What a baseline says, in sentences. */
public final class BaselineWords {

    private static final double MINUTE = 60;
    private static final double HOUR = 3600;

    private BaselineWords() {}

    /** One sentence: what a healthy fan shows here, and whether it may be relied on. */
    public static String verdict(Baseline baseline) {
        String says = "A healthy fan shows %.0f rpm here, give or take %s rpm."
                .formatted(baseline.mean(), number(baseline.deviation()));
        return baseline.warnings().isEmpty()
                ? says + " Good enough to choose a trip from."
                : says + " Not to be relied on yet: "
                        + shortly(baseline.warnings().getFirst()) + ".";
    }

    private static String shortly(BaselineWarning warning) {
        return switch (warning) {
            case BaselineWarning.TooShort t -> "the recording is too short";
            case BaselineWarning.StillWarmingUp s -> "the fan was still warming up";
            case BaselineWarning.NotStationary n -> "the speed drifts";
            case BaselineWarning.NoScatter n -> "nothing scatters";
            case BaselineWarning.ManyOutliers m -> "there are many outliers";
            case BaselineWarning.TooAlike t -> "neighbouring reports are too alike";
        };
    }

    /** One word for programs. */
    public static String word(BaselineWarning warning) {
        return switch (warning) {
            case BaselineWarning.TooShort t -> "too_short";
            case BaselineWarning.StillWarmingUp s -> "still_warming_up";
            case BaselineWarning.NotStationary n -> "not_stationary";
            case BaselineWarning.NoScatter n -> "no_scatter";
            case BaselineWarning.ManyOutliers m -> "many_outliers";
            case BaselineWarning.TooAlike t -> "too_alike";
        };
    }

    /** The finding with its numbers, and what to do. */
    public static String sentence(BaselineWarning warning) {
        return switch (warning) {
            case BaselineWarning.TooShort t ->
                "Too short: worth %.0f independent reports, but %.0f are needed to know the scatter. Record %s at one duty."
                        .formatted(t.effectiveReports(), t.limit(), length(t.recommendedLength()));
            case BaselineWarning.StillWarmingUp s ->
                "Still warming up: the speed moves %s rpm in the first half and %s rpm in the second (allowed: %s rpm). Let the fan run 20 min at this duty, then record again."
                        .formatted(signed(s.firstHalf()), signed(s.secondHalf()), number(s.limit()));
            case BaselineWarning.NotStationary n ->
                "Not stationary: the speed moves %s rpm through the recording (allowed: %s rpm). See whether supply, duty or air change, or whether the fan is failing; then record again."
                        .formatted(signed(n.change()), number(n.limit()));
            case BaselineWarning.NoScatter n ->
                "No scatter: all reports are equal. Either the scatter is below the resolution (%s rpm) or the number is not measured; see coldward reading explain."
                        .formatted(number(n.resolution()));
            case BaselineWarning.ManyOutliers m ->
                "Many outliers: %s of the reports (usual: at most %s). Look at the signal's wire and at the reading before choosing a trip."
                        .formatted(percent(m.rate()), percent(m.limit()));
            case BaselineWarning.TooAlike t ->
                "Too alike: neighbouring reports correlate by %.3f (the trip's design takes up to %.2f). The fan drifts rather than scatters; record longer, after warming up."
                        .formatted(t.correlation(), t.limit());
        };
    }

    /** A length of time as people say it. */
    public static String length(double seconds) {
        if (seconds < 2 * MINUTE) {
            return "%.0f s".formatted(seconds);
        }
        return seconds < 2 * HOUR ? "%.0f min".formatted(seconds / MINUTE) : "%.1f h".formatted(seconds / HOUR);
    }

    /** A share in percent. */
    public static String percent(double share) {
        return Checks.number(Double.parseDouble("%.2g".formatted(share * 100))) + " %";
    }

    static String number(double value) {
        return value >= 100 ? "%.0f".formatted(value) : "%.1f".formatted(value);
    }

    static String signed(double value) {
        return String.format(Locale.ROOT, Math.abs(value) >= 100 ? "%+.0f" : "%+.1f", value + 0.0);
    }
}
