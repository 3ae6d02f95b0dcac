package coldward.model.circuit;

import coldward.quantity.InputError;
import java.util.List;
import java.util.OptionalDouble;

/** Node voltages over time, at the instants a transient was computed for; straight lines between them. */
public final class Trace {

    private final List<String> nodes;
    private final double[] times;
    private final double[][] volts;

    Trace(List<String> nodes, double[] times, double[][] volts) {
        this.nodes = nodes;
        this.times = times;
        this.volts = volts;
    }

    /** Instants, s. */
    public double[] times() {
        return times.clone();
    }

    /** V of a node to ground at an instant between 0 and the end. */
    public double voltage(String node, double t) {
        double[] v = of(node);
        for (int i = 1; i < times.length; i++) {
            if (t <= times[i]) {
                double span = times[i] - times[i - 1];
                return span == 0 ? v[i] : v[i - 1] + (v[i] - v[i - 1]) * (t - times[i - 1]) / span;
            }
        }
        return v[v.length - 1];
    }

    /**
     * When a node first crosses a voltage upwards or downwards.
     *
     * @param node by name
     * @param threshold V to ground
     * @param from s to look from
     * @return s from 0; empty if it never does
     */
    public OptionalDouble crossing(String node, double threshold, double from) {
        double[] v = of(node);
        for (int i = 1; i < times.length; i++) {
            double before = v[i - 1] - threshold;
            double after = v[i] - threshold;
            if (times[i] < from || before == after || before * after > 0 || before == 0) {
                continue;
            }
            double t = times[i - 1] + (times[i] - times[i - 1]) * before / (before - after);
            if (t >= from) {
                return OptionalDouble.of(t);
            }
        }
        return OptionalDouble.empty();
    }

    private double[] of(String node) {
        int i = nodes.indexOf(node);
        if (i < 0) {
            throw new InputError("node", "node is " + node + " but must be one of " + nodes);
        }
        return volts[i];
    }
}
