package coldward.model.heat;

import coldward.model.build.Uncertain;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * One draw of the uncertain inputs: factors, and for the normal ones something added in kelvin.
 *
 * @param values complete; 1 or 0 K where nothing is changed
 */
public record Factors(Map<Uncertain, Double> values) {

    /** Nothing changed. */
    public static final Factors NONE = new Factors(Map.of());

    public Factors {
        EnumMap<Uncertain, Double> complete = new EnumMap<>(Uncertain.class);
        for (Uncertain input : Uncertain.values()) {
            double neutral = input.law() == Uncertain.Law.LOG_NORMAL ? 1 : 0;
            complete.put(input, values.getOrDefault(input, neutral));
        }
        values = Collections.unmodifiableMap(complete);
    }

    /** The factor, or what is added, of one input. */
    public double of(Uncertain input) {
        Double value = values.get(input);
        if (value == null) {
            throw new coldward.quantity.OwnBug("no factor for " + input);
        }
        return value;
    }
}
