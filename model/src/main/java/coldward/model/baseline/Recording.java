package coldward.model.baseline;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.List;

/**
 * Reports of a fan at one commanded duty, one after another without gap.
 *
 * @param reports shown speeds, rpm, 0 or above; at least {@value #LEAST_REPORTS}
 * @param interval from one report to the next, s, above 0
 * @param resolution step between two neighbouring shown speeds, rpm; 0 where it is not known
 */
public record Recording(List<Double> reports, double interval, double resolution) {

    /** Fewer make no estimate at all; enough for a good one is said by {@link BaselineWarning.TooShort}. */
    public static final int LEAST_REPORTS = 10;

    public Recording {
        reports = List.copyOf(reports);
        within("reports", reports.size(), LEAST_REPORTS, Integer.MAX_VALUE);
        for (int i = 0; i < reports.size(); i++) {
            notNegative("report " + (i + 1), reports.get(i), "rpm");
        }
        positive("report interval", interval, "s");
        notNegative("resolution", resolution, "rpm");
    }

    /** Its length, s. */
    public double length() {
        return reports.size() * interval;
    }
}
