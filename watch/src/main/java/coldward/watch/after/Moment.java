package coldward.watch.after;

import static coldward.quantity.Checks.notNegative;

import java.util.OptionalDouble;

/**
 * What was known of a printer at one time.
 *
 * @param at s after the trip, negative before it
 * @param speed shown, rpm
 * @param nozzle K
 * @param target of the heater, K; 273.15 or below is off; empty where it is not told
 * @param feeding a job feeds
 * @param blown part-cooling air is on the block
 * @param coldSide K
 */
public record Moment(
        double at,
        OptionalDouble speed,
        OptionalDouble nozzle,
        OptionalDouble target,
        boolean feeding,
        boolean blown,
        OptionalDouble coldSide) {
    public Moment {
        speed.ifPresent(rpm -> notNegative("speed", rpm, "rpm"));
    }
}
