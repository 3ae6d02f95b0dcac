package coldward.model.check;

import coldward.model.trip.Margin;
import java.util.OptionalDouble;

/**
 * One way in which a printer without a speed signal could notice that its fan stands, and what it would buy.
 *
 * @param way which
 * @param words what it takes
 * @param noticedAfter s from the stop until it is noticed, in the slower regime; empty if never
 * @param margin deadline minus that, link and slowest action, the smaller of both regimes
 */
public record Noticing(Way way, String words, OptionalDouble noticedAfter, Margin margin) {

    /** The ways. */
    public enum Way {
        /** A fan with a pulse signal. */
        THIRD_WIRE("third-wire"),
        /** A temperature sensor on the sink. */
        COLD_SIDE("cold-side-sensor"),
        /** A change of the power that holds the nozzle. */
        HEATER_POWER("heater-power");

        private final String word;

        Way(String word) {
            this.word = word;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }
    }
}
