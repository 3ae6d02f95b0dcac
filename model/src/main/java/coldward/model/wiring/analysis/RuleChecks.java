package coldward.model.wiring.analysis;

import static coldward.quantity.Checks.number;

import coldward.model.wiring.Board;
import coldward.model.wiring.Connector;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.ContactNames;
import coldward.model.wiring.Port;
import coldward.model.wiring.Use;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.WiredFan.Leads;
import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.Wiring;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** What needs no circuit: contacts, names, free inputs, chopping. */
final class RuleChecks {

    private final Wiring wiring;
    private final FindingList findings;

    RuleChecks(Wiring wiring, FindingList findings) {
        this.wiring = wiring;
        this.findings = findings;
    }

    void check(List<Signal> signals) {
        wiring.contacts().forEach(this::once);
        wiring.names().forEach(this::names);
        signals.forEach(this::free);
        connected();
        chopping();
    }

    private void once(ContactId contact) {
        List<Use> uses = wiring.uses(contact);
        List<Wire> wires = wiring.wiresAt(contact);
        boolean crimped = wiring.connectorOf(contact).isPresent();
        if (uses.size() > 1 || (crimped && wires.size() > 1)) {
            boolean twoUses = uses.size() > 1;
            findings.add(
                    FindingCode.CONTACT_USED_TWICE,
                    contact.toString(),
                    twoUses ? uses.size() : wires.size(),
                    1,
                    "",
                    "",
                    twoUses
                            ? "one contact is described as "
                                    + String.join(
                                            " and as ",
                                            uses.stream().map(Use::words).toList()) + ": both act on the same wire"
                            : "two wires in one crimp contact work loose, and one of them may be meant for its neighbour",
                    twoUses
                            ? "measure which it is, and describe the other on its own contact"
                            : "one wire to each contact; join wires at a part or a terminal instead");
        }
    }

    private void names(ContactNames names) {
        boolean wrong = names.settledBy().isPresent()
                && wiring.uses(names.contact()).stream()
                        .noneMatch(u -> same(u, names.settledBy().get().found()));
        if (wrong) {
            findings.add(
                    FindingCode.NAMES_DISAGREE,
                    names.contact().toString(),
                    "the bench test found " + names.settledBy().get().found() + " here, the description says "
                            + String.join(
                                    ", ",
                                    wiring.uses(names.contact()).stream()
                                            .map(Use::words)
                                            .toList()),
                    "believe the measurement: correct the description, or measure again");
        } else if (!names.agree()) {
            String given = String.join(", ", names.given());
            if (names.settledBy().isEmpty()) {
                findings.add(
                        FindingCode.NAMES_DISAGREE,
                        names.contact().toString(),
                        "board, drawing and settings call it " + given
                                + ": one of them is wrong, or they count differently",
                        "unplug, buzz it out or switch it port by port, and note what was found");
            } else {
                findings.add(
                        FindingCode.NAMES_SETTLED,
                        names.contact().toString(),
                        "it is called " + given + "; settled by: "
                                + names.settledBy().get().test(),
                        "nothing, until the board or the settings change");
            }
        }
    }

    private static boolean same(Use use, String found) {
        String name = switch (use) {
            case Use.Ground _ -> "ground";
            case Use.OnRail r -> r.rail().name();
            case Use.PortPlus p -> p.port().name();
            case Use.PortMinus p -> p.port().name();
            case Use.AtInput i -> i.input().name();
            case Use.FanLead f -> f.lead().number();
            case Use.PartEnd e -> e.end();
        };
        String said = found.toLowerCase(Locale.ROOT);
        return said.contains(name.toLowerCase(Locale.ROOT))
                || said.equals(use.words().toLowerCase(Locale.ROOT));
    }

    private void free(Signal signal) {
        signal.input()
                .takenBy()
                .ifPresent(by -> findings.add(
                        FindingCode.INPUT_NOT_FREE,
                        signal.at(),
                        "the input already serves " + by + ": each disturbs the other",
                        "an input that nothing else uses"));
    }

    private void connected() {
        lead(WiredFan.PLUS);
        lead(WiredFan.MINUS);
        if (wiring.fan().third() == ThirdWire.PULSES
                && wiring.boards().stream().anyMatch(b -> !b.inputs().isEmpty())) {
            lead(WiredFan.THIRD);
        }
    }

    private void lead(ContactId contact) {
        if (wiring.wiresAt(contact).isEmpty()) {
            findings.add(
                    FindingCode.NOT_CONNECTED,
                    contact.toString(),
                    contact.equals(WiredFan.THIRD)
                            ? "the fan tells its speed and nobody listens"
                            : "without it the fan does not run",
                    "a wire from it to where it belongs");
        }
    }

    private void chopping() {
        Set<ContactId> net = reached(WiredFan.MINUS);
        net.addAll(reached(WiredFan.PLUS));
        for (Board board : wiring.boards()) {
            for (Port port : board.ports()) {
                boolean feeds = net.contains(new ContactId(board.name(), port.plus()))
                        || net.contains(new ContactId(board.name(), port.minus()));
                if (feeds && port.choppedAt().isPresent()) {
                    chopped(board, port, port.choppedAt().getAsDouble());
                }
            }
        }
    }

    private void chopped(Board board, Port port, double hertz) {
        String at = board.name() + "." + port.name();
        if (hertz > Limits.CHOPPED_UP_TO_HZ) {
            String why = wiring.fan().leads() == Leads.FOUR
                    ? "a four-wire fan takes the wanted speed at its control lead; its supply is meant to stay whole"
                    : "a fan without control lead restarts its electronics with each pulse: it hums, stalls or refuses";
            findings.add(
                    FindingCode.SUPPLY_CHOPPED_FAST,
                    at,
                    hertz,
                    Limits.CHOPPED_UP_TO_HZ,
                    "Hz",
                    "",
                    why,
                    "switch the fan fully on and off; the cold side needs no less than all of it");
        } else if (wiring.fan().third() == ThirdWire.PULSES) {
            findings.add(
                    FindingCode.SUPPLY_CHOPPED,
                    at,
                    "at " + number(hertz) + " Hz the third wire tells only while the supply is on: pulses are cut up",
                    "switch the fan fully on and off; the cold side needs no less than all of it");
        }
    }

    /** Whether a port that something is wired to can be switched off. */
    boolean switched() {
        return wiring.boards().stream()
                .anyMatch(b -> b.ports().stream()
                        .anyMatch(p -> p.switching() != Port.Switching.FIXED
                                && !(wiring.wiresAt(new ContactId(b.name(), p.plus()))
                                                .isEmpty()
                                        && wiring.wiresAt(new ContactId(b.name(), p.minus()))
                                                .isEmpty())));
    }

    /** The contacts that wires alone join to one. */
    Set<ContactId> reached(ContactId from) {
        Set<ContactId> seen = new HashSet<>(Set.of(from));
        Deque<ContactId> open = new ArrayDeque<>(seen);
        while (!open.isEmpty()) {
            ContactId contact = open.pop();
            for (Wire wire : wiring.wiresAt(contact)) {
                ContactId other = wire.from().equals(contact) ? wire.to() : wire.from();
                if (seen.add(other)) {
                    open.push(other);
                }
            }
        }
        return seen;
    }

    /**
     * Whether the fan can be plugged in live with its minus last: somewhere on the way of the minus is a connector that also
     * has another wire of the fan, and no longer contact for the minus.
     */
    boolean minusMayComeLast() {
        Set<ContactId> minus = reached(WiredFan.MINUS);
        boolean plugged = false;
        for (Connector connector : wiring.connectors()) {
            boolean has = connector.contacts().stream().anyMatch(minus::contains);
            boolean others = connector.contacts().size() > 1;
            boolean first = connector.touchesFirst().filter(minus::contains).isPresent();
            plugged |= has && others && !first;
        }
        return plugged;
    }
}
