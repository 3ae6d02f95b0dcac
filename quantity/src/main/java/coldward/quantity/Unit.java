package coldward.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;

/**
 * One way of writing a dimension: base = (x + shift) * numerator / denominator, or the same with 1/x where the unit is
 * the reciprocal of the base unit. The factor is kept as an exact fraction so that 2.1 mm is the double nearest to
 * 0.0021 m.
 *
 * @param text as it stands behind a number; the first is the one shown
 * @param alsoWritten other spellings accepted
 * @param numerator of the factor, above 0
 * @param denominator of the factor, above 0
 * @param shift added to the number before scaling; not 0 for scales of temperature only
 * @param form how the number enters
 */
public record Unit(
        String text,
        List<String> alsoWritten,
        BigDecimal numerator,
        BigDecimal denominator,
        BigDecimal shift,
        Form form) {

    private static final MathContext PRECISION = new MathContext(40);

    /** ASTM B258: gauge 36 is 0.127 mm, and 39 steps further, gauge -3 (0000), is 92 times as thick. */
    private static final double ASTM_B258_GAUGE_36_M = 0.127e-3;

    private static final double ASTM_B258_RATIO = 92;
    private static final double ASTM_B258_STEPS = 39;

    /** How the number enters the value. */
    public enum Form {
        /** Proportional to the value, but for a shift. */
        LINEAR,
        /** The reciprocal: a resistance where a conductance is wanted. */
        RECIPROCAL,
        /** American wire gauge n, ASTM B258: d = 0.127 mm x 92^((36-n)/39). */
        GAUGE
    }

    public Unit {
        alsoWritten = List.copyOf(alsoWritten);
    }

    static Unit of(String text, String numerator, String denominator, String... alsoWritten) {
        return new Unit(
                text,
                List.of(alsoWritten),
                new BigDecimal(numerator),
                new BigDecimal(denominator),
                BigDecimal.ZERO,
                Form.LINEAR);
    }

    Unit shifted(String by) {
        return new Unit(text, alsoWritten, numerator, denominator, new BigDecimal(by), form);
    }

    Unit as(Form other) {
        return new Unit(text, alsoWritten, numerator, denominator, shift, other);
    }

    /** True if the text names this unit. */
    boolean isWritten(String candidate) {
        return text.equals(candidate) || alsoWritten.contains(candidate);
    }

    /** True if a value is scale times the number plus offset. */
    public boolean isLinear() {
        return form == Form.LINEAR;
    }

    /** What the number is multiplied by, giving the base unit; meaningful for linear units. */
    public double scale() {
        return numerator.divide(denominator, PRECISION).doubleValue();
    }

    /** What is added after scaling, base unit; meaningful for linear units. */
    public double offset() {
        return shift.multiply(numerator).divide(denominator, PRECISION).doubleValue();
    }

    /** The value of a number in this unit, in the base unit; may be infinite if the number is out of reach. */
    double toBase(BigDecimal number) {
        return switch (form) {
            case LINEAR ->
                number.add(shift)
                        .multiply(numerator)
                        .divide(denominator, PRECISION)
                        .doubleValue();
            case RECIPROCAL ->
                number.signum() == 0
                        ? Double.POSITIVE_INFINITY
                        : numerator
                                .divide(denominator.multiply(number), PRECISION)
                                .doubleValue();
            case GAUGE ->
                ASTM_B258_GAUGE_36_M * Math.pow(ASTM_B258_RATIO, (36 - number.doubleValue()) / ASTM_B258_STEPS);
        };
    }

    /** The number that stands before this unit for a value in the base unit; linear units only. */
    BigDecimal fromBase(double base) {
        return new BigDecimal(base)
                .multiply(denominator)
                .divide(numerator, PRECISION)
                .subtract(shift);
    }
}
