package coldward.model.build;

import static coldward.quantity.Checks.positive;

import coldward.quantity.InputError;
import java.util.List;
import java.util.Optional;

/**
 * The thin part of the heat break between block and sink, from the block's face upwards.
 *
 * @param segments in order from the block, at least one
 * @param bore m, the same throughout, wider than the filament
 * @param liner a tube in the bore, if any
 */
public record Neck(List<Segment> segments, double bore, Optional<Liner> liner) {

    /**
     * One length of the neck.
     *
     * @param material its metal
     * @param length m
     * @param diameter outer diameter, m
     */
    public record Segment(Material material, double length, double diameter) {
        public Segment {
            positive("neck length", length * 1e3, "mm");
            positive("neck diameter", diameter * 1e3, "mm");
        }
    }

    /**
     * A tube between bore and filament; the bore of {@link Neck} is then the liner's inner diameter, and the metal
     * begins at the liner's outer diameter.
     *
     * @param outerDiameter m
     * @param conductivity W/(m K)
     */
    public record Liner(double outerDiameter, double conductivity) {
        public Liner {
            positive("liner outer_diameter", outerDiameter * 1e3, "mm");
            positive("liner conductivity", conductivity, "W/(m K)");
        }
    }

    public Neck {
        segments = List.copyOf(segments);
        if (segments.isEmpty()) {
            throw new InputError("neck", "neck has no segment but needs at least one");
        }
        positive("neck bore", bore * 1e3, "mm");
        double metalFrom = liner.map(Liner::outerDiameter).orElse(bore);
        if (liner.isPresent() && metalFrom <= bore) {
            throw new InputError(
                    "liner",
                    "liner outer_diameter is %.3g mm but must be above the bore (%.3g mm)"
                            .formatted(metalFrom * 1e3, bore * 1e3));
        }
        for (Segment segment : segments) {
            if (!(segment.diameter() > metalFrom)) {
                throw new InputError(
                        "neck diameter",
                        "neck diameter is %.3g mm but must be above the %s (%.3g mm): no wall is left"
                                .formatted(
                                        segment.diameter() * 1e3,
                                        liner.isPresent() ? "liner's outer_diameter" : "bore",
                                        metalFrom * 1e3));
            }
        }
    }

    /** Total length, m. */
    public double length() {
        return segments.stream().mapToDouble(Segment::length).sum();
    }

    /** Where the metal begins, m of diameter: the bore, or the liner's outside. */
    public double metalInnerDiameter() {
        return liner.map(Liner::outerDiameter).orElse(bore);
    }
}
