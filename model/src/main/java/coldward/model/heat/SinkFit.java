package coldward.model.heat;

import static coldward.quantity.Checks.within;

import coldward.model.build.HotEnd;
import coldward.model.build.Sink;
import coldward.quantity.InputError;
import coldward.quantity.NumericalFailure;
import java.util.Arrays;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;

/**
 * Fits the sink's two conductances to readings of its temperature: hot and standing with the fan on, then at moments
 * after the heater was switched off and the fan unplugged together. Least squares on the whole heat model (Levenberg and
 * Marquardt) over the logarithms of {@code still} and {@code on - still}; intervals from the residual's deviation, but
 * not less than the thermometer's, times the normal 97.5 % quantile (NIST/SEMATECH handbook 4.4.3).
 */
public final class SinkFit {

    /** Standard deviation of a contact thermometer's reading, K; common practice, no source. */
    public static final double THERMOMETER = 1.0;

    private static final double NORMAL_97_5 = 1.959963984540054;
    private static final double STEP = 0.02;
    private static final double SMALLEST = 1e-3;
    private static final double LARGEST = 20;
    private static final int FEWEST_LATER = 3;

    private SinkFit() {}

    /**
     * What was read.
     */
    public static final class Readings {
        private final double hot;
        private final double[] seconds;
        private final double[] kelvin;

        /**
         * @param hot sink with the nozzle at its set-point, no feed, the fan on, nothing changing any more, K
         * @param seconds moments after heater off and fan unplugged, rising, at least 3, at most 3600
         * @param kelvin sink at those moments
         */
        public Readings(double hot, double[] seconds, double[] kelvin) {
            within("sink temperature with the fan on", hot - 273.15, -20, 200, "degC");
            if (seconds.length != kelvin.length || seconds.length < FEWEST_LATER) {
                throw new InputError(
                        "readings",
                        "%d readings after the fan was unplugged, but at least %d are needed"
                                .formatted(kelvin.length, FEWEST_LATER));
            }
            for (int i = 0; i < seconds.length; i++) {
                within("moment of a reading", seconds[i], 0, 3600, "s");
                within("sink temperature", kelvin[i] - 273.15, -20, 250, "degC");
                if (i > 0 && !(seconds[i] > seconds[i - 1])) {
                    throw new InputError("readings", "the moments of the readings must rise");
                }
            }
            this.hot = hot;
            this.seconds = seconds.clone();
            this.kelvin = kelvin.clone();
        }
    }

    /**
     * What was found.
     *
     * @param on W/K with the fan on
     * @param onLow lower end of the 95 % interval
     * @param onHigh upper end
     * @param still W/K in still air
     * @param stillLow lower end
     * @param stillHigh upper end
     * @param residual root mean square of reading minus model, K
     * @param evaluations of the model
     */
    public record Fit(
            double on,
            double onLow,
            double onHigh,
            double still,
            double stillLow,
            double stillHigh,
            double residual,
            int evaluations) {}

    /**
     * Fits.
     *
     * @throws InputError if the readings cannot be of a fan that cools: hot not above the air, or no rise after unplugging
     * @throws NumericalFailure if no pair of conductances is found
     */
    public static Fit fit(HotEnd hotEnd, Readings readings) {
        double air = hotEnd.surroundings().air();
        if (!(readings.hot > air + 0.5)) {
            throw new InputError(
                    "readings",
                    "the sink reads %.1f degC with the fan on but the air is %.1f degC: it must be warmer than the air to tell anything"
                            .formatted(readings.hot - 273.15, air - 273.15));
        }
        if (!(Arrays.stream(readings.kelvin).max().orElse(0) > readings.hot)) {
            throw new InputError(
                    "readings",
                    "the sink never gets warmer than the %.1f degC it had with the fan on: was the fan unplugged?"
                            .formatted(readings.hot - 273.15));
        }
        double warmest = Arrays.stream(predict(hotEnd, readings, new double[] {Math.log(SMALLEST), Math.log(0.25)}))
                .max()
                .orElse(0);
        double read = Arrays.stream(readings.kelvin).max().orElse(0);
        if (read > warmest) {
            throw new InputError(
                    "readings",
                    ("the sink reads up to %.1f degC, but this sheet's block and neck could warm it to %.1f degC at most, even if"
                                    + " it lost nothing to the air: check the neck, the block's heat capacity and the nozzle"
                                    + " temperature on the sheet, or the thermometer")
                            .formatted(read - 273.15, warmest - 273.15));
        }
        double[] observed = new double[readings.kelvin.length + 1];
        observed[0] = readings.hot;
        System.arraycopy(readings.kelvin, 0, observed, 1, readings.kelvin.length);
        int[] evaluations = {0};
        MultivariateJacobianFunction model = point -> {
            double[] p = point.toArray();
            double[] here = predict(hotEnd, readings, p);
            RealMatrix slopes = new Array2DRowRealMatrix(here.length, p.length);
            for (int k = 0; k < p.length; k++) {
                double[] moved = p.clone();
                moved[k] += STEP;
                double[] up = predict(hotEnd, readings, moved);
                moved[k] -= 2 * STEP;
                double[] down = predict(hotEnd, readings, moved);
                for (int i = 0; i < here.length; i++) {
                    slopes.setEntry(i, k, (up[i] - down[i]) / (2 * STEP));
                }
            }
            evaluations[0] += 2 * p.length + 1;
            return new Pair<>((RealVector) new ArrayRealVector(here, false), slopes);
        };
        // a first guess from the model's own still air and the reading with the fan on
        double[] start = {Math.log(0.05), Math.log(0.25)};
        try {
            LeastSquaresOptimizer.Optimum optimum = new LevenbergMarquardtOptimizer()
                    .optimize(new LeastSquaresBuilder()
                            .start(start)
                            .model(model)
                            .target(observed)
                            .maxEvaluations(200)
                            .maxIterations(100)
                            .lazyEvaluation(false)
                            .build());
            double[] p = optimum.getPoint().toArray();
            double still = Math.exp(p[0]);
            double extra = Math.exp(p[1]);
            int freedom = observed.length - 2;
            double rms = optimum.getRMS();
            double deviation = Math.max(THERMOMETER, rms * Math.sqrt(observed.length / (double) freedom));
            RealMatrix covariance = optimum.getCovariances(1e-12);
            double stillSigma = deviation * Math.sqrt(covariance.getEntry(0, 0));
            // on = still + extra: error propagation with the covariance of the logarithms
            double variance = still * still * covariance.getEntry(0, 0)
                    + extra * extra * covariance.getEntry(1, 1)
                    + 2 * still * extra * covariance.getEntry(0, 1);
            double on = still + extra;
            double onSigma = deviation * Math.sqrt(Math.max(0, variance)) / on;
            return new Fit(
                    on,
                    on * Math.exp(-NORMAL_97_5 * onSigma),
                    on * Math.exp(NORMAL_97_5 * onSigma),
                    still,
                    still * Math.exp(-NORMAL_97_5 * stillSigma),
                    still * Math.exp(NORMAL_97_5 * stillSigma),
                    rms,
                    evaluations[0]);
        } catch (MathRuntimeException e) {
            throw new NumericalFailure(
                    ("no pair of conductances fits the readings after %d evaluations (%s): the sink reads up to %.1f degC; this"
                                    + " sheet's block and neck could warm it to %.1f degC if it lost nothing to the air, and the"
                                    + " closer the two, the less can be told. Check the neck, the block's heat capacity and the"
                                    + " nozzle temperature on the sheet, or the thermometer")
                            .formatted(evaluations[0], e.getMessage(), read - 273.15, warmest - 273.15));
        }
    }

    private static double[] predict(HotEnd hotEnd, Readings readings, double[] p) {
        double still = Math.clamp(Math.exp(p[0]), SMALLEST, LARGEST);
        double on = still + Math.clamp(Math.exp(p[1]), SMALLEST, LARGEST);
        Sink measured = hotEnd.sink().withMeasured(new Sink.Measured(on, still));
        Transient heat = new Transient(
                new Network(hotEnd.withSink(measured), Factors.NONE, 1),
                new FanFailure.Stop(hotEnd.fan().coastDown()),
                HeatSettings.USUAL);
        double[] steady = heat.steady(1, 0);
        double[] predicted = new double[readings.seconds.length + 1];
        predicted[0] = heat.system.sinkMean(steady);
        Transient.Doing off = new Transient.Doing(0, true, false, false);
        Transient.Moment moment = new Transient.Moment(0, steady);
        for (int i = 0; i < readings.seconds.length; i++) {
            if (readings.seconds[i] > moment.time()) {
                moment = heat.run(moment, readings.seconds[i], off, (t, y) -> true);
            }
            predicted[i + 1] = heat.system.sinkMean(moment.state());
        }
        return predicted;
    }
}
