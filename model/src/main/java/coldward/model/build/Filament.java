package coldward.model.build;

import static coldward.quantity.Checks.within;

/**
 * The plastic rod in the bore.
 *
 * @param diameter m
 * @param offset how far off-centre it lies, as a share of the radial gap: 0 centred, 1 touching the wall
 */
public record Filament(double diameter, double offset) {
    public Filament {
        within("filament diameter", diameter * 1e3, 0.5, 5, "mm");
        within("filament offset", offset, 0, 0.999, "");
    }
}
