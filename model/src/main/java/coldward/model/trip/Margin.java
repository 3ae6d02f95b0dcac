package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;

import coldward.model.heat.Deadline;
import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.util.Comparator;
import java.util.Optional;

/** Deadline minus stop time; what the tool is about. Ordered from worst to best. */
public sealed interface Margin extends Comparable<Margin> {

    /** The response comes too late whenever it comes, or nothing ever notices. */
    record NothingSaves() implements Margin {
        @Override
        public String words() {
            return "nothing saves it";
        }
    }

    /**
     * So much time is left, or missing.
     *
     * @param seconds s; negative if the response takes effect too late
     */
    record Seconds(double seconds) implements Margin {
        public Seconds {
            if (!Double.isFinite(seconds)) {
                throw new InputError(
                        "margin", "margin is " + Checks.number(seconds) + " s but must be a finite number of seconds");
            }
            // adding 0.0 turns -0.0 into 0.0, so that equal margins are equal records
            seconds = seconds + 0.0;
        }

        @Override
        public String words() {
            // rounded down, also below zero: the words never promise more than the number
            double shown = Math.abs(seconds) < 10 ? Math.floor(seconds * 10) / 10 : Math.floor(seconds);
            return seconds < 0 ? "too late by " + Checks.number(-shown) + " s" : Checks.number(shown) + " s to spare";
        }
    }

    /** No response is needed within the time the model looks at. */
    record Unlimited() implements Margin {
        @Override
        public String words() {
            return "no limit";
        }
    }

    /** As a person reads it: {@code 41 s to spare}, {@code too late by 12 s}, {@code nothing saves it}, {@code no limit}. */
    String words();

    /** True if the response comes in time, with something left. */
    default boolean saves() {
        return this.compareTo(new Seconds(0)) > 0;
    }

    /** From worst to best, with what has no margin at all before everything. */
    static Comparator<Optional<Margin>> worstFirst() {
        return Comparator.comparing(m -> m.orElse(null), Comparator.nullsFirst(Comparator.naturalOrder()));
    }

    /**
     * What is left of a deadline after a stop time.
     *
     * @param deadline the response's
     * @param stopTime s, 0 or above
     */
    static Margin of(Deadline deadline, double stopTime) {
        notNegative("stop time", stopTime, "s");
        return switch (deadline) {
            case Deadline.Never() -> new NothingSaves();
            case Deadline.Until(double seconds) -> new Seconds(seconds - stopTime);
            case Deadline.Always() -> new Unlimited();
        };
    }

    /**
     * What is left of a deadline, at a quantile of the phase of the failure.
     *
     * @param deadline the response's
     * @param stopTime how the failure is noticed
     * @param quantile 0 to 1; 0.99 for the design, 1 for the worst phase
     * @return {@link NothingSaves} if nothing notices, unless the deadline is always; empty if the trip speed lets no
     *     healthy fan run, for then there is no running printer to save
     */
    static Optional<Margin> of(Deadline deadline, StopTime stopTime, double quantile) {
        return switch (stopTime) {
            case StopTime.Noticed noticed ->
                Optional.of(of(deadline, noticed.at(quantile).total()));
            case StopTime.NeverNoticed() ->
                Optional.of(deadline instanceof Deadline.Always ? new Unlimited() : new NothingSaves());
            case StopTime.AlwaysLow low -> Optional.empty();
        };
    }

    @Override
    default int compareTo(Margin other) {
        return Double.compare(rank(this), rank(other));
    }

    private static double rank(Margin margin) {
        return switch (margin) {
            case NothingSaves() -> Double.NEGATIVE_INFINITY;
            case Seconds(double seconds) -> seconds;
            case Unlimited() -> Double.POSITIVE_INFINITY;
        };
    }
}
