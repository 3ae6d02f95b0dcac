package coldward.model.wiring;

import static coldward.quantity.Checks.below;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

/**
 * The transistor behind a fan's third wire: it pulls the wire to the fan's minus, or lets go.
 *
 * @param saturation V left across it at {@code saturationAt}, at most
 * @param saturationAt A, above 0
 * @param offset V left across it at hardly any current, below {@code saturation}; 0 for a field-effect transistor
 * @param currentLimit A that it may sink, at least {@code saturationAt}
 * @param voltageLimit V that it stands while open
 * @param leakage A while open
 */
public record OpenCollector(
        double saturation,
        double saturationAt,
        double offset,
        double currentLimit,
        double voltageLimit,
        double leakage) {
    public OpenCollector {
        positive("fan stage saturation", saturation, "V");
        positive("fan stage saturation_at", saturationAt, "A");
        notNegative("fan stage offset", offset, "V");
        below("fan stage offset", offset, saturation, "saturation", "V");
        positive("fan stage current_limit", currentLimit, "A");
        positive("fan stage voltage_limit", voltageLimit, "V");
        notNegative("fan stage leakage", leakage, "A");
    }
}
