package coldward.model.circuit;

import coldward.quantity.InputError;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Voltages and currents of a circuit at one moment.
 *
 * @param voltages V of each node to ground, ground itself among them
 * @param currents A through each element from its first node to its second
 */
public record OperatingPoint(Map<String, Double> voltages, Map<String, Double> currents) {
    public OperatingPoint {
        voltages = Collections.unmodifiableMap(new LinkedHashMap<>(voltages));
        currents = Collections.unmodifiableMap(new LinkedHashMap<>(currents));
    }

    /** V of a node to ground. */
    public double voltage(String node) {
        return of(voltages, "node", node);
    }

    /** V of one node above another. */
    public double voltage(String node, String other) {
        return voltage(node) - voltage(other);
    }

    /** A through an element from its first node to its second. */
    public double current(String element) {
        return of(currents, "element", element);
    }

    private static double of(Map<String, Double> map, String kind, String name) {
        Double value = map.get(name);
        if (value == null) {
            throw new InputError(kind, kind + " is " + name + " but must be one of " + map.keySet());
        }
        return value;
    }
}
