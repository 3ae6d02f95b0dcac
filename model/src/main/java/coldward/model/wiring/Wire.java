package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.Optional;

/**
 * One wire from contact to contact. A supply loop is two wires, one there and one back.
 *
 * @param name unique
 * @param from contact
 * @param to contact
 * @param diameter m of the copper, as of a solid wire of this gauge
 * @param length m
 * @param capacitance F per m to the wires beside it
 * @param colour as found on this machine, in words; empty if nobody has looked. Never used to conclude anything.
 */
public record Wire(
        String name,
        ContactId from,
        ContactId to,
        double diameter,
        double length,
        double capacitance,
        Optional<String> colour) {

    /** Resistivity of annealed copper at 20 degC, ohm m (IEC 60028). */
    public static final double COPPER_IEC60028_OHM_M = 1.724e-8;

    /** Its growth per kelvin, related to 20 degC (IEC 60028). */
    public static final double COPPER_IEC60028_PER_K = 0.00393;

    private static final double REFERENCE_K = 293.15;

    public Wire {
        notBlank("wire name", name);
        within("wire gauge", diameter * 1e3, 0.05, 6, "mm");
        positive("wire length", length, "m");
        within("wire capacitance", capacitance * 1e12, 0, 10_000, "pF/m");
        if (from.equals(to)) {
            throw new coldward.quantity.InputError(
                    "wire to", "wire to is " + to + " but that is where " + name + " begins");
        }
    }

    /**
     * Copper diameter of a gauge, {@code d = 0.127 mm x 92^((36 - n)/39)} (ASTM B258).
     *
     * @param awg gauge number, 0 to 40
     * @return m
     */
    public static double diameterOfGauge(double awg) {
        within("wire gauge", awg, 0, 40, "AWG");
        return 0.127e-3 * Math.pow(92, (36 - awg) / 39);
    }

    /** The gauge number of this diameter, not rounded (ASTM B258 turned round). */
    public double gauge() {
        return 36 - 39 * Math.log(diameter / 0.127e-3) / Math.log(92);
    }

    /**
     * Resistance {@code rho l / A (1 + alpha (T - 20 degC))}, ohm.
     *
     * @param temperature K
     */
    public double resistance(double temperature) {
        double area = Math.PI / 4 * diameter * diameter;
        return COPPER_IEC60028_OHM_M * length / area * (1 + COPPER_IEC60028_PER_K * (temperature - REFERENCE_K));
    }
}
