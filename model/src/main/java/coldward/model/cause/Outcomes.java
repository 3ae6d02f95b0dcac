package coldward.model.cause;

import coldward.model.build.Reading.PeriodTimer;
import java.util.Arrays;

/** How likely a value is beside a prediction, and predictions gathered into bins for comparing causes. */
final class Outcomes {

    /** Numbers: one bin up to the floor, then bins of equal ratio. */
    private static final int BINS = 240;

    private static final double RATIO = 1.05;

    /** A stray number may lie anywhere up to so many times the rated one. */
    private static final double STRAY_UP_TO = 4;

    private final Expected expected;
    private final double floor;

    Outcomes(Expected expected) {
        this.expected = expected;
        double step = expected.reading().counter() instanceof PeriodTimer
                ? 0
                : 60 / (expected.reading().pulsesPerTurn() * expected.reading().reportInterval());
        // a count is cut to whole pulses: uniform over one step
        this.floor = Math.hypot(Tolerances.FLOOR.low(), step / Math.sqrt(12));
    }

    /** Log of the probability (choices) or density (numbers) of a value. */
    double logLikelihood(Look look, double predicted, double value) {
        if (!look.choices().isEmpty()) {
            double wrong = Tolerances.MISJUDGED.low();
            return Math.log(
                    predicted == value ? 1 - wrong : wrong / (look.choices().size() - 1));
        }
        double sigma = sigma(look, predicted);
        double off = (value - predicted) / sigma;
        double near = Math.exp(-off * off / 2) / (sigma * Math.sqrt(2 * Math.PI));
        double full = STRAY_UP_TO * (look == Look.SUPPLY ? expected.ratedVolts() : expected.ratedRpm());
        double stray = Tolerances.STRAY.low();
        return Math.log((1 - stray) * near + stray / Math.max(full, value));
    }

    private double sigma(Look look, double predicted) {
        return look == Look.SUPPLY
                ? Math.hypot(Tolerances.VOLTMETER.low() * predicted, 0.01 * expected.ratedVolts())
                : Math.hypot(Tolerances.MODEL.low() * predicted, floor);
    }

    /** Probabilities of a look's outcomes, given predictions and their weights (adding up to 1). */
    double[] spread(Look look, double[] predicted, double[] weights) {
        int choices = look.choices().size();
        if (choices > 0) {
            double[] bins = new double[choices];
            double wrong = Tolerances.MISJUDGED.low();
            Arrays.fill(bins, wrong / (choices - 1));
            for (int i = 0; i < predicted.length; i++) {
                bins[(int) predicted[i]] += weights[i] * (1 - wrong - wrong / (choices - 1));
            }
            return bins;
        }
        double[] bins = new double[BINS];
        double stray = Tolerances.STRAY.low();
        Arrays.fill(bins, stray / BINS);
        for (int i = 0; i < predicted.length; i++) {
            if (weights[i] > 0) {
                int bin = bin(look, predicted[i]);
                double weight = weights[i] * (1 - stray);
                // about one bin of spread, as the model's own
                if (bin == 0) {
                    bins[0] += weight;
                } else {
                    bins[bin] += weight / 2;
                    bins[Math.max(1, bin - 1)] += weight / 4;
                    bins[Math.min(BINS - 1, bin + 1)] += weight / 4;
                }
            }
        }
        return bins;
    }

    private int bin(Look look, double value) {
        double least = look == Look.SUPPLY ? 0.02 * expected.ratedVolts() : 2 * floor;
        return value < least ? 0 : (int) Math.min(BINS - 1, 1 + Math.log(value / least) / Math.log(RATIO));
    }
}
