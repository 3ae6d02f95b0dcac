package coldward.model.wiring;

import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * Everything that is known of one printer's fan wiring. What is electrically wrong is no error here: it is for the
 * analysis to find. Refused is only what cannot be meant: a wire to a contact that nobody has, a name given twice.
 *
 * @param coldest K, the lower corner
 * @param hottest K, the upper corner; a heated chamber has its own
 * @param boards at least one
 * @param fan its leads
 * @param parts in between; may be none
 * @param wires may be none
 * @param connectors may be none; a contact in none has the usual contact resistance and no rating
 * @param names of contacts, at most one entry for each
 */
public record Wiring(
        double coldest,
        double hottest,
        List<Board> boards,
        WiredFan fan,
        List<Part> parts,
        List<Wire> wires,
        List<Connector> connectors,
        List<ContactNames> names) {
    public Wiring {
        within("wiring coldest", coldest - 273.15, -60, 150, "degC");
        within("wiring hottest", hottest - 273.15, -60, 150, "degC");
        if (coldest > hottest) {
            throw new InputError(
                    "wiring coldest",
                    "wiring coldest is %.4g degC but must not be above hottest (%.4g degC)"
                            .formatted(coldest - 273.15, hottest - 273.15));
        }
        boards = List.copyOf(boards);
        parts = List.copyOf(parts);
        wires = List.copyOf(wires);
        connectors = List.copyOf(connectors);
        names = List.copyOf(names);
        if (boards.isEmpty()) {
            throw new InputError("wiring boards", "wiring boards are none but at least one must be described");
        }
        Set<String> owners = new HashSet<>(Set.of(WiredFan.OWNER));
        boards.forEach(b -> once(owners, "board name", b.name()));
        parts.forEach(p -> once(owners, "part name", p.name()));
        Set<String> wireNames = new HashSet<>();
        wires.forEach(w -> once(wireNames, "wire name", w.name()));
        Set<String> connectorNames = new HashSet<>();
        connectors.forEach(c -> once(connectorNames, "connector name", c.name()));
        Set<ContactId> contacts = contacts(boards, fan, parts);
        for (Wire w : wires) {
            known(contacts, "wire from", w.from());
            known(contacts, "wire to", w.to());
        }
        Set<ContactId> plugged = new HashSet<>();
        for (Connector c : connectors) {
            for (ContactId contact : c.contacts()) {
                known(contacts, "connector contacts", contact);
                if (!plugged.add(contact)) {
                    throw new InputError(
                            "connector contacts",
                            "connector contacts of %s have %s but another place has it already"
                                    .formatted(c.name(), contact));
                }
            }
        }
        Set<ContactId> named = new HashSet<>();
        for (ContactNames n : names) {
            known(contacts, "names contact", n.contact());
            if (!named.add(n.contact())) {
                throw new InputError(
                        "names contact",
                        "names contact is " + n.contact() + " but it has names already; put them together");
            }
        }
    }

    private static void once(Set<String> seen, String what, String name) {
        if (!seen.add(name)) {
            throw new InputError(what, what + " is " + name + " but that name is taken; each needs its own");
        }
    }

    private static void known(Collection<ContactId> contacts, String what, ContactId contact) {
        if (!contacts.contains(contact)) {
            throw new InputError(
                    what,
                    "%s is %s but no board, part or fan has that contact; %s"
                            .formatted(what, contact, hint(contacts, contact)));
        }
    }

    private static String hint(Collection<ContactId> contacts, ContactId wanted) {
        List<String> near = contacts.stream()
                .filter(c -> c.owner().equals(wanted.owner()))
                .map(ContactId::toString)
                .toList();
        return near.isEmpty()
                ? "there are "
                        + String.join(
                                ", ", contacts.stream().map(ContactId::toString).toList())
                : wanted.owner() + " has " + String.join(", ", near);
    }

    private static Set<ContactId> contacts(List<Board> boards, WiredFan fan, List<Part> parts) {
        Set<ContactId> all = new LinkedHashSet<>();
        for (Board b : boards) {
            uses(b).keySet().forEach(n -> all.add(new ContactId(b.name(), n)));
        }
        all.addAll(fan.contacts());
        parts.forEach(p -> all.addAll(p.contacts()));
        return all;
    }

    private static Map<String, List<Use>> uses(Board b) {
        Map<String, List<Use>> uses = new LinkedHashMap<>();
        for (Port p : b.ports()) {
            use(uses, p.plus(), new Use.PortPlus(b, p));
            use(uses, p.minus(), new Use.PortMinus(b, p));
        }
        b.inputs().forEach(i -> use(uses, i.contact(), new Use.AtInput(b, i)));
        b.rails().forEach(r -> r.contacts().forEach(n -> use(uses, n, new Use.OnRail(b, r))));
        b.ground().forEach(n -> use(uses, n, new Use.Ground(b)));
        return uses;
    }

    private static void use(Map<String, List<Use>> uses, String number, Use use) {
        uses.computeIfAbsent(number, n -> new ArrayList<>()).add(use);
    }

    /** All contacts: boards in their order, fan, parts. */
    public List<ContactId> contacts() {
        return List.copyOf(contacts(boards, fan, parts));
    }

    /** What a contact is for; more than one where it is used twice, none if nobody has it. */
    public List<Use> uses(ContactId contact) {
        if (contact.owner().equals(WiredFan.OWNER)) {
            return fan.contacts().contains(contact) ? List.of(new Use.FanLead(contact)) : List.of();
        }
        List<Use> uses = new ArrayList<>();
        board(contact.owner()).ifPresent(b -> uses.addAll(uses(b).getOrDefault(contact.number(), List.of())));
        part(contact.owner())
                .filter(p -> p.ends().contains(contact.number()))
                .ifPresent(p -> uses.add(new Use.PartEnd(p, contact.number())));
        return uses;
    }

    /** The board of this name, if there is one. */
    public Optional<Board> board(String name) {
        return boards.stream().filter(b -> b.name().equals(name)).findFirst();
    }

    /** The part of this name, if there is one. */
    public Optional<Part> part(String name) {
        return parts.stream().filter(p -> p.name().equals(name)).findFirst();
    }

    /** The wires that end at a contact. */
    public List<Wire> wiresAt(ContactId contact) {
        return wires.stream()
                .filter(w -> w.from().equals(contact) || w.to().equals(contact))
                .toList();
    }

    /** The connector that a contact is in, if any. */
    public Optional<Connector> connectorOf(ContactId contact) {
        return connectors.stream().filter(c -> c.contacts().contains(contact)).findFirst();
    }

    /** Resistance of a contact, ohm: its connector's, else the usual one. */
    public double contactResistance(ContactId contact) {
        return connectorOf(contact).map(Connector::contactResistance).orElse(Connector.USUAL_CONTACT_OHM);
    }

    /** What a contact may carry, A; empty if it is in no described connector. */
    public OptionalDouble contactRating(ContactId contact) {
        return connectorOf(contact).stream()
                .mapToDouble(Connector::ratedCurrent)
                .findFirst();
    }

    /** The names of a contact, if noted. */
    public Optional<ContactNames> namesOf(ContactId contact) {
        return names.stream().filter(n -> n.contact().equals(contact)).findFirst();
    }

    /** The same wiring with other parts and wires: for comparing what a change would do. */
    public Wiring withParts(List<Part> otherParts, List<Wire> otherWires) {
        return new Wiring(coldest, hottest, boards, fan, otherParts, otherWires, connectors, names);
    }
}
