package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;

import coldward.quantity.InputError;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A board that feeds the fan, reads it, or both. Grounds of all boards are one node: their minus wires are common.
 *
 * @param name unique; the owner of its contacts
 * @param rails each with its own name
 * @param ports each with its own name
 * @param inputs each with its own name
 * @param ground numbers of the contacts joined to ground
 */
public record Board(String name, List<Rail> rails, List<Port> ports, List<Input> inputs, List<String> ground) {
    public Board {
        notBlank("board name", name);
        rails = List.copyOf(rails);
        ports = List.copyOf(ports);
        inputs = List.copyOf(inputs);
        ground = List.copyOf(ground);
        Set<String> seen = new HashSet<>();
        rails.forEach(r -> once(seen, "rail", r.name()));
        seen.clear();
        ports.forEach(p -> once(seen, "port", p.name()));
        inputs.forEach(i -> once(seen, "input", i.name()));
        for (Port p : ports) {
            known(rails, "port", p.name(), p.rail());
        }
        for (Input i : inputs) {
            known(rails, "input", i.name(), i.rail());
        }
    }

    private static void once(Set<String> seen, String what, String name) {
        if (!seen.add(name)) {
            throw new InputError(what + " name", what + " name is " + name + " but another one has that name already");
        }
    }

    private static void known(List<Rail> rails, String what, String name, String rail) {
        if (rails.stream().noneMatch(r -> r.name().equals(rail))) {
            throw new InputError(
                    what + " rail",
                    "%s rail of %s is %s but the board's rails are %s"
                            .formatted(
                                    what,
                                    name,
                                    rail,
                                    String.join(
                                            ", ", rails.stream().map(Rail::name).toList())));
        }
    }

    /** The rail of this name, if there is one. */
    public Optional<Rail> rail(String name) {
        return rails.stream().filter(r -> r.name().equals(name)).findFirst();
    }

    /**
     * The rail that a port or an input names.
     *
     * @throws InputError if there is none
     */
    public Rail railOf(String name) {
        return rail(name)
                .orElseThrow(() -> new InputError("rail", "rail is " + name + " but board " + this.name + " has none"));
    }
}
