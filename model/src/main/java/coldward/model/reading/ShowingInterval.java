package coldward.model.reading;

import static coldward.quantity.Checks.positive;

/** The time between two looks at the pin that turns a true speed into a shown one. */
public sealed interface ShowingInterval {

    /** The longest such time, s: the time itself, or the upper limit. */
    double seconds();

    /** Why it does so. */
    Why why();

    /**
     * This interval does it.
     *
     * @param seconds s between two looks
     * @param why the mechanism
     */
    record Exactly(double seconds, Why why) implements ShowingInterval {
        public Exactly {
            positive("interval", seconds, "s");
        }
    }

    /**
     * This interval and every shorter one.
     *
     * @param seconds the upper limit, s between two looks
     */
    record AnyUpTo(double seconds) implements ShowingInterval {
        public AnyUpTo {
            positive("interval", seconds, "s");
        }

        @Override
        public Why why() {
            return new Why.Honest();
        }
    }

    /** The mechanism by which an interval shows a speed. */
    sealed interface Why {

        /** As a person reads it. */
        String words();

        /** Short enough: every pulse is seen. */
        record Honest() implements Why {
            @Override
            public String words() {
                return "honest: every pulse is seen both low and high";
            }
        }

        /** T = min(d, 1-d)/g: the reading no longer rises with speed. */
        record FlatTop() implements Why {
            @Override
            public String words() {
                return "flat top: the shorter level is seen at most once in a while, the reading does not rise with speed";
            }
        }

        /**
         * T = k/(f - g): a little more than k pulses go by between two looks.
         *
         * @param k whole pulses, 1 or more
         */
        record FoldedUp(int k) implements Why {
            @Override
            public String words() {
                return "folding: " + (k == 1 ? "one pulse" : k + " pulses")
                        + " and a bit between two looks, only the bit" + " shows";
            }
        }

        /**
         * T = k/(f + g): a little less than k pulses go by between two looks.
         *
         * @param k whole pulses, 1 or more
         */
        record FoldedDown(int k) implements Why {
            @Override
            public String words() {
                return "folding: just short of " + (k == 1 ? "one pulse" : k + " pulses")
                        + " between two looks, only what" + " is missing shows";
            }
        }
    }
}
