package coldward.model.heat;

import coldward.quantity.OwnBug;
import java.util.Arrays;

/** A temperature over time: seconds after the failure, rising, and kelvin, of the same length. */
public final class Curve {

    private final double[] seconds;
    private final double[] kelvin;

    /**
     * @param seconds after the failure, rising
     * @param kelvin of the same length
     */
    public Curve(double[] seconds, double[] kelvin) {
        if (seconds.length != kelvin.length || seconds.length == 0) {
            throw new OwnBug("curve of " + seconds.length + " times and " + kelvin.length + " temperatures");
        }
        this.seconds = seconds.clone();
        this.kelvin = kelvin.clone();
    }

    /** The times, s. */
    public double[] seconds() {
        return seconds.clone();
    }

    /** The temperatures, K. */
    public double[] kelvin() {
        return kelvin.clone();
    }

    /** The temperature at a moment, K; linear between points, constant outside. */
    public double at(double moment) {
        int found = Arrays.binarySearch(seconds, moment);
        if (found >= 0) {
            return kelvin[found];
        }
        int after = -found - 1;
        if (after == 0) {
            return kelvin[0];
        }
        if (after == seconds.length) {
            return kelvin[seconds.length - 1];
        }
        double share = (moment - seconds[after - 1]) / (seconds[after] - seconds[after - 1]);
        return kelvin[after - 1] + share * (kelvin[after] - kelvin[after - 1]);
    }
}
