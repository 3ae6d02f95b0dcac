package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/** How long from the fan's failure until the response has taken effect. */
public sealed interface StopTime {

    /**
     * The failure is noticed. How soon depends on where within a report it happens; that phase is uniform, and so is then
     * the detection, between {@code lowFrom + (k-1) W} and {@code lowFrom + k W}.
     *
     * @param coast s from the failure until the true speed is below the trip speed
     * @param lowFrom s from the failure; a report that ends later than this is below the trip speed
     * @param window W, s between two reports
     * @param confirmations k, reports in a row that have to be below
     * @param link s from the decision until the machine has the request; a poll's delay belongs here
     * @param machine s from the request until the slowest action has taken effect
     */
    record Noticed(double coast, double lowFrom, double window, int confirmations, double link, double machine)
            implements StopTime {
        public Noticed {
            notNegative("coast", coast, "s");
            positive("report_interval", window, "s");
            within("confirmations", confirmations, 1, 100);
            notNegative("link", link, "s");
            notNegative("machine", machine, "s");
            notNegative("first low report after the true speed", lowFrom - coast, "s");
        }

        /**
         * Where the time goes at a quantile of the phase.
         *
         * @param quantile 0.5 for the median, 0.99, or 1 for the worst phase
         */
        public StopTimeBudget at(double quantile) {
            within("quantile", quantile, 0, 1, "");
            return new StopTimeBudget(
                    coast, lowFrom + quantile * window - coast, (confirmations - 1) * window, link, machine);
        }

        /** The median over the phase. */
        public StopTimeBudget median() {
            return at(0.5);
        }

        /** The 99 % quantile over the phase. */
        public StopTimeBudget p99() {
            return at(0.99);
        }

        /** The worst phase: the failure a moment too late to pull the report below the trip speed. */
        public StopTimeBudget worst() {
            return at(1);
        }
    }

    /** No speed is read, so nothing notices. */
    record NeverNoticed() implements StopTime {}

    /**
     * The trip speed is above what a healthy fan is shown to turn: it would trip at once, and again after every release.
     *
     * @param tripSpeed rpm
     * @param shownSpeed rpm of the healthy fan
     */
    record AlwaysLow(double tripSpeed, double shownSpeed) implements StopTime {}
}
