package coldward.model.circuit;

import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Parts and what they join. Every node leaks {@value #LEAK} S to ground, so that a node no current reaches has a level.
 *
 * @param celsius temperature of every part
 * @param elements at least one, with names of their own
 */
public record Netlist(double celsius, List<Element> elements) {

    /** The node that is at 0 V. */
    public static final String GROUND = "ground";

    /** S from each node to ground, and across each junction and stage. */
    public static final double LEAK = 1e-12;

    public Netlist {
        Checks.within("circuit temperature", celsius, -60, 200, "degC");
        elements = List.copyOf(elements);
        if (elements.isEmpty()) {
            throw new InputError("elements", "a circuit has 0 elements but needs at least 1");
        }
        Set<String> names = new HashSet<>();
        for (Element element : elements) {
            if (!names.add(element.name())) {
                throw new InputError("elements", "two elements are named " + element.name() + " but names are unique");
            }
        }
    }
}
