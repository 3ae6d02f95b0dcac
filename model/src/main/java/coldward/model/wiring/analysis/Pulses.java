package coldward.model.wiring.analysis;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Fan;
import coldward.model.build.Reading;

/**
 * The fastest pulses to expect.
 *
 * @param rate Hz at the rated speed and its tolerance above
 * @param duty share of the period that is high
 */
public record Pulses(double rate, double duty) {
    public Pulses {
        positive("pulse rate", rate, "Hz");
        within("pulse duty", duty, 0.01, 0.99, "");
    }

    /** Of a fan and its tachometer: {@code pulses per turn x rated speed x (1 + tolerance) / 60}. */
    public static Pulses of(Fan fan, Reading.Tachometer reading) {
        return new Pulses(reading.pulsesPerTurn() * fan.ratedSpeed() * (1 + fan.speedTolerance()) / 60, reading.duty());
    }

    /** The shortest time the signal stays at one level, s: {@code min(d, 1 - d)/f}. */
    public double shortestHalf() {
        return Math.min(duty, 1 - duty) / rate;
    }
}
