package coldward.model.reading;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * A fan's supply switched off and on to slow it. A three-wire fan gives pulses only while it is powered.
 *
 * @param frequency Hz, above 0
 * @param onShare share of the time that the supply is on, 0.01 to 1; 1 for full power
 */
public record Chopping(double frequency, double onShare) {
    public Chopping {
        positive("chopping frequency", frequency, "Hz");
        within("chopping on_share", onShare, 0.01, 1, "");
    }
}
