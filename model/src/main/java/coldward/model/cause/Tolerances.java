package coldward.model.cause;

import java.util.List;

/**
 * How far each cause's unknowns reach. Common practice, no source, except where a line names one; docs/causes.md repeats
 * the table and a test compares. Uniform between the two bounds where nothing else is said.
 */
public enum Tolerances {
    RAIL("rail against its rated voltage, share, standard deviation", 0.03, 0.03, ""),
    DUTY_SKEW(
            "pulse duty against the sheet's, share of it",
            -0.2,
            0.2,
            "makers' data: half-pulses unequal by 10 to 20 % (published row T-PPR-2)"),
    SPEED_EXPONENT("speed ~ command^x: x", 0.7, 1.15, ""),
    START("command below which the fan does not start, share", 0.1, 0.4, ""),
    LATE_LOOKS("folding: interval over the longest honest one, logarithmic", 1.02, 10, ""),
    CHOP_FREQUENCY(
            "chopping: frequency, Hz, logarithmic",
            10,
            30_000,
            "10 to 100 Hz for three-wire fans (published row T-PWM-1), up to the 28 kHz of control pins (T-INT-2)"),
    CHOP_SHARE("chopping: share of the time on when nobody chose it", 0.3, 0.95, ""),
    LOW_VOLTS("supply too low: share of the rated voltage", 0.4, 0.9, ""),
    LOW_START("supply too low: share of the rated voltage below which the fan stands", 0.35, 0.6, ""),
    BLOCKED_SPEED("air blocked: speed over the free one", 0.95, 1.12, ""),
    BLOCKED_AIR("air blocked: air over the free one", 0.02, 0.5, ""),
    DRAG("bearing drags: speed over the free one", 0.5, 0.94, ""),
    COUPLED("coupling: pulses a second from the motors, logarithmic", 15, 4000, ""),
    COUPLED_TURNING("coupling: probability that the fan turns", 0.6, 0.6, ""),
    STANDS_POWERED("fan stands: probability that it has its supply", 0.5, 0.5, ""),
    STANDS_HELD("fan stands though powered: probability that the rotor is held", 0.8, 0.8, ""),
    MODEL("speeds: share by which physics and person are off, standard deviation", 0.025, 0.025, ""),
    FLOOR("speeds: the same, rpm", 15, 15, ""),
    VOLTMETER("voltages: share, standard deviation", 0.03, 0.03, ""),
    MISJUDGED("choices: probability of a wrong one", 0.05, 0.05, ""),
    STRAY("numbers: probability that one has nothing to do with the matter", 0.02, 0.02, "");

    /** Pulses that fans give, and how often beside those set; 2 usual, 1, 3, 4 and 6 exist (published row T-PPR-3). */
    static final List<double[]> PULSES = List.of(
            new double[] {1, 0.2}, new double[] {2, 0.4}, new double[] {3, 0.1}, new double[] {4, 0.25}, new double[] {
                6, 0.05
            });

    private final String words;
    private final double low;
    private final double high;
    private final String source;

    Tolerances(String words, double low, double high, String source) {
        this.words = words;
        this.low = low;
        this.high = high;
        this.source = source;
    }

    /** What it is. */
    public String words() {
        return words;
    }

    /** The lower bound, or the value itself. */
    public double low() {
        return low;
    }

    /** The upper bound, or the value itself. */
    public double high() {
        return high;
    }

    /** Where it comes from; empty for common practice without a source. */
    public String source() {
        return source;
    }

    /** The value at a share of the way from low to high. */
    double at(double share) {
        return low + share * (high - low);
    }

    /** The same on a logarithmic way. */
    double logarithmic(double share) {
        return low * Math.pow(high / low, share);
    }
}
