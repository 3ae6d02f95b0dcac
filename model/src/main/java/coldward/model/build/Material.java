package coldward.model.build;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.positive;

/**
 * A solid, with properties as means over its working range.
 *
 * @param name as on the sheet
 * @param conductivity W/(m K), above 0
 * @param density kg/m3, above 0
 * @param specificHeat J/(kg K), above 0
 */
public record Material(String name, double conductivity, double density, double specificHeat) {
    public Material {
        notBlank("material", name);
        positive("conductivity", conductivity, "W/(m K)");
        positive("density", density, "kg/m^3");
        positive("specific_heat", specificHeat, "J/(kg K)");
    }
}
