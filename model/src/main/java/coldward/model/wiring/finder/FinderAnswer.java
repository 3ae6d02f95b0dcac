package coldward.model.wiring.finder;

import java.util.List;
import java.util.Optional;

/**
 * What the readings say.
 *
 * @param ranked every assignment with its probability, likeliest first
 * @param wires the assignment of wires, if it is settled, whatever the third tells
 * @param tells the whole assignment, if that is settled too
 * @param next the measurement that best tells the remaining ones apart; empty if all is settled or no test is left
 */
public record FinderAnswer(
        List<Ranked> ranked, Optional<Hypothesis> wires, Optional<Hypothesis> tells, Optional<NextTest> next) {

    /** Probability from which something counts as settled. */
    public static final double SETTLED = 0.95;

    /**
     * One assignment.
     *
     * @param hypothesis what
     * @param probability given the readings, 0 to 1
     */
    public record Ranked(Hypothesis hypothesis, double probability) {}

    /**
     * What to measure next.
     *
     * @param test what to do; what it shows is not known yet
     * @param ifFirst what would then be read if {@code first} holds: V or ohm
     * @param ifSecond the same for {@code second}
     * @param first the likeliest assignment
     * @param second the one that it has to be told from
     */
    public record NextTest(Measurement test, String ifFirst, String ifSecond, Hypothesis first, Hypothesis second) {}

    public FinderAnswer {
        ranked = List.copyOf(ranked);
    }
}
