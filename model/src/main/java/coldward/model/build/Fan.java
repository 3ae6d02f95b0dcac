package coldward.model.build;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.List;

/**
 * The cold side's fan.
 *
 * @param ratedVoltage V
 * @param ratedSpeed rpm at rated voltage in free air
 * @param speedTolerance share of the rated speed, one-sided
 * @param curve pressure against flow at rated speed and air of 1.2 kg/m3
 * @param tipDiameter m over the blades' tips
 * @param hubDiameter m of the hub, below {@code tipDiameter}
 * @param throughShare share of the fan's air that goes between the fins, 0 to 1
 * @param coastDown s for the speed to fall to half after the supply is cut; 0 for a blocked rotor
 * @param runsAbove K; the fan must turn while the nozzle is hotter than this
 */
public record Fan(
        double ratedVoltage,
        double ratedSpeed,
        double speedTolerance,
        Curve curve,
        double tipDiameter,
        double hubDiameter,
        double throughShare,
        double coastDown,
        double runsAbove) {

    /** Pressure against flow. */
    public sealed interface Curve permits Straight, Points {

        /**
         * The same fan's curve at another speed by the fan laws, {@code Q ~ n}, {@code p ~ n^2} (ISO 5801).
         *
         * @param ratio new speed over old, above 0
         */
        Curve atSpeed(double ratio);
    }

    /**
     * A straight line between the two figures every data sheet gives.
     *
     * @param freeFlow m3/s at no pressure
     * @param shutoffPressure Pa at no flow
     */
    public record Straight(double freeFlow, double shutoffPressure) implements Curve {
        public Straight {
            positive("fan free_flow", freeFlow * 1e3, "l/s");
            positive("fan shutoff_pressure", shutoffPressure, "Pa");
        }

        @Override
        public Straight atSpeed(double ratio) {
            positive("speed ratio", ratio, "");
            return new Straight(freeFlow * ratio, shutoffPressure * ratio * ratio);
        }
    }

    /**
     * Measured points, joined by straight lines, pressure falling while flow rises, ending at no pressure.
     *
     * @param points at least two
     * @param withDuct true if they were measured with the duct on: hub loss is then part of the curve
     */
    public record Points(List<Point> points, boolean withDuct) implements Curve {

        /**
         * One measured point.
         *
         * @param flow m3/s
         * @param pressure Pa
         */
        public record Point(double flow, double pressure) {
            public Point {
                notNegative("fan curve flow", flow * 1e3, "l/s");
                notNegative("fan curve pressure", pressure, "Pa");
            }
        }

        public Points {
            points = List.copyOf(points);
            if (points.size() < 2) {
                throw new InputError("fan curve", "fan curve has fewer than 2 points but needs at least 2");
            }
            if (points.getFirst().flow() != 0 || points.getLast().pressure() != 0) {
                throw new InputError("fan curve", "fan curve must begin at flow 0 and end at pressure 0");
            }
            for (int i = 1; i < points.size(); i++) {
                if (!(points.get(i).flow() > points.get(i - 1).flow()
                        && points.get(i).pressure() < points.get(i - 1).pressure())) {
                    throw new InputError(
                            "fan curve",
                            "fan curve must have rising flow and falling pressure; point " + (i + 1) + " does not");
                }
            }
        }

        @Override
        public Points atSpeed(double ratio) {
            positive("speed ratio", ratio, "");
            return new Points(
                    points.stream()
                            .map(p -> new Point(p.flow() * ratio, p.pressure() * ratio * ratio))
                            .toList(),
                    withDuct);
        }
    }

    public Fan {
        positive("fan rated_voltage", ratedVoltage, "V");
        within("fan rated_speed", ratedSpeed, 100, 100_000, "rpm");
        within("fan speed_tolerance", speedTolerance, 0, 0.5, "");
        positive("fan tip_diameter", tipDiameter * 1e3, "mm");
        notNegative("fan hub_diameter", hubDiameter * 1e3, "mm");
        if (!(hubDiameter < tipDiameter)) {
            throw new InputError(
                    "fan hub_diameter",
                    "fan hub_diameter is %.3g mm but must be below tip_diameter (%.3g mm)"
                            .formatted(hubDiameter * 1e3, tipDiameter * 1e3));
        }
        within("fan through_share", throughShare, 0.01, 1, "");
        within("fan coast_down", coastDown, 0, 60, "s");
        within("fan runs_above", runsAbove - 273.15, 0, 150, "degC");
    }
}
