package coldward.links.http;

import coldward.model.shop.ReadName;

/** What a value can be at all. Anything outside is a fault of the reading or of the mapping and is not passed on. */
final class Plausible {

    /** Room for the rounding of unit conversions. */
    private static final double ROUNDING = 1e-9;

    private Plausible() {}

    private record Bounds(double low, double high) {}

    private static Bounds bounds(ReadName name) {
        return switch (name) {
            case SPEED -> new Bounds(0, 200_000);
            case AIR, NOZZLE, NOZZLE_TARGET, COLD_SIDE -> new Bounds(-60 + 273.15, 1000 + 273.15);
            case DUTY, WORKING, BLOCK_FAN, POWER -> new Bounds(0, 1);
            case SUPPLY -> new Bounds(0, 100);
            case HEATER_POWER -> new Bounds(0, 10_000);
            case FEED -> new Bounds(0, 1e-6);
            case REPORT -> new Bounds(-Double.MAX_VALUE, Double.MAX_VALUE);
        };
    }

    /** Whether a value, in SI (rpm for speed), can be true. */
    static boolean can(ReadName name, double value) {
        Bounds bounds = bounds(name);
        double room = ROUNDING * Math.max(1, Math.abs(bounds.high()));
        return Double.isFinite(value) && value >= bounds.low() - room && value <= bounds.high() + room;
    }
}
