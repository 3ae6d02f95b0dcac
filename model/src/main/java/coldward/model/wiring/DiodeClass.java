package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * A generic kind of diode. Forward: Shockley's equation behind a series resistance,
 * {@code I = Is (exp((V - I Rs)/(n Vt)) - 1)}, with
 * {@code Is(T) = Is (T/T0)^(xti/n) exp((T/T0 - 1) Eg/(n Vt))}, {@code T0} = 25 degC (Sze, Physics of Semiconductor
 * Devices). Reverse: a leakage that is reached within {@code leakageKnee} and doubles with every
 * {@code leakageDoubling}.
 *
 * @param name as on the sheet
 * @param saturation Is, A at 25 degC
 * @param emission n, 1 to 3
 * @param seriesResistance Rs, ohm
 * @param gap Eg, eV
 * @param exponent xti
 * @param leakage A at 25 degC well into reverse
 * @param leakageKnee V above which it hardly grows
 * @param leakageDoubling K that double it
 * @param reverseLimit V that it stands
 * @param forwardLimit A that it stands
 * @param source of the values, or that there is none
 */
public record DiodeClass(
        String name,
        double saturation,
        double emission,
        double seriesResistance,
        double gap,
        double exponent,
        double leakage,
        double leakageKnee,
        double leakageDoubling,
        double reverseLimit,
        double forwardLimit,
        String source) {
    public DiodeClass {
        notBlank("diode class", name);
        positive("diode saturation", saturation, "A");
        within("diode emission", emission, 1, 3, "");
        notNegative("diode series_resistance", seriesResistance, "ohm");
        within("diode gap", gap, 0.1, 3, "eV");
        within("diode exponent", exponent, 0, 6, "");
        notNegative("diode leakage", leakage, "A");
        positive("diode leakage knee", leakageKnee, "V");
        positive("diode leakage doubling", leakageDoubling, "K");
        positive("diode reverse_limit", reverseLimit, "V");
        positive("diode forward_limit", forwardLimit, "A");
        notBlank("diode source", source);
    }
}
