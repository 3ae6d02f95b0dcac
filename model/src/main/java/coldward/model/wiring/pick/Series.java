package coldward.model.wiring.pick;

import static coldward.quantity.Checks.positive;

import java.util.ArrayList;
import java.util.List;

/** Preferred values of resistors (IEC 60063). */
public enum Series {
    /** 12 in a decade, +-10 %. */
    E12(1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2),
    /** 24 in a decade, +-5 %. */
    E24(
            1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8,
            7.5, 8.2, 9.1);

    // List.of, which cannot be changed
    @SuppressWarnings("ImmutableEnumChecker")
    private final List<Double> decade;

    Series(Double... decade) {
        this.decade = List.of(decade);
    }

    /** The values from 1.0 to below 10. */
    public List<Double> decade() {
        return decade;
    }

    /** All values between two bounds, both allowed, ohm, ascending. */
    public List<Double> between(double lowest, double highest) {
        positive("lowest resistance", lowest, "ohm");
        positive("highest resistance", highest, "ohm");
        List<Double> values = new ArrayList<>();
        for (int power = (int) Math.floor(Math.log10(lowest)); Math.pow(10, power) <= highest; power++) {
            for (double value : decade) {
                // rounded, so that 4.7 x 1000 is 4700 and not beside it
                double ohm = Math.rint(value * 10) * Math.pow(10, power) / 10;
                if (ohm >= lowest && ohm <= highest) {
                    values.add(ohm);
                }
            }
        }
        return values;
    }
}
