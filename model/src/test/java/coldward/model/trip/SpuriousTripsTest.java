package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.offset;
import static org.assertj.core.api.Assertions.within;

import coldward.quantity.InputError;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.hipparchus.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against Feller's closed form without correlation, against reports drawn one by one with it, and against itself. */
class SpuriousTripsTest {

    private static final double MEAN = 5000;
    private static final double SIGMA = 40;

    /** Feller, Vol. I, XIII.7, Eq. (7.7), with p from the error function. */
    @Test
    void withoutCorrelationItIsFellers() {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(11);
        for (int n = 0; n < 60; n++) {
            double a = random.nextDouble(-7, 1.5);
            double e = n % 3 == 0 ? 0 : Math.pow(10, random.nextDouble(-8, -1));
            int k = random.nextInt(1, 9);
            double p = e + (1 - e) * phi(a);
            double feller = Runs.expected(p, k);
            SpuriousWait wait = first(a, 0, e, k);
            assertThat(wait.reports() / feller - 1)
                    .as("a %s e %s k %s", a, e, k)
                    .isCloseTo(0, offset(1e-9));
            assertThat(wait.how().residual()).isLessThan(1e-13);
            double spread = ((SpuriousWait.Expected) wait).spread();
            assertThat(spread * spread * feller * feller / Runs.variance(p, k) - 1)
                    .as("variance: a %s e %s k %s", a, e, k)
                    .isCloseTo(0, offset(1e-7));
        }
    }

    /** With outliers alone the reports are independent whatever the correlation of the fan underneath. */
    @ParameterizedTest
    @ValueSource(doubles = {-0.4, 0, 0.5, 0.95})
    void outliersAloneAreFellers(double r) {
        for (int k = 1; k <= 5; k++) {
            assertThat(first(-15, r, 0.01, k).reports() / Runs.expected(0.01, k) - 1)
                    .isCloseTo(0, offset(1e-9));
        }
    }

    /** 1e7 reports each; the mean number of reports to a trip lies within its 99 % interval. Source: the definition. */
    @ParameterizedTest
    @CsvSource({
        "0.3, 0, 3, -1.2, 1",
        "0.3, 0.02, 3, -1.3, 2",
        "0.7, 0, 3, -1.7, 3",
        "0.7, 0.02, 3, -1.8, 4",
        "0.95, 0, 4, -2.1, 5",
        "0.95, 0.02, 4, -2.2, 6"
    })
    void agreesWithDrawnReports(double r, double e, int k, double a, long seed) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        double step = Math.sqrt(1 - r * r);
        double sum = 0;
        double squares = 0;
        int trips = 0;
        double z = random.nextGaussian();
        int run = 0;
        int reports = 0;
        for (int n = 0; n < 10_000_000; n++) {
            z = r * z + step * random.nextGaussian();
            reports++;
            boolean outlier = e > 0 && random.nextDouble() < e;
            run = outlier || z < a ? run + 1 : 0;
            if (run == k) {
                trips++;
                sum += reports;
                squares += (double) reports * reports;
                run = 0;
                reports = 0;
                z = random.nextGaussian();
            }
        }
        double mean = sum / trips;
        double deviation = Math.sqrt(squares / trips - mean * mean);
        assertThat(trips).isGreaterThan(1000);
        // two-sided 99 % of the normal distribution: 2.5758
        SpuriousWait.Expected wait = (SpuriousWait.Expected) first(a, r, e, k);
        assertThat(wait.reports()).isCloseTo(mean, within(2.5758 * deviation / Math.sqrt(trips)));
        assertThat(wait.spread()).isCloseTo(deviation / mean, within(0.05));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-0.6, 0.3, 0.7, 0.9, 0.95})
    void theRuleHasConverged(double r) {
        for (double a : new double[] {-12, -6, -2, 0.5}) {
            SpuriousWait wait = first(a, r, a == -2 ? 1e-3 : 0, 3);
            assertThat(wait.how().difference()).as("r %s a %s", r, a).isLessThan(1e-9);
            double finer = RunChain.solve(a, r, a == -2 ? 1e-3 : 0, 3, 26).lnReports();
            assertThat(wait.lnReports()).as("r %s a %s", r, a).isCloseTo(finer, offset(1e-12 * Math.max(1, finer)));
            assertThat(wait.how().residual()).isLessThan(1e-13);
            assertThat(wait.how().coarserNodes()).isLessThan(wait.how().nodes());
        }
    }

    /** The error falls faster than any power: 4 more nodes on a panel win at least a factor of 30 until rounding. */
    @Test
    void theRuleConvergesExponentially() {
        double exact = RunChain.solve(-3, 0.7, 1e-3, 3, 28).lnReports();
        double before = Double.POSITIVE_INFINITY;
        for (int order = 4; order <= 12; order += 4) {
            double error = Math.abs(RunChain.solve(-3, 0.7, 1e-3, 3, order).lnReports() - exact);
            assertThat(error).as("order %s", order).isLessThan(before / 30);
            before = error;
        }
        assertThat(Math.abs(RunChain.solve(-3, 0.7, 1e-3, 3, 16).lnReports() - exact))
                .isLessThan(1e-11);
    }

    @Test
    void rarerWithMoreConfirmationsAndMoreOftenWithAHigherTripSpeed() {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(12);
        for (int n = 0; n < 12; n++) {
            double r = random.nextDouble(-0.5, 0.9);
            double e = n % 2 == 0 ? 0 : random.nextDouble(0, 0.05);
            double a = random.nextDouble(-5, 0);
            int k = random.nextInt(1, 5);
            double here = first(a, r, e, k).lnReports();
            assertThat(first(a, r, e, k + 1).lnReports()).isGreaterThan(here);
            assertThat(first(a + 0.1, r, e, k).lnReports()).isLessThan(here);
            assertThat(first(a, r, e + 0.01, k).lnReports()).isLessThan(here);
        }
    }

    @Test
    void correlationMakesRunsMoreLikely() {
        double before = Double.POSITIVE_INFINITY;
        for (double r : new double[] {-0.5, 0, 0.3, 0.6, 0.9}) {
            double ln = first(-3, r, 0, 3).lnReports();
            assertThat(ln).isLessThan(before);
            before = ln;
        }
    }

    /** k = 1 and r close to 0 differ little; 1 / p bounds the number from below at any correlation. */
    @Test
    void oneConfirmationIsNeverSoonerThanOneOverP() {
        for (double r : new double[] {0, 0.3, 0.9}) {
            assertThat(first(-3, r, 0, 1).reports()).isGreaterThanOrEqualTo(1 / phi(-3) * (1 - 1e-12));
        }
        assertThat(first(40, 0.5, 0, 4).reports()).isCloseTo(4, within(1e-9));
    }

    @Test
    void aVastNumberIsKeptAsALogarithmAndReportedAsABound() {
        // 200 outliers in a row at 1e-3 each: 1e600 reports
        SpuriousWait vast = first(-29, 0.5, 1e-3, 200);
        assertThat(vast).isInstanceOf(SpuriousWait.Expected.class);
        // Feller's number in logarithms: -k ln p - ln(1 - p)
        assertThat(vast.lnReports()).isCloseTo(-200 * Math.log(1e-3) - Math.log1p(-1e-3), within(1e-8));
        assertThat(vast.reports()).isInfinite();
        assertThat(vast.rate(1)).isEqualTo(new SpuriousRate.AtMost(Double.MIN_NORMAL));
        // far below the mean: the bound is the number at 30 deviations
        SpuriousWait far = first(-80, 0.3, 0, 2);
        assertThat(far).isInstanceOf(SpuriousWait.AtLeast.class);
        assertThat(far.lnReports()).isCloseTo(first(-30, 0.3, 0, 2).lnReports(), within(1e-9));
        assertThat(far.rate(1)).isInstanceOf(SpuriousRate.AtMost.class);
        assertThat(far.rate(1).perThousandHours()).isPositive();
        // outliers decide: a number, not a bound
        assertThat(first(-80, 0.3, 1e-3, 3)).isInstanceOf(SpuriousWait.Expected.class);
        // ln Phi(-30) = -454.3212 (Abramowitz and Stegun 26.2.12), three of them without correlation
        assertThat(first(-30, 0, 0, 3).lnReports()).isCloseTo(3 * 454.3212, within(1e-3));
    }

    /** 1,010,100 reports (Feller, p = 0.01, k = 3) of 0.5 s: 7.128 per 1,000 h, 28.51 in 4,000 h. */
    @Test
    void perThousandHoursAndPerYear() {
        SpuriousRate rate = first(-29, 0, 0.01, 3).rate(0.5);
        assertThat(rate).isInstanceOf(SpuriousRate.Known.class);
        assertThat(rate.perThousandHours()).isCloseTo(7.2e6 / 1_010_100, within(1e-8));
        assertThat(rate.perYear(4000)).isCloseTo(4 * 7.2e6 / 1_010_100, within(1e-8));
    }

    @ParameterizedTest
    @CsvSource({"0, 0, 1", "-0.5, 0, 2", "0.3, 0.001, 3", "0.7, 0, 3", "0.9, 0.0001, 4"})
    void theLargestTripSpeedJustMeetsTheLimit(double r, double e, int k) {
        HealthyReports reports = new HealthyReports(MEAN, SIGMA, r, e);
        double limit = 0.25;
        SpuriousLimit.Largest largest = (SpuriousLimit.Largest) SpuriousTrips.largestSpeed(reports, k, 1, limit);
        assertThat(largest.rate().perThousandHours())
                .isLessThanOrEqualTo(limit * (1 + 1e-12))
                .isCloseTo(limit, within(limit * 1e-4));
        double above = largest.speed() + 2 * SpuriousTrips.SPEED_TOLERANCE * SIGMA;
        assertThat(SpuriousTrips.first(reports, above, k).rate(1).perThousandHours())
                .isGreaterThan(limit);
        assertThat(largest.evaluations()).isLessThan(40);
    }

    /** Without correlation and with k = 1 it is the Gaussian's quantile at the limit's share of reports. */
    @Test
    void theLargestTripSpeedIsTheQuantile() {
        HealthyReports reports = new HealthyReports(MEAN, SIGMA, 0, 0);
        SpuriousLimit.Largest largest =
                (SpuriousLimit.Largest) SpuriousTrips.largestSpeed(reports, 1, 1, 3.6e6 * phi(-4.5));
        assertThat(largest.speed()).isCloseTo(MEAN - 4.5 * SIGMA, within(1e-3));
    }

    @Test
    void aLimitThatNoSpeedOrAnySpeedMeets() {
        HealthyReports noisy = new HealthyReports(MEAN, SIGMA, 0.3, 0.05);
        assertThat(SpuriousTrips.largestSpeed(noisy, 2, 1, 0.25)).isInstanceOf(SpuriousLimit.NoSpeed.class);
        assertThat(SpuriousTrips.largestSpeed(noisy, 2, 1, 1e9)).isInstanceOf(SpuriousLimit.AnySpeed.class);
    }

    @Test
    void refusesWhatMakesNoSense() {
        assertThatThrownBy(() -> new HealthyReports(MEAN, 0, 0, 0)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> new HealthyReports(MEAN, SIGMA, 0.995, 0)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> new HealthyReports(MEAN, SIGMA, 0, 1)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> first(-3, 0, 0, 0)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> Runs.expected(0, 3)).isInstanceOf(InputError.class);
    }

    private static SpuriousWait first(double a, double r, double e, int k) {
        return SpuriousTrips.first(new HealthyReports(MEAN, SIGMA, r, e), MEAN + a * SIGMA, k);
    }

    private static double phi(double a) {
        return 0.5 * Erf.erfc(-a / Math.sqrt(2));
    }
}
