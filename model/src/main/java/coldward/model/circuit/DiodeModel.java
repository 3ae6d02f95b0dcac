package coldward.model.circuit;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/**
 * A diode by Shockley's equation {@code I = Is (exp(V/(n Vt)) - 1)} behind a series resistance, with
 * {@code Is(T) = Is (T/T0)^(xti/n) exp((T/T0 - 1) Eg/(n Vt))} (Sze, Physics of Semiconductor Devices; the form circuit
 * simulators share), and a leakage {@code leak 2^((T - T0)/doubling) tanh(V/knee)} beside it, since real reverse current is
 * far above {@code Is}. {@code T0} is 25 degC. No breakdown, no junction capacitance.
 *
 * @param saturation Is, A at 25 degC
 * @param ideality n, 1 to 3
 * @param ohm series resistance
 * @param gap Eg, eV: 1.11 silicon, about 0.69 Schottky
 * @param exponent xti: 3 silicon, 2 Schottky
 * @param leak A at 25 degC well into reverse
 * @param knee V above which the leakage no longer grows
 * @param doubling K that double the leakage
 */
public record DiodeModel(
        double saturation,
        double ideality,
        double ohm,
        double gap,
        double exponent,
        double leak,
        double knee,
        double doubling) {
    /** V per K: Boltzmann's constant over the elementary charge, both exact (SI 2019). */
    public static final double VOLT_PER_KELVIN = 1.380649e-23 / 1.602176634e-19;

    /** K at which the parameters hold. */
    public static final double T0 = 298.15;

    /** A beyond which the exponential goes on as a straight line, so that no step of a solver overflows. */
    private static final double STRAIGHT_FROM = 1e6;

    public DiodeModel {
        positive("diode saturation current", saturation, "A");
        within("diode ideality", ideality, 1, 3, "");
        notNegative("diode series resistance", ohm, "ohm");
        within("diode gap", gap, 0.1, 3, "eV");
        within("diode exponent", exponent, 0, 6, "");
        notNegative("diode leakage", leak, "A");
        positive("diode leakage knee", knee, "V");
        positive("diode leakage doubling", doubling, "K");
    }

    /** Saturation current in A at a temperature in degrees Celsius. */
    public double saturationAt(double celsius) {
        double t = celsius + 273.15;
        double ratio = t / T0;
        return saturation
                * Math.exp((ratio - 1) * gap / (ideality * VOLT_PER_KELVIN * t))
                * Math.pow(ratio, exponent / ideality);
    }

    /** Leakage in A well into reverse at a temperature in degrees Celsius. */
    public double leakAt(double celsius) {
        return leak * Math.pow(2, (celsius + 273.15 - T0) / doubling);
    }

    /**
     * Forward voltage in V at a current, series resistance included.
     *
     * @param amperes above 0
     * @param celsius temperature
     */
    public double forward(double amperes, double celsius) {
        positive("diode current", amperes, "A");
        Junction junction = at(celsius);
        double low = 0;
        double high = 5;
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (junction.current(middle) < amperes) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high + amperes * ohm;
    }

    Junction at(double celsius) {
        return new Junction(
                saturationAt(celsius), ideality * VOLT_PER_KELVIN * (celsius + 273.15), leakAt(celsius), knee);
    }

    /** The junction at one temperature, without series resistance. */
    record Junction(double saturation, double thermal, double leak, double knee) {

        double current(double v) {
            double straight = straightFrom();
            double own = v > straight
                    ? STRAIGHT_FROM * (1 + (v - straight) / thermal)
                    : saturation * Math.expm1(v / thermal);
            return own + leak * Math.tanh(v / knee);
        }

        double slope(double v) {
            double own = v > straightFrom() ? STRAIGHT_FROM / thermal : saturation / thermal * Math.exp(v / thermal);
            double t = Math.tanh(v / knee);
            return own + leak / knee * (1 - t * t);
        }

        /**
         * The voltage to linearise at next instead of {@code next}, so that the exponential does not throw Newton off
         * (Nagel 1975, section 4.3).
         */
        double limited(double next, double last) {
            double critical = thermal * Math.log(thermal / (Math.sqrt(2) * saturation));
            if (next > critical && Math.abs(next - last) > 2 * thermal) {
                if (last > 0) {
                    double argument = 1 + (next - last) / thermal;
                    return argument > 0 ? last + thermal * Math.log(argument) : critical;
                }
                return next > 0 ? Math.max(critical, thermal * Math.log(next / thermal)) : next;
            }
            return next;
        }

        private double straightFrom() {
            return thermal * Math.log(STRAIGHT_FROM / saturation);
        }
    }
}
