package coldward.model.build;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.Optional;

/**
 * The finned body that the fan cools: a core with round fins.
 *
 * @param material its metal
 * @param length m
 * @param fins how many, at least 1
 * @param finThickness m
 * @param finDiameter m
 * @param coreDiameter m
 * @param emissivity of its surface, 0 to 1: about 0.1 bare, 0.8 anodised
 * @param stillAirShare share of the enclosing surface that still air reaches, 0 to 1
 * @param mountConductance W/K into the carriage
 * @param measured conductances measured on this machine; they replace the computed ones
 */
public record Sink(
        Material material,
        double length,
        int fins,
        double finThickness,
        double finDiameter,
        double coreDiameter,
        double emissivity,
        double stillAirShare,
        double mountConductance,
        Optional<Measured> measured) {

    /**
     * Conductance from sink to air, measured.
     *
     * @param on W/K with the fan at rated speed, above {@code still}
     * @param still W/K with the fan stopped
     */
    public record Measured(double on, double still) {
        public Measured {
            positive("measured on", on, "W/K");
            positive("measured still", still, "W/K");
            if (!(on > still)) {
                throw new InputError(
                        "measured",
                        "measured on is %.4g W/K but must be above still (%.4g W/K): a fan that cools nothing"
                                .formatted(on, still));
            }
        }
    }

    public Sink {
        positive("sink length", length * 1e3, "mm");
        within("sink fins", fins, 1, 200);
        positive("sink fin_thickness", finThickness * 1e3, "mm");
        positive("sink core_diameter", coreDiameter * 1e3, "mm");
        within("sink emissivity", emissivity, 0, 1, "");
        within("sink still_air_share", stillAirShare, 0, 1, "");
        notNegative("sink mount_conductance", mountConductance, "W/K");
        if (!(finDiameter > coreDiameter)) {
            throw new InputError(
                    "sink fin_diameter",
                    "sink fin_diameter is %.3g mm but must be above core_diameter (%.3g mm)"
                            .formatted(finDiameter * 1e3, coreDiameter * 1e3));
        }
        if (!(fins * finThickness < length)) {
            throw new InputError(
                    "sink fins",
                    "%d fins of %.3g mm leave no gap in a sink of %.3g mm: use fewer or thinner fins"
                            .formatted(fins, finThickness * 1e3, length * 1e3));
        }
    }

    /** Gap between two fins, m. */
    public double gap() {
        return length / fins - finThickness;
    }

    /** The same sink with measured conductances. */
    public Sink withMeasured(Measured conductances) {
        return new Sink(
                material,
                length,
                fins,
                finThickness,
                finDiameter,
                coreDiameter,
                emissivity,
                stillAirShare,
                mountConductance,
                Optional.of(conductances));
    }
}
