package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import java.util.OptionalDouble;

/**
 * What a counter makes of one true speed.
 *
 * @param trueRpm the fan's speed, rpm
 * @param shownRpm the speed shown, averaged over phase and reports, rpm
 * @param honest true if the shown speed is the true one, apart from the resolution
 * @param highestHonestRpm the highest speed shown as it is, rpm; empty if nothing limits it
 * @param longestHonestInterval the longest s between two looks at the pin that shows {@code trueRpm} as it is; empty where
 *     the pin is not sampled, and for a fan that stands (any interval does)
 * @param resolutionRpm the step between two neighbouring shown speeds at {@code trueRpm}, rpm
 */
public record ReadingResult(
        double trueRpm,
        double shownRpm,
        boolean honest,
        OptionalDouble highestHonestRpm,
        OptionalDouble longestHonestInterval,
        double resolutionRpm) {
    public ReadingResult {
        notNegative("true speed", trueRpm, "rpm");
        notNegative("shown speed", shownRpm, "rpm");
        highestHonestRpm.ifPresent(rpm -> positive("highest honest speed", rpm, "rpm"));
        longestHonestInterval.ifPresent(s -> positive("longest honest interval", s, "s"));
        notNegative("resolution", resolutionRpm, "rpm");
    }
}
