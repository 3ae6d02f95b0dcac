package coldward.model.wiring;

import static coldward.quantity.Checks.below;
import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A logic input.
 *
 * @param name unique on its board
 * @param contact number of its contact
 * @param rail the board's rail that supplies the logic behind it
 * @param lowBelow VIL: V up to which it surely takes the level for low
 * @param highAbove VIH: V from which it surely takes the level for high, above {@code lowBelow}
 * @param pullUp ohm of the internal pull-up to {@code rail}; empty if it has none or it is switched off
 * @param pullUpTolerance share of {@code pullUp}, one-sided, 0 to 0.9
 * @param toleratedUpTo V that it stands; above the rail for a tolerant one, whose clamp to the rail is then absent
 * @param injectionUp A that may flow from it into its rail's clamp; 0 if none may
 * @param injectionDown A that may flow out of ground's clamp into it; 0 if none may
 * @param leakage A at most
 * @param capacitance F
 * @param takenBy what else uses it already; empty if it is free
 */
public record Input(
        String name,
        String contact,
        String rail,
        double lowBelow,
        double highAbove,
        OptionalDouble pullUp,
        double pullUpTolerance,
        double toleratedUpTo,
        double injectionUp,
        double injectionDown,
        double leakage,
        double capacitance,
        Optional<String> takenBy) {

    /** V above its rail from which an input counts as tolerant: it has no clamp to the rail. */
    public static final double TOLERANT_ABOVE_RAIL_V = 0.5;

    public Input {
        notBlank("input name", name);
        notBlank("input contact", contact);
        notBlank("input rail", rail);
        positive("input low_below", lowBelow, "V");
        positive("input high_above", highAbove, "V");
        below("input low_below", lowBelow, highAbove, "high_above", "V");
        if (pullUp.isPresent()) {
            positive("input pull_up", pullUp.getAsDouble(), "ohm");
        }
        within("input pull_up_tolerance", pullUpTolerance, 0, 0.9, "");
        positive("input tolerated_up_to", toleratedUpTo, "V");
        notNegative("input injection_up", injectionUp, "A");
        notNegative("input injection_down", injectionDown, "A");
        notNegative("input leakage", leakage, "A");
        notNegative("input capacitance", capacitance * 1e12, "pF");
    }

    /**
     * True if it stands more than its supply and so has no clamp to it.
     *
     * @param railVoltage V of its rail
     */
    public boolean isTolerant(double railVoltage) {
        return toleratedUpTo > railVoltage + TOLERANT_ABOVE_RAIL_V;
    }
}
