package coldward.model.build;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.positive;

import coldward.quantity.InputError;
import java.util.OptionalDouble;

/**
 * A filament's plastic below melting.
 *
 * @param name as on the sheet
 * @param conductivity W/(m K)
 * @param density kg/m3
 * @param specificHeat J/(kg K), below melting
 * @param softensAt K; above it the filament can no longer be pushed as a rod
 * @param feedsAbove K; a block colder than this can no longer be fed through, above {@code softensAt}
 * @param meltSpecificHeat J/(kg K) of the melt, used for heater power only; empty: {@code specificHeat} is used
 */
public record Plastic(
        String name,
        double conductivity,
        double density,
        double specificHeat,
        double softensAt,
        double feedsAbove,
        OptionalDouble meltSpecificHeat) {
    public Plastic {
        notBlank("plastic", name);
        positive("conductivity", conductivity, "W/(m K)");
        positive("density", density, "kg/m^3");
        positive("specific_heat", specificHeat, "J/(kg K)");
        positive("softens_at", softensAt, "K");
        positive("feeds_above", feedsAbove, "K");
        if (!(feedsAbove > softensAt)) {
            throw new InputError(
                    "feeds_above",
                    "feeds_above is %.1f degC but must be above softens_at (%.1f degC)"
                            .formatted(feedsAbove - 273.15, softensAt - 273.15));
        }
        meltSpecificHeat.ifPresent(c -> positive("melt_specific_heat", c, "J/(kg K)"));
    }
}
