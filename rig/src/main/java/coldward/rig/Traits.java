package coldward.rig;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * How a simulated fan behaves beyond what its sheet says. The usual values are common practice for small axial fans, no
 * source.
 *
 * @param spinUp s to come within 1/e of the speed after the supply is switched on
 * @param noise standard deviation of a report, share of the speed
 * @param correlation of one report's noise with the next one's, 0 to below 1
 * @param wear share of the speed lost per hour of turning
 * @param noiseGrowth share by which the noise grows per hour of turning
 * @param hoursTurned hours that the fan had turned before the simulation began
 */
public record Traits(
        double spinUp, double noise, double correlation, double wear, double noiseGrowth, double hoursTurned) {

    /** A fan as new. */
    public static final Traits USUAL = new Traits(0.6, 0.004, 0.3, 1e-5, 5e-4, 0);

    public Traits {
        positive("fan spin_up", spinUp, "s");
        within("fan noise", noise, 0, 0.2, "");
        within("fan noise correlation", correlation, 0, 0.99, "");
        within("fan wear", wear, 0, 1, "1/h");
        notNegative("fan noise growth", noiseGrowth, "1/h");
        notNegative("fan hours turned", hoursTurned, "h");
    }

    /** The same fan, not trembling and not wearing: for comparisons with the model. */
    public Traits calm() {
        return new Traits(spinUp, 0, 0, 0, 0, hoursTurned);
    }
}
