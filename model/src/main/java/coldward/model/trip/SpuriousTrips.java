package coldward.model.trip;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.quantity.NumericalFailure;
import org.hipparchus.analysis.solvers.AllowedSolution;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.exception.MathRuntimeException;

/**
 * How often a healthy fan trips. A spurious trip is k reports in a row below the trip speed S; a run starts empty from the
 * stationary law of the reports, and again after each trip, so the trips form a renewal process whose rate is 1 over the
 * expected number of reports to the first one.
 *
 * <p>Assumptions: {@link HealthyReports}, Gaussian and stationary; the tail below S decides, and a real fan's tail may be
 * heavier than a Gaussian's: the outlier rate stands for that. Without correlation the number is Feller's
 * ({@link Runs#expected}, with p = e + (1 - e) Phi((S - mu) / sigma)); with it the chain over (speed, run length) is
 * discretised by Gauss-Legendre panels that meet at S and solved without subtractions; for |S - mu| up to 12 sigma and all r
 * allowed, rules of 16 and of 26 nodes on a panel agree to 2e-14.
 */
public final class SpuriousTrips {

    /** Largest k; the work grows with it. */
    public static final int MOST_CONFIRMATIONS = 200;

    /** The largest trip speed is found to this share of the reports' deviation. */
    public static final double SPEED_TOLERANCE = 1e-6;

    /** Trip speeds farther from the mean than this many deviations are taken as if they were just so far. */
    private static final double FARTHEST = 30;

    /** Where a search for a trip speed looks first, and where every report is low, in deviations from the mean. */
    private static final double NEAR = 9;

    /** Seconds of the 1,000 h that rates refer to. */
    private static final double THOUSAND_HOURS = 1000 * 3600.0;

    /** A chance that is this factor (as a logarithm) larger than another leaves no digit of the other. */
    private static final double LN_HIDES = 40;

    private static final int ORDER = 16;
    private static final int COARSER_ORDER = 12;
    private static final int MOST_EVALUATIONS = 100;

    private SpuriousTrips() {}

    /**
     * Expected reports to the first spurious trip.
     *
     * @param reports the healthy fan's
     * @param tripSpeed S, rpm, above 0
     * @param confirmations k, 1 to {@value #MOST_CONFIRMATIONS}
     * @return a bound where S is more than 30 deviations below the mean (for r below 0: 30 sqrt((1 + r) / (1 - r))) and
     *     outliers do not decide
     * @throws NumericalFailure if the linear system cannot be solved
     */
    public static SpuriousWait first(HealthyReports reports, double tripSpeed, int confirmations) {
        RunChain.Solved fine = solve(reports, tripSpeed, confirmations, ORDER);
        RunChain.Solved coarse = solve(reports, tripSpeed, confirmations, COARSER_ORDER);
        double difference = Math.abs(Math.expm1(coarse.lnReports() - fine.lnReports()));
        SpuriousWait.Solution how =
                new SpuriousWait.Solution(fine.nodes(), fine.residual(), difference, coarse.nodes());
        return wait(reports, tripSpeed, confirmations, fine, how);
    }

    /**
     * The rate alone, from one solution with the coarser rule and without an estimate of its error (below 1e-9 for |S - mu|
     * up to 12 sigma): for maps, which ask a hundred times.
     *
     * @param reports the healthy fan's
     * @param tripSpeed S, rpm, above 0
     * @param confirmations k, 1 to {@value #MOST_CONFIRMATIONS}
     * @param reportInterval s, above 0
     * @throws NumericalFailure if the linear system cannot be solved
     */
    public static SpuriousRate rate(
            HealthyReports reports, double tripSpeed, int confirmations, double reportInterval) {
        RunChain.Solved solved = solve(reports, tripSpeed, confirmations, COARSER_ORDER);
        SpuriousWait.Solution how = new SpuriousWait.Solution(solved.nodes(), solved.residual(), 0, solved.nodes());
        return wait(reports, tripSpeed, confirmations, solved, how).rate(reportInterval);
    }

    /**
     * The largest trip speed that meets a limit. The rate rises with the trip speed, so a bracketed root decides; the
     * speed returned is on the side that meets the limit.
     *
     * @param reports the healthy fan's
     * @param confirmations k, 1 to {@value #MOST_CONFIRMATIONS}
     * @param reportInterval s, above 0
     * @param perThousandHours the limit, spurious trips per 1,000 printing hours, above 0
     * @throws NumericalFailure if no root is found within 100 solutions of the chain
     */
    public static SpuriousLimit largestSpeed(
            HealthyReports reports, int confirmations, double reportInterval, double perThousandHours) {
        positive("limit of spurious trips per 1,000 h", perThousandHours, "");
        double limit = Math.log(perThousandHours);
        double highest = reports.mean() + NEAR * reports.deviation();
        SpuriousRate most = first(reports, highest, confirmations).rate(reportInterval);
        if (most.perThousandHours() <= perThousandHours) {
            return new SpuriousLimit.AnySpeed(most);
        }
        // the system is smaller near the mean, and the root is usually there
        double lowest = down(reports, NEAR);
        SpuriousRate least = first(reports, lowest, confirmations).rate(reportInterval);
        if (least.perThousandHours() > perThousandHours) {
            lowest = down(reports, farthest(reports));
            least = first(reports, lowest, confirmations).rate(reportInterval);
        }
        if (least.perThousandHours() > perThousandHours) {
            return new SpuriousLimit.NoSpeed(least);
        }
        double accuracy = SPEED_TOLERANCE * reports.deviation();
        BracketingNthOrderBrentSolver solver = new BracketingNthOrderBrentSolver(1e-15, accuracy, 5);
        try {
            double speed = solver.solve(
                    MOST_EVALUATIONS,
                    s -> lnPerThousandHours(
                                    solve(reports, s, confirmations, ORDER).lnReports(), reportInterval)
                            - limit,
                    lowest,
                    highest,
                    AllowedSolution.BELOW_SIDE);
            SpuriousRate rate = first(reports, speed, confirmations).rate(reportInterval);
            return new SpuriousLimit.Largest(speed, rate, solver.getEvaluations());
        } catch (MathRuntimeException e) {
            throw new NumericalFailure("largest trip speed between " + lowest + " and " + highest + " rpm: "
                    + e.getMessage() + " after " + solver.getEvaluations() + " solutions");
        }
    }

    /** ln of 1,000 h over (reports x interval), both in s. */
    static double lnPerThousandHours(double lnReports, double reportInterval) {
        return Math.log(THOUSAND_HOURS / positive("report interval", reportInterval, "s")) - lnReports;
    }

    private static RunChain.Solved solve(HealthyReports reports, double tripSpeed, int confirmations, int order) {
        positive("trip speed", tripSpeed, "rpm");
        within("confirmations", confirmations, 1, MOST_CONFIRMATIONS);
        double threshold = (tripSpeed - reports.mean()) / reports.deviation();
        double farthest = farthest(reports);
        double near = Math.clamp(threshold, -farthest, farthest);
        return RunChain.solve(near, reports.correlation(), reports.outlierRate(), confirmations, order);
    }

    private static SpuriousWait wait(
            HealthyReports reports, double tripSpeed, int k, RunChain.Solved solved, SpuriousWait.Solution how) {
        // an expected number of 1 may round to just below it
        double ln = Math.max(0, solved.lnReports());
        double farthest = farthest(reports);
        boolean far = tripSpeed < reports.mean() - farthest * reports.deviation();
        // ln Phi(-x) < -x^2 / 2 for x > 1; a run of outliers much more likely than one Gaussian report hides the
        // Gaussian
        boolean hidden = k * Math.log(reports.outlierRate()) > LN_HIDES - farthest * farthest / 2;
        // a higher trip speed trips more often, so the number at the farthest speed bounds the one beyond
        return far && !hidden ? new SpuriousWait.AtLeast(ln, how) : new SpuriousWait.Expected(ln, solved.spread(), how);
    }

    private static double down(HealthyReports reports, double deviations) {
        return Math.max(reports.mean() - deviations * reports.deviation(), Double.MIN_NORMAL);
    }

    /** With r below 0 two lows in a row are (1 + |r|) / (1 - |r|) times as far out, as a square. */
    private static double farthest(HealthyReports reports) {
        double against = Math.max(0, -reports.correlation());
        return FARTHEST * Math.sqrt((1 - against) / (1 + against));
    }
}
