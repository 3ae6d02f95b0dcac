package coldward.model.cause;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * Something seen.
 *
 * @param asked how it was looked
 * @param value rpm, V, or the number of the choice
 */
public record Seen(Asked asked, double value) {

    /**
     * A look with its setting.
     *
     * @param look how
     * @param setting commanded share of {@link Look#AT_DUTY}, s of {@link Look#AT_INTERVAL}; 0 for the others
     */
    public record Asked(Look look, double setting) {
        public Asked {
            switch (look) {
                case AT_DUTY -> within("commanded duty", setting, 0, 1, "");
                case AT_INTERVAL -> positive("interval", setting * 1e3, "ms");
                default -> within("setting", setting, 0, 0, "");
            }
        }

        /** A look without a setting. */
        public static Asked of(Look look) {
            return new Asked(look, 0);
        }
    }

    public Seen {
        if (asked.look().choices().isEmpty()) {
            notNegative(asked.look().key(), value, asked.look().unit());
        } else {
            within(asked.look().key(), (int) value, 0, asked.look().choices().size() - 1);
        }
    }

    /** A number seen. */
    public static Seen of(Look look, double value) {
        return new Seen(Asked.of(look), value);
    }

    /** A choice seen. */
    public static Seen of(Look look, String choice) {
        return new Seen(Asked.of(look), look.choice(choice));
    }

    /** The speed shown at a commanded share. */
    public static Seen atDuty(double share, double rpm) {
        return new Seen(new Asked(Look.AT_DUTY, share), rpm);
    }

    /** The speed shown with the pin looked at every so many s. */
    public static Seen atInterval(double seconds, double rpm) {
        return new Seen(new Asked(Look.AT_INTERVAL, seconds), rpm);
    }
}
