package coldward.model.build;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Amorphous filaments below melting: conductivity W/(m K), density kg/m3, specific heat J/(kg K), softening
 * temperature and lowest feeding temperature. Softening near the glass transition that resin makers state (PLA 55-65,
 * PETG 78-81, ABS and ASA 100-105 (Crawford, Plastics Engineering, Table 1.8: ABS 115), PC 147-149 degC); feeding
 * limits are common practice, no source. Semicrystalline plastics soften over a range and must state it.
 */
public final class Plastics {

    private static final double ZERO_CELSIUS = 273.15;

    private static final Map<String, Plastic> TABLE = new LinkedHashMap<>();

    static {
        add("PLA", 0.18, 1240, 1300, 60, 170);
        add("PETG", 0.20, 1270, 1300, 78, 200);
        add("ABS", 0.18, 1040, 1500, 105, 200);
        add("ASA", 0.18, 1070, 1500, 105, 200);
        add("PC", 0.20, 1200, 1250, 147, 230);
    }

    private Plastics() {}

    private static void add(
            String name, double conductivity, double density, double specificHeat, double softens, double feeds) {
        TABLE.put(
                name,
                new Plastic(
                        name,
                        conductivity,
                        density,
                        specificHeat,
                        softens + ZERO_CELSIUS,
                        feeds + ZERO_CELSIUS,
                        OptionalDouble.empty()));
    }

    /** The plastic of this name, if known. */
    public static Optional<Plastic> named(String name) {
        return Optional.ofNullable(TABLE.get(name));
    }

    /** All of them, by name. */
    public static Map<String, Plastic> all() {
        return java.util.Collections.unmodifiableMap(TABLE);
    }
}
