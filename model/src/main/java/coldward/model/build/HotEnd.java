package coldward.model.build;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;

/**
 * Everything about one machine that decides how long its cold side lasts.
 *
 * @param surroundings the air drawn in
 * @param plastic what is printed
 * @param nozzle set temperature, K
 * @param feed m3/s of filament while printing
 * @param filament the rod
 * @param hotSide block and heater
 * @param neck thin part of the heat break
 * @param shank its part inside the sink, not longer than the sink and thinner than its core
 * @param sink finned body
 * @param fan its fan
 * @param ductLoss pressure-loss coefficient of the duct, on the velocity through the fan's tip circle
 * @param softenedDepthLimit m; how far up the filament may be soft
 */
public record HotEnd(
        Surroundings surroundings,
        Plastic plastic,
        double nozzle,
        double feed,
        Filament filament,
        HotSide hotSide,
        Neck neck,
        Shank shank,
        Sink sink,
        Fan fan,
        double ductLoss,
        double softenedDepthLimit) {
    public HotEnd {
        within("nozzle", nozzle - 273.15, 100, 600, "degC");
        notNegative("feed", feed * 1e9, "mm^3/s");
        within("feed", feed * 1e9, 0, 500, "mm^3/s");
        notNegative("duct loss", ductLoss, "");
        positive("limits softened_depth", softenedDepthLimit * 1e3, "mm");
        if (!(nozzle > surroundings.air())) {
            throw new InputError("nozzle", "nozzle must be hotter than the air around it");
        }
        if (!(surroundings.air() < plastic.softensAt())) {
            throw new InputError(
                    "surroundings.air",
                    "air is %.1f degC but must be below the plastic's softens_at (%.1f degC)"
                            .formatted(surroundings.air() - 273.15, plastic.softensAt() - 273.15));
        }
        if (!(filament.diameter() < neck.bore())) {
            throw new InputError(
                    "filament diameter",
                    "filament diameter is %.3g mm but must be below the bore (%.3g mm)"
                            .formatted(filament.diameter() * 1e3, neck.bore() * 1e3));
        }
        if (!(shank.diameter() > neck.metalInnerDiameter() && shank.diameter() < sink.coreDiameter())) {
            throw new InputError(
                    "shank diameter",
                    "shank diameter is %.3g mm but must lie between the bore (%.3g mm) and the sink's core_diameter (%.3g mm)"
                            .formatted(
                                    shank.diameter() * 1e3,
                                    neck.metalInnerDiameter() * 1e3,
                                    sink.coreDiameter() * 1e3));
        }
        if (!(shank.length() <= sink.length())) {
            throw new InputError(
                    "shank length",
                    "shank length is %.3g mm but must not exceed the sink's length (%.3g mm)"
                            .formatted(shank.length() * 1e3, sink.length() * 1e3));
        }
        if (!(softenedDepthLimit < sink.length())) {
            throw new InputError(
                    "limits.softened_depth",
                    "softened_depth is %.3g mm but must be below the sink's length (%.3g mm)"
                            .formatted(softenedDepthLimit * 1e3, sink.length() * 1e3));
        }
    }

    /** The same machine in other air, K. */
    public HotEnd withAir(double kelvin) {
        return new HotEnd(
                new Surroundings(kelvin, surroundings.pressure()),
                plastic,
                nozzle,
                feed,
                filament,
                hotSide,
                neck,
                shank,
                sink,
                fan,
                ductLoss,
                softenedDepthLimit);
    }

    /** The same machine with another plastic, at another nozzle temperature, K. */
    public HotEnd withPlastic(Plastic other, double otherNozzle) {
        return new HotEnd(
                surroundings,
                other,
                otherNozzle,
                feed,
                filament,
                hotSide,
                neck,
                shank,
                sink,
                fan,
                ductLoss,
                softenedDepthLimit);
    }

    /** The same machine with another heat break. */
    public HotEnd withHeatBreak(Neck otherNeck, Shank otherShank) {
        return new HotEnd(
                surroundings,
                plastic,
                nozzle,
                feed,
                filament,
                hotSide,
                otherNeck,
                otherShank,
                sink,
                fan,
                ductLoss,
                softenedDepthLimit);
    }

    /** The same machine with another sink. */
    public HotEnd withSink(Sink other) {
        return new HotEnd(
                surroundings,
                plastic,
                nozzle,
                feed,
                filament,
                hotSide,
                neck,
                shank,
                other,
                fan,
                ductLoss,
                softenedDepthLimit);
    }

    /** The same machine with another fan. */
    public HotEnd withFan(Fan other) {
        return new HotEnd(
                surroundings,
                plastic,
                nozzle,
                feed,
                filament,
                hotSide,
                neck,
                shank,
                sink,
                other,
                ductLoss,
                softenedDepthLimit);
    }
}
