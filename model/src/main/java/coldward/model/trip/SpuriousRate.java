package coldward.model.trip;

import static coldward.quantity.Checks.positive;

/** How often a healthy fan trips while printing. */
public sealed interface SpuriousRate {

    /**
     * The expected rate.
     *
     * @param perThousandHours spurious trips per 1,000 printing hours, above 0
     */
    record Known(double perThousandHours) implements SpuriousRate {
        public Known {
            positive("spurious trips per 1,000 h", perThousandHours, "");
        }
    }

    /**
     * The rate is too small for a number of its own: not above this.
     *
     * @param perThousandHours spurious trips per 1,000 printing hours, above 0
     */
    record AtMost(double perThousandHours) implements SpuriousRate {
        public AtMost {
            positive("spurious trips per 1,000 h", perThousandHours, "");
        }
    }

    /** Spurious trips per 1,000 printing hours, or their upper bound; above 0. */
    double perThousandHours();

    /**
     * Spurious trips per year, or their upper bound.
     *
     * @param hoursPerYear printing hours per year, above 0
     */
    default double perYear(double hoursPerYear) {
        positive("printing hours per year", hoursPerYear, "h");
        return Math.max(Double.MIN_NORMAL, perThousandHours() * (hoursPerYear / 1000));
    }
}
