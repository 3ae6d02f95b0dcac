package coldward.model.heat;

import static coldward.quantity.Checks.notNegative;

import coldward.quantity.Checks;

/**
 * The latest moment after the failure at which a response still keeps the softened depth within its limit. Ordered by how
 * much time it leaves: never, until a number of seconds, always.
 */
public sealed interface Deadline extends Comparable<Deadline> {

    /** Not even a response at the moment of the failure is enough. */
    record Never() implements Deadline {
        @Override
        public String words() {
            return "never";
        }
    }

    /**
     * A response that has taken effect by then is enough, a later one is not.
     *
     * @param seconds s after the failure, 0 or above
     */
    record Until(double seconds) implements Deadline {
        public Until {
            // adding 0.0 turns -0.0 into 0.0, so that equal deadlines are equal records
            seconds = notNegative("deadline", seconds, "s") + 0.0;
        }

        @Override
        public String words() {
            // rounded down: a deadline must not be said to be later than it is
            return "until " + Checks.number(seconds < 10 ? Math.floor(seconds * 10) / 10 : Math.floor(seconds)) + " s";
        }
    }

    /** A response at any time the model looks at is enough. */
    record Always() implements Deadline {
        @Override
        public String words() {
            return "always";
        }
    }

    /** Nothing is soon enough. */
    static Deadline never() {
        return new Never();
    }

    /** Soon enough up to {@code seconds} after the failure, s, 0 or above. */
    static Deadline until(double seconds) {
        return new Until(seconds);
    }

    /** Any time is soon enough. */
    static Deadline always() {
        return new Always();
    }

    /** As a person reads it: {@code never}, {@code until 41 s}, {@code always}. */
    String words();

    @Override
    default int compareTo(Deadline other) {
        return Double.compare(rank(this), rank(other));
    }

    private static double rank(Deadline deadline) {
        return switch (deadline) {
            case Never() -> Double.NEGATIVE_INFINITY;
            case Until(double seconds) -> seconds;
            case Always() -> Double.POSITIVE_INFINITY;
        };
    }
}
