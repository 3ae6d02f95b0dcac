package coldward.model.heat;

import coldward.model.build.HotEnd;
import coldward.model.build.Sink;
import coldward.model.build.Uncertain;
import java.util.Optional;

/**
 * Conductance from sink to air at a relative fan speed and a mean sink temperature:
 * {@code UA = (UA_forced^3 + UA_still^3)^(1/3) + radiation + mount}. Forced air between the fins by Stephan's relation
 * with annular-fin efficiency and the air warming on its way; still air by Churchill and Chu on the enclosing cylinder;
 * radiation {@code eps sigma A (T^4 - Ta^4)/(T - Ta)}. Measured conductances replace all of it:
 * {@code UA = (still^3 + (on^3 - still^3) s^1.5)^(1/3)}.
 */
public final class SinkAir {

    private final HotEnd hotEnd;
    private final Airflow airflow;
    private final double onFactor;
    private final double stillFactor;
    private final Air inlet;
    private final double envelope;
    private final double finArea;
    private final double bareArea;
    private final double tipRadius;
    private double cachedSpeed = Double.NaN;
    private double cachedForced;

    /** For this machine, with the drawn factors on forced and still air. Not for use by several threads at once. */
    public SinkAir(HotEnd hotEnd, Factors factors) {
        this.hotEnd = hotEnd;
        this.airflow = new Airflow(hotEnd);
        this.onFactor = factors.of(Uncertain.SINK_ON);
        this.stillFactor = factors.of(Uncertain.SINK_STILL);
        this.inlet = new Air(hotEnd.surroundings().air(), hotEnd.surroundings().pressure());
        Sink sink = hotEnd.sink();
        double outer = sink.finDiameter();
        this.envelope = Math.PI * outer * sink.length() + Math.PI / 4 * outer * outer;
        this.tipRadius = outer / 2 + sink.finThickness() / 2;
        double root = sink.coreDiameter() / 2;
        this.finArea = sink.fins() * 2 * Math.PI * (tipRadius * tipRadius - root * root);
        this.bareArea = Math.PI * sink.coreDiameter() * (sink.length() - sink.fins() * sink.finThickness());
    }

    /** The fan's operating points on this sink. */
    public Airflow airflow() {
        return airflow;
    }

    /**
     * Conductance of forced air alone, W/K.
     *
     * @param speed share of rated speed, at least 0
     */
    public double forced(double speed) {
        if (speed == cachedSpeed) {
            return cachedForced;
        }
        double ua = onFactor * forcedByAir(airflow.flow(speed));
        cachedSpeed = speed;
        cachedForced = ua;
        return ua;
    }

    private double forcedByAir(double flow) {
        if (flow <= 0) {
            return 0;
        }
        Sink sink = hotEnd.sink();
        double x = airflow.flowLength() / (airflow.hydraulicDiameter() * airflow.reynolds(flow) * inlet.prandtl());
        double h = Correlations.stephanParallelPlates(x, inlet.prandtl())
                * inlet.conductivity()
                / airflow.hydraulicDiameter();
        double efficiency = Correlations.annularFinEfficiency(
                sink.coreDiameter() / 2,
                tipRadius,
                sink.finThickness(),
                sink.material().conductivity(),
                h);
        double ha = h * (efficiency * finArea + bareArea);
        double stream = inlet.density() * hotEnd.fan().throughShare() * flow * Air.SPECIFIC_HEAT;
        return stream * -Math.expm1(-ha / stream);
    }

    /**
     * Conductance of still air alone, W/K, at a mean sink temperature, K; film properties.
     */
    public double still(double sinkTemperature) {
        double air = hotEnd.surroundings().air();
        Air film = new Air(0.5 * (sinkTemperature + air), hotEnd.surroundings().pressure());
        double length = hotEnd.sink().length();
        double nu = film.viscosity() / film.density();
        double diffusivity = film.conductivity() / (film.density() * Air.SPECIFIC_HEAT);
        double rayleigh = Correlations.STANDARD_GRAVITY
                / film.temperature()
                * Math.abs(sinkTemperature - air)
                * length
                * length
                * length
                / (nu * diffusivity);
        double nusselt = Correlations.churchillChuLaminar(rayleigh, film.prandtl());
        return stillFactor * hotEnd.sink().stillAirShare() * nusselt * film.conductivity() / length * envelope;
    }

    /** Conductance of radiation alone, W/K, at a mean sink temperature, K. */
    public double radiation(double sinkTemperature) {
        double air = hotEnd.surroundings().air();
        return stillFactor
                * hotEnd.sink().emissivity()
                * Correlations.STEFAN_BOLTZMANN
                * envelope
                * (sinkTemperature + air)
                * (sinkTemperature * sinkTemperature + air * air);
    }

    /**
     * The whole conductance, W/K.
     *
     * @param speed share of rated speed, at least 0
     * @param sinkTemperature mean over the sink, K
     */
    public double conductance(double speed, double sinkTemperature) {
        Optional<Sink.Measured> measured = hotEnd.sink().measured();
        if (measured.isPresent()) {
            double still = measured.get().still() * stillFactor;
            double on = Math.max(still, measured.get().on() * onFactor);
            return Math.cbrt(cube(still) + (cube(on) - cube(still)) * speed * Math.sqrt(speed));
        }
        return Math.cbrt(cube(forced(speed)) + cube(still(sinkTemperature)))
                + radiation(sinkTemperature)
                + hotEnd.sink().mountConductance();
    }

    private static double cube(double x) {
        return x * x * x;
    }
}
