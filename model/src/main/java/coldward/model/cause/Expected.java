package coldward.model.cause;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import java.util.Optional;

/**
 * What should be shown.
 *
 * @param ratedRpm the fan's rated speed, rpm
 * @param tolerance of it, share, one-sided
 * @param ratedVolts the fan's supply, V
 * @param reading pulses per turn as set, duty, counter, report interval
 */
public record Expected(double ratedRpm, double tolerance, double ratedVolts, Tachometer reading) {
    public Expected {
        positive("rated speed", ratedRpm, "rpm");
        within("tolerance", tolerance, 0, 0.5, "");
        positive("rated voltage", ratedVolts, "V");
    }

    /** From a sheet; empty if it reads no speed. */
    public static Optional<Expected> of(Build build) {
        var fan = build.hotEnd().fan();
        return build.reading() instanceof Tachometer reading
                ? Optional.of(new Expected(fan.ratedSpeed(), fan.speedTolerance(), fan.ratedVoltage(), reading))
                : Optional.empty();
    }
}
