package coldward.model.cause;

import coldward.model.build.Reading.PeriodTimer;

/** How likely a value is beside a prediction, and predictions gathered into bins for comparing causes. */
final class Outcomes {

    /** Numbers: one bin up to the floor, then bins of equal ratio. */
    private static final int BINS = 240;

    private static final double RATIO = 1.05;

    /** A stray number may lie anywhere up to so many times the rated one. */
    private static final double STRAY_UP_TO = 4;

    /** Beyond this square of standard deviations a value is as good as impossible. */
    private static final double NOWHERE = 100;

    /** A voltmeter's last digit, share of the rated voltage. */
    private static final double LEAST_VOLTS = 0.01;

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

    /**
     * Multiplies what each world has so far by the likelihood of a value: a probability (choices), or a density times the
     * rated number, which keeps products of many within the reach of doubles.
     */
    void weigh(double[] so, Look look, double[] predicted, double value) {
        if (!look.choices().isEmpty()) {
            double wrong = Tolerances.MISJUDGED.low() / (look.choices().size() - 1);
            for (int i = 0; i < so.length; i++) {
                so[i] *= predicted[i] == value ? 1 - Tolerances.MISJUDGED.low() : wrong;
            }
            return;
        }
        double scale = look == Look.SUPPLY ? expected.ratedVolts() : expected.ratedRpm();
        double relative = look == Look.SUPPLY ? Tolerances.VOLTMETER.low() : Tolerances.MODEL.low();
        double least = look == Look.SUPPLY ? LEAST_VOLTS * scale : floor;
        double stray = Tolerances.STRAY.low();
        double far = stray * scale / Math.max(STRAY_UP_TO * scale, value);
        double peak = (1 - stray) * scale / Math.sqrt(2 * Math.PI);
        for (int i = 0; i < so.length; i++) {
            double variance = relative * relative * predicted[i] * predicted[i] + least * least;
            double off = value - predicted[i];
            double square = off * off / variance;
            so[i] *= far + (square > NOWHERE ? 0 : peak * Math.exp(-square / 2) / Math.sqrt(variance));
        }
    }

    /** How many outcomes a look can have once gathered. */
    static int bins(Look look) {
        return look.choices().isEmpty() ? BINS : look.choices().size();
    }

    /** The bin of each prediction. */
    int[] bins(Look look, double[] predicted) {
        int[] bins = new int[predicted.length];
        for (int i = 0; i < bins.length; i++) {
            bins[i] = look.choices().isEmpty() ? bin(look, predicted[i]) : (int) predicted[i];
        }
        return bins;
    }

    /** Probabilities of a look's outcomes, given the predictions' bins; of those that are live, the weights (sum 1). */
    static double[] spread(Look look, int[] bins, int[] live, double[] weights) {
        double[] sharp = new double[bins(look)];
        for (int i = 0; i < live.length; i++) {
            sharp[bins[live[i]]] += weights[i];
        }
        int last = sharp.length - 1;
        double[] spread = new double[sharp.length];
        if (!look.choices().isEmpty()) {
            double wrong = Tolerances.MISJUDGED.low() / last;
            for (int i = 0; i <= last; i++) {
                spread[i] = wrong + sharp[i] * (1 - Tolerances.MISJUDGED.low() - wrong);
            }
            return spread;
        }
        double stray = Tolerances.STRAY.low();
        for (int i = 0; i <= last; i++) {
            double weight = sharp[i] * (1 - stray);
            spread[i] += stray / sharp.length;
            if (i == 0) {
                spread[0] += weight;
            } else {
                // about one bin of spread, as the model's own
                spread[i] += weight / 2;
                spread[Math.max(1, i - 1)] += weight / 4;
                spread[Math.min(last, i + 1)] += weight / 4;
            }
        }
        return spread;
    }

    private int bin(Look look, double value) {
        double least = look == Look.SUPPLY ? 2 * LEAST_VOLTS * expected.ratedVolts() : 2 * floor;
        return value < least ? 0 : (int) Math.min(BINS - 1, 1 + Math.log(value / least) / Math.log(RATIO));
    }
}
