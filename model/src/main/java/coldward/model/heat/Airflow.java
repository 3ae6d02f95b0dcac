package coldward.model.heat;

import coldward.model.build.Fan;
import coldward.model.build.HotEnd;
import coldward.model.build.Sink;
import java.util.List;

/**
 * Where the fan's curve meets the resistance of fins, hub and duct. At relative speed s the curve is {@code p = p0 s^2
 * (rho/1.2)(1 - Q/(Q0 s))} (fan laws, ISO 5801); the resistance is {@code a Q + b Q^2}: laminar friction between the
 * fins (parallel plates, Fanning f Re = 24), entry and exit with the developing profile (1.5 + 0.674 velocity heads;
 * Shah and London 1978), Borda-Carnot behind the hub, the duct's own coefficient. The meeting point is the root of a
 * quadratic, exact.
 */
public final class Airflow {

    private static final double ENTRY_AND_EXIT_HEADS = 1.5 + 0.674;
    private static final double FANNING_F_RE = 24;
    /** Above it the flow between plates is no longer laminar (common practice). */
    private static final double LAMINAR_UP_TO_RE = 2300;
    /** Below this {@code L/(Dh Re)} the friction term underestimates the developing part. */
    private static final double DEVELOPED_FROM = 0.005;

    private final Fan fan;
    private final double densityRatio;
    private final double linear;
    private final double quadratic;
    private final double channelArea;
    private final double hydraulicDiameter;
    private final double flowLength;
    private final double kinematicViscosity;

    /** Resistance and curve of this machine, with the air's properties at the temperature drawn in. */
    public Airflow(HotEnd hotEnd) {
        this.fan = hotEnd.fan();
        Sink sink = hotEnd.sink();
        Air air = new Air(hotEnd.surroundings().air(), hotEnd.surroundings().pressure());
        double density = air.density();
        this.densityRatio = density / Air.FAN_STANDARD_DENSITY;
        this.kinematicViscosity = air.viscosity() / density;
        this.channelArea = sink.fins() * sink.gap() * (sink.finDiameter() - sink.coreDiameter());
        this.hydraulicDiameter = 2 * sink.gap();
        this.flowLength = Math.PI * sink.finDiameter() / 4;
        double share = fan.throughShare() / channelArea;
        double tip = Math.PI / 4 * fan.tipDiameter() * fan.tipDiameter();
        double annulus = tip - Math.PI / 4 * fan.hubDiameter() * fan.hubDiameter();
        boolean hubInCurve = fan.curve() instanceof Fan.Points points && points.withDuct();
        double hub = hubInCurve ? 0 : Correlations.bordaCarnot(annulus / tip) / (annulus * annulus);
        double duct = hubInCurve ? 0 : hotEnd.ductLoss() / (tip * tip);
        this.linear =
                0.5 * 4 * FANNING_F_RE * air.viscosity() * flowLength / (hydraulicDiameter * hydraulicDiameter) * share;
        this.quadratic = 0.5 * density * (ENTRY_AND_EXIT_HEADS * share * share + hub + duct);
    }

    /** Pressure lost at a flow, Pa, for the whole fan's flow Q, m3/s. */
    public double resistance(double flow) {
        return (linear + quadratic * flow) * flow;
    }

    /**
     * The fan's flow at a relative speed, m3/s.
     *
     * @param speed share of rated speed, at least 0
     */
    public double flow(double speed) {
        if (speed <= 0) {
            return 0;
        }
        return switch (fan.curve()) {
            case Fan.Straight line -> meet(0, line.shutoffPressure(), line.freeFlow(), 0, speed);
            case Fan.Points points -> onPoints(points.points(), speed);
        };
    }

    private double onPoints(List<Fan.Points.Point> points, double speed) {
        for (int i = 1; i < points.size(); i++) {
            Fan.Points.Point to = points.get(i);
            if (i == points.size() - 1 || pressure(to.pressure(), speed) <= resistance(to.flow() * speed)) {
                Fan.Points.Point from = points.get(i - 1);
                return meet(from.flow(), from.pressure(), to.flow(), to.pressure(), speed);
            }
        }
        throw new coldward.quantity.OwnBug("fan curve without segments");
    }

    private double pressure(double rated, double speed) {
        return rated * speed * speed * densityRatio;
    }

    private double meet(double q1, double p1, double q2, double p2, double speed) {
        double slope = (pressure(p1, speed) - pressure(p2, speed)) / ((q2 - q1) * speed);
        double atZero = pressure(p1, speed) + slope * q1 * speed;
        double b = linear + slope;
        // the stable form of the positive root: no cancellation where the quadratic part is small
        return 2 * atZero / (b + Math.sqrt(b * b + 4 * quadratic * atZero));
    }

    /** Velocity between the fins at a fan flow, m/s. */
    public double channelVelocity(double flow) {
        return fan.throughShare() * flow / channelArea;
    }

    /** Reynolds number between the fins, on the hydraulic diameter. */
    public double reynolds(double flow) {
        return channelVelocity(flow) * hydraulicDiameter / kinematicViscosity;
    }

    /** Twice the gap between the fins, m. */
    public double hydraulicDiameter() {
        return hydraulicDiameter;
    }

    /** Mean path through the fins, m: {@code pi Df/4}. */
    public double flowLength() {
        return flowLength;
    }

    /** What to tell about the range of validity at rated speed; empty if nothing. */
    public List<String> warnings() {
        double flow = flow(1);
        double re = reynolds(flow);
        if (re > LAMINAR_UP_TO_RE) {
            return List.of(
                    ("air between the fins is turbulent (Re %.0f above %.0f): the laminar relations underestimate"
                                    + " both drag and cooling")
                            .formatted(re, LAMINAR_UP_TO_RE));
        }
        if (flowLength / (hydraulicDiameter * re) < DEVELOPED_FROM) {
            return List.of(("air between the fins is barely developed (L/(Dh Re) %.4f below %.3f): the drag is"
                            + " underestimated")
                    .formatted(flowLength / (hydraulicDiameter * re), DEVELOPED_FROM));
        }
        return List.of();
    }
}
