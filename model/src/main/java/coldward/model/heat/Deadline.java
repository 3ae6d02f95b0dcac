package coldward.model.heat;

import static coldward.quantity.Checks.notNegative;

import coldward.quantity.Checks;

/**
 * The latest moment after the fan's failure at which a response still keeps the softened depth within its limit.
 * Ordered: never comes before every time, every time before always.
 */
public sealed interface Deadline extends Comparable<Deadline> {

    /** Even a response at the very moment of the failure is too late. */
    record Never() implements Deadline {}

    /**
     * A response up to this moment is in time.
     *
     * @param seconds after the failure, at least 0
     */
    record Until(double seconds) implements Deadline {
        public Until {
            // adding 0.0 turns -0.0 into 0.0, so that equal deadlines are equal records
            seconds = notNegative("deadline", seconds, "s") + 0.0;
        }
    }

    /** Every moment up to the horizon is in time. */
    record Always() implements Deadline {}

    /** Never. */
    static Deadline never() {
        return new Never();
    }

    /** Until so many seconds after the failure. */
    static Deadline until(double seconds) {
        return new Until(seconds);
    }

    /** Always. */
    static Deadline always() {
        return new Always();
    }

    /** The word in outputs: never, until or always. */
    default String word() {
        return switch (this) {
            case Never n -> "never";
            case Until u -> "until";
            case Always a -> "always";
        };
    }

    /** As a person reads it: {@code never}, {@code until 41 s}, {@code always}. */
    default String words() {
        if (!(this instanceof Until(double seconds))) {
            return word();
        }
        // rounded down: a deadline must not be said to be later than it is
        return "until " + Checks.number(seconds < 10 ? Math.floor(seconds * 10) / 10 : Math.floor(seconds)) + " s";
    }

    /** Where it stands in the order: minus infinity, seconds, plus infinity; for comparing and ranking only. */
    default double order() {
        return switch (this) {
            case Never n -> Double.NEGATIVE_INFINITY;
            case Until u -> u.seconds();
            case Always a -> Double.POSITIVE_INFINITY;
        };
    }

    @Override
    default int compareTo(Deadline other) {
        return Double.compare(order(), other.order());
    }
}
