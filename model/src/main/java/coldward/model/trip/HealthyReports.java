package coldward.model.trip;

import static coldward.quantity.Checks.below;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * What a healthy fan's reports look like: x(n+1) - mu = r (x(n) - mu) + noise, Gaussian and stationary (AR(1)); on top of
 * that a report reads 0 on its own now and then, while the fan goes on underneath.
 *
 * @param mean mu, rpm, above 0
 * @param deviation sigma, the stationary standard deviation, rpm, above 0; the noise of one step is sigma sqrt(1 - r^2)
 * @param correlation r between neighbouring reports, {@value #SMALLEST_CORRELATION} to {@value #LARGEST_CORRELATION}
 * @param outlierRate e, the share of reports that read 0 on their own, from 0 to below 1
 */
public record HealthyReports(double mean, double deviation, double correlation, double outlierRate) {

    /** Beyond it the fan drifts rather than scatters, and the quadrature would need thousands of nodes. */
    public static final double LARGEST_CORRELATION = 0.99;

    /** Counting whole pulses in windows without gap gives -0.5 where nothing else scatters; below it no reading comes. */
    public static final double SMALLEST_CORRELATION = -0.6;

    public HealthyReports {
        positive("mean speed", mean, "rpm");
        positive("deviation of the reports", deviation, "rpm");
        within("correlation of the reports", correlation, SMALLEST_CORRELATION, LARGEST_CORRELATION, "");
        notNegative("outlier rate", outlierRate, "");
        below("outlier rate", outlierRate, 1, "all reports", "");
    }
}
