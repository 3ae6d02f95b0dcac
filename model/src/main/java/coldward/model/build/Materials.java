package coldward.model.build;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Metals of heat breaks and sinks: conductivity W/(m K) as a mean over the working range, density kg/m3, specific heat
 * J/(kg K). Within the scatter of Incropera et al., Fundamentals of Heat and Mass Transfer, Table A.1, and of
 * ASM/MatWeb sheets (5-10 % in conductivity); titanium is the alloy Ti-6Al-4V, 6.7-7.2 at room temperature and 9-11 at
 * 300 degC. Pure titanium conducts about twice as well: ask which.
 */
public final class Materials {

    private static final Map<String, Material> TABLE = new LinkedHashMap<>();

    static {
        add("aluminium", 167, 2700, 896);
        add("copper", 391, 8940, 385);
        add("brass", 116, 8500, 380);
        add("stainless steel", 16.6, 8000, 500);
        add("titanium", 8.0, 4430, 550);
    }

    private Materials() {}

    private static void add(String name, double conductivity, double density, double specificHeat) {
        TABLE.put(name, new Material(name, conductivity, density, specificHeat));
    }

    /** The metal of this name, if known. */
    public static Optional<Material> named(String name) {
        return Optional.ofNullable(TABLE.get(name));
    }

    /** All of them, by name. */
    public static Map<String, Material> all() {
        return java.util.Collections.unmodifiableMap(TABLE);
    }
}
