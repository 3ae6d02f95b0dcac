package coldward.figures;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import coldward.model.build.Reading.Tachometer;
import coldward.model.reading.Conditions;

/**
 * What the pulses figure shows.
 *
 * @param printer its name
 * @param reading pulses per turn, duty, counter
 * @param conditions jitter and supply
 * @param trueRpm the fan's speed, rpm
 * @param ratedRpm the fan's rated speed, rpm
 * @param verdict one sentence
 */
public record PulsesPicture(
        String printer, Tachometer reading, Conditions conditions, double trueRpm, double ratedRpm, String verdict) {
    public PulsesPicture {
        notBlank("printer", printer);
        notNegative("true speed", trueRpm, "rpm");
        positive("rated speed", ratedRpm, "rpm");
        notBlank("verdict", verdict);
    }
}
