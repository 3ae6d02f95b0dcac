package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.within;

/** How many reports a healthy fan gives, on average, until the first spurious trip; as a logarithm, for it may be vast. */
public sealed interface SpuriousWait {

    /**
     * The expected number.
     *
     * @param lnReports its natural logarithm, 0 or above
     * @param spread standard deviation of the number over its expectation, 0 or above; near 1 where a trip is rare
     * @param how how it was come by
     */
    record Expected(double lnReports, double spread, Solution how) implements SpuriousWait {
        public Expected {
            notNegative("logarithm of the reports to a spurious trip", lnReports, "");
            notNegative("spread of the reports to a spurious trip", spread, "");
        }
    }

    /**
     * The trip speed is so far below the reports that only a bound is computed.
     *
     * @param lnReports natural logarithm of a number of reports that the expected one is not below, 0 or above
     * @param how how it was come by
     */
    record AtLeast(double lnReports, Solution how) implements SpuriousWait {
        public AtLeast {
            notNegative("logarithm of the reports to a spurious trip", lnReports, "");
        }
    }

    /**
     * How the linear system was solved.
     *
     * @param nodes nodes of the quadrature over the speed
     * @param residual of the linear system, relative to its largest unknown
     * @param difference how much the expected number changes, relatively, from a rule with fewer nodes: the error of
     *     that coarser rule, so an upper estimate of this one's
     * @param coarserNodes nodes of that rule
     */
    record Solution(int nodes, double residual, double difference, int coarserNodes) {
        public Solution {
            within("nodes", nodes, 1, Integer.MAX_VALUE);
            notNegative("residual", residual, "");
            notNegative("difference", difference, "");
            within("nodes of the coarser rule", coarserNodes, 1, nodes);
        }
    }

    /** Natural logarithm of the expected number of reports, or of its bound. */
    double lnReports();

    /** How it was come by. */
    Solution how();

    /** The expected number of reports, or its bound; infinite above what a double holds (about 1e308). */
    default double reports() {
        return Math.exp(lnReports());
    }

    /**
     * Spurious trips over printing time: 1 over the expected number of reports, each a report interval long.
     *
     * @param reportInterval s, above 0
     */
    default SpuriousRate rate(double reportInterval) {
        double ln = SpuriousTrips.lnPerThousandHours(lnReports(), reportInterval);
        double least = Math.log(Double.MIN_NORMAL);
        return switch (this) {
            case Expected expected when ln >= least -> new SpuriousRate.Known(Math.exp(ln));
            case Expected expected -> new SpuriousRate.AtMost(Double.MIN_NORMAL);
            case AtLeast atLeast -> new SpuriousRate.AtMost(Math.exp(Math.max(ln, least)));
        };
    }
}
