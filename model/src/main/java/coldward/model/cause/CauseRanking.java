package coldward.model.cause;

import coldward.model.cause.Seen.Asked;
import java.util.List;
import java.util.Optional;

/**
 * What the things seen say.
 *
 * @param causes all, the most probable first
 * @param nextTest the look that says most for its cost; empty where none would say much
 */
public record CauseRanking(List<Ranked> causes, Optional<NextTest> nextTest) {

    /**
     * One cause.
     *
     * @param cause which
     * @param probability after all that was seen
     * @param predictsRpm the fan's true speed if this is the cause, mean over what fits, rpm
     */
    public record Ranked(Cause cause, double probability, double predictsRpm) {}

    /**
     * The next look.
     *
     * @param asked the look and its setting
     * @param bits expected information about the cause, bit
     * @param minutes its cost
     * @param separates the leading causes that it tells apart
     * @param predictions what each leading cause says it will show
     */
    public record NextTest(
            Asked asked, double bits, double minutes, List<Cause> separates, List<Prediction> predictions) {
        public NextTest {
            separates = List.copyOf(separates);
            predictions = List.copyOf(predictions);
        }
    }

    /**
     * What a cause says a look will show.
     *
     * @param cause which
     * @param low 5 % quantile, rpm or V; for a choice its number
     * @param middle median; for a choice the most probable one
     * @param high 95 % quantile
     */
    public record Prediction(Cause cause, double low, double middle, double high) {}

    public CauseRanking {
        causes = List.copyOf(causes);
    }

    /** The probability of a cause. */
    public double probability(Cause cause) {
        return causes.stream()
                .filter(r -> r.cause() == cause)
                .mapToDouble(Ranked::probability)
                .sum();
    }

    /** Where a cause stands, 1 for the first. */
    public int place(Cause cause) {
        return 1 + causes.stream().map(Ranked::cause).toList().indexOf(cause);
    }
}
