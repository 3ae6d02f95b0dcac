package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.heat.FanFailure;
import java.util.OptionalDouble;

/** How long from a failure until the k-th report in a row is low; s. */
public sealed interface Detection {

    /**
     * It is noticed.
     *
     * @param p50 median over phase and scatter
     * @param p99 99 % quantile over phase and scatter
     * @param worst without scatter, worst phase; empty if only the scatter makes reports low
     * @param evaluations phases the chain was run for
     */
    record Noticed(double p50, double p99, OptionalDouble worst, int evaluations) implements Detection {
        public Noticed {
            notNegative("detection p50", p50, "s");
            notNegative("detection p99 - p50", p99 - p50, "s");
        }
    }

    /**
     * In more than one of a hundred cases it is not noticed in time to look at.
     *
     * @param within s that were looked at
     * @param chance of being noticed within them
     */
    record NotNoticed(double within, double chance) implements Detection {}

    /** How finely to compute. */
    enum Accuracy {
        /** Quantiles to about W/500. */
        FINE(0.35, 8, 0.04, 9),
        /** Quantiles to about W/20: for maps and rankings. */
        COARSE(0.5, 7, 0.08, 8);

        final double stepShare;
        final double reach;
        final double change;
        final int halvings;

        /**
         * @param stepShare distance of the nodes in deviations of one step of the noise
         * @param reach deviations to both sides of the mean
         * @param change of the chance between two neighbouring phases above which one is put between them
         * @param halvings of the window, at most
         */
        Accuracy(double stepShare, double reach, double change, int halvings) {
            this.stepShare = stepShare;
            this.reach = reach;
            this.change = change;
            this.halvings = halvings;
        }
    }

    /**
     * The distribution of the detection. The failure falls anywhere within a report's window with the same likelihood and
     * finds an empty run (a healthy fan's last report is rarely low; a run under way would only be sooner). The n-th report
     * is mu m(phi + (n-1) W) + sigma z, m the mean share of the window that ends then; z is the AR(1) noise of
     * {@link HealthyReports}, its deviation kept as it is while the fan slows (an assumption: whole pulses are counted as
     * coarsely at any speed); a share e of the reports reads 0. A report is low if it is below the trip speed, strictly.
     * The density over (z, run length) is carried from report to report, so nothing is sampled.
     *
     * @param reports of the fan before the failure
     * @param failure how its speed goes; a lost signal is a stop with no coasting
     * @param tripSpeed rpm, above 0
     * @param confirmations k, 1 to 200
     * @param window W, s, above 0
     * @param accuracy how finely
     */
    static Detection of(
            HealthyReports reports,
            FanFailure failure,
            double tripSpeed,
            int confirmations,
            double window,
            Accuracy accuracy) {
        positive("trip speed", tripSpeed, "rpm");
        within("confirmations", confirmations, 1, SpuriousTrips.MOST_CONFIRMATIONS);
        WindowMean mean = new WindowMean(failure, window);
        DetectionChain chain = new DetectionChain(reports, mean, tripSpeed, confirmations, accuracy);
        double share = tripSpeed / reports.mean();
        OptionalDouble low = share > 1 ? OptionalDouble.of(0) : mean.timeBelow(share);
        OptionalDouble worst = low.isPresent()
                ? OptionalDouble.of(low.getAsDouble() + confirmations * window)
                : OptionalDouble.empty();
        return new PhaseAverage(chain, window, accuracy).detection(worst);
    }

    /** True if it is noticed in at least 99 of 100 cases. */
    default boolean noticed() {
        return this instanceof Noticed;
    }
}
