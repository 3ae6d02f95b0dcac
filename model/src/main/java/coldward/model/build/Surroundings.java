package coldward.model.build;

import static coldward.quantity.Checks.within;

/**
 * The air that the fan draws in.
 *
 * @param air its temperature, K; in a heated chamber the chamber's, not the room's
 * @param pressure Pa
 */
public record Surroundings(double air, double pressure) {
    public Surroundings {
        within("air", air - 273.15, -40, 150, "degC");
        within("pressure", pressure, 40_000, 120_000, "Pa");
    }
}
