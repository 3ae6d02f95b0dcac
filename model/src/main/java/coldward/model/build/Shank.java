package coldward.model.build;

import static coldward.quantity.Checks.positive;

/**
 * The heat break's part inside the sink, continuing the neck without joint.
 *
 * @param material its metal; the neck's unless the heat break is of two metals
 * @param diameter m
 * @param length m
 * @param contact W/(m2 K) between the shank's outside and the sink: about 5000 with paste, 1000 dry
 */
public record Shank(Material material, double diameter, double length, double contact) {
    public Shank {
        positive("shank diameter", diameter * 1e3, "mm");
        positive("shank length", length * 1e3, "mm");
        positive("shank contact", contact, "W/(m^2 K)");
    }
}
