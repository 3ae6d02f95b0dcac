package coldward.model.heat;

import static coldward.quantity.Checks.within;

/**
 * Dry air as an ideal gas with Sutherland's laws: viscosity {@code mu = 1.716e-5 (T/273.15)^1.5 383.55/(T + 110.4)},
 * conductivity {@code k = 0.0241 (T/273.15)^1.5 467.15/(T + 194)}, constant specific heat. Within 1 % of Incropera's
 * Table A.4 between 250 and 400 K, and of the Lemmon reference equations between 300 and 400 K; at 250 K the
 * conductivity is 1.6 % below the latter. Above 400 K not compared.
 *
 * @param temperature K, 200 to 1500
 * @param pressure Pa
 */
public record Air(double temperature, double pressure) {

    /** Specific gas constant of dry air, J/(kg K). */
    public static final double GAS_CONSTANT = 287.05;

    /** Specific heat at constant pressure, J/(kg K); within 1 % from 250 to 400 K. */
    public static final double SPECIFIC_HEAT = 1006;

    /** Standard atmosphere, Pa (ISO 2533). */
    public static final double STANDARD_PRESSURE = 101_325;

    /** Density at which fan makers state pressure, kg/m3 (ISO 5801 standard air). */
    public static final double FAN_STANDARD_DENSITY = 1.2;

    private static final double REFERENCE = 273.15;

    public Air {
        within("air temperature", temperature, 200, 1500, "K");
    }

    /** Density, kg/m3: {@code p / (R T)}. */
    public double density() {
        return pressure / (GAS_CONSTANT * temperature);
    }

    /** Dynamic viscosity, Pa s, by Sutherland's law. */
    public double viscosity() {
        return 1.716e-5 * Math.pow(temperature / REFERENCE, 1.5) * 383.55 / (temperature + 110.4);
    }

    /** Conductivity, W/(m K), by Sutherland's law. */
    public double conductivity() {
        return 0.0241 * Math.pow(temperature / REFERENCE, 1.5) * 467.15 / (temperature + 194);
    }

    /** Prandtl number {@code mu cp / k}. */
    public double prandtl() {
        return viscosity() * SPECIFIC_HEAT / conductivity();
    }
}
