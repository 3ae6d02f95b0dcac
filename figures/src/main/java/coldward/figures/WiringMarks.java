package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.WiringPicture.Pin;
import coldward.figures.WiringPlan.Item;
import coldward.model.wiring.Board;
import coldward.model.wiring.Connector;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Input;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Rail;
import coldward.model.wiring.Use;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Draws blocks, contacts, parts, wires and pins of a wiring at the places of its plan. */
final class WiringMarks {

    private static final Stroke THIN = Stroke.of(Tone.INK, 1.2);
    private static final Stroke BOLD = Stroke.of(Tone.INK, 2);

    private final WiringPicture picture;
    private final Wiring wiring;
    private final WiringPlan plan;
    private final Layout layout;
    private final boolean wide;
    private final List<Mark> marks;
    private final Map<Place, Integer> taken = new HashMap<>();

    WiringMarks(WiringPicture picture, WiringPlan plan, Layout layout, Format format, List<Mark> marks) {
        this.picture = picture;
        this.wiring = picture.wiring();
        this.plan = plan;
        this.layout = layout;
        this.wide = format == Format.WIDE;
        this.marks = marks;
    }

    void draw() {
        List<WiringPlan.Route> routes = plan.routes();
        for (List<WiringPlan.Route> net : nets(routes)) {
            // a halo in the ground's colour, so that a crossing is seen to be no joint; wires that are joined share it
            net.forEach(r -> marks.add(new Mark.Line("wire-halo", r.places(), Stroke.of(Tone.GROUND, 6))));
            net.forEach(r -> marks.add(new Mark.Line("wire", r.places(), BOLD)));
        }
        plan.joints().forEach(p -> marks.add(new Mark.Disc("joint", p, wide ? 5 : 4, Tone.INK)));
        plan.blocks().values().forEach(this::block);
        routes.forEach(this::label);
        int number = 1;
        for (Pin pin : picture.pins()) {
            pin(number++, pin, routes);
        }
    }

    /** Wires grouped by the contacts at which they meet. */
    private static List<List<WiringPlan.Route>> nets(List<WiringPlan.Route> routes) {
        List<List<WiringPlan.Route>> nets = new ArrayList<>();
        for (WiringPlan.Route route : routes) {
            List<WiringPlan.Route> joined = new ArrayList<>(List.of(route));
            for (List<WiringPlan.Route> net : List.copyOf(nets)) {
                if (net.stream().anyMatch(r -> meet(r.wire(), route.wire()))) {
                    joined.addAll(0, net);
                    nets.remove(net);
                }
            }
            nets.add(joined);
        }
        return nets;
    }

    private static boolean meet(Wire a, Wire b) {
        return a.from().equals(b.from()) || a.from().equals(b.to()) || a.to().equals(b.from()) || a.to().equals(b.to());
    }

    // ---- blocks

    private void block(Item item) {
        double x = plan.left(item);
        double y = item.y;
        double right = x + plan.width(item);
        double bottom = y + plan.height(item);
        marks.add(Mark.Area.box("block", x, y, right, bottom, Tone.GROUND, 1));
        marks.add(new Mark.Line(
                "block-edge",
                List.of(
                        new Place(x, y),
                        new Place(right, y),
                        new Place(right, bottom),
                        new Place(x, bottom),
                        new Place(x, y)),
                THIN));
        double size = layout.text();
        double inset = wide ? 12 : 4;
        double room = plan.width(item) - 2 * inset;
        String name = Letters.wrap(heading(item.owner), size, true, room, 1).getFirst();
        marks.add(WiringFigure.words("owner", x + inset, y + size * 1.15, name, size, true, Tone.INK));
        String what = Letters.wrap(kind(item.owner), layout.small() - 1, false, room, 1)
                .getFirst();
        marks.add(WiringFigure.words(
                "kind",
                x + inset,
                y + size * 1.15 + layout.small() * 1.1,
                what,
                layout.small() - 1,
                false,
                Tone.FAINT));
        item.left.forEach(c -> contact(item, c, false));
        item.right.forEach(c -> contact(item, c, true));
        wiring.part(item.owner).ifPresent(p -> part(item, p));
    }

    private String heading(String owner) {
        return wiring.part(owner).map(p -> p.name() + " " + p.words()).orElse(owner);
    }

    private String kind(String owner) {
        if (owner.equals(WiredFan.OWNER)) {
            return "%s, %s V"
                    .formatted(
                            wiring.fan().leads().word(),
                            Checks.number(wiring.fan().ratedVoltage()));
        }
        return wiring.part(owner)
                .map(Wires::value)
                .orElseGet(() -> wiring.board(owner)
                        .map(b -> String.join(
                                ", ",
                                b.rails().stream()
                                        .map(r -> Checks.number(r.voltage()) + " V")
                                        .toList()))
                        .orElse(""));
    }

    private void contact(Item item, ContactId id, boolean right) {
        Place at = plan.place(id).orElseThrow(() -> new coldward.quantity.OwnBug("no place for " + id));
        double size = layout.small();
        boolean board = wiring.board(id.owner()).isPresent();
        marks.add(new Mark.Disc("contact", at, wide ? 4.5 : 3.5, Tone.INK));
        marks.add(new Mark.Disc("contact-hole", at, wide ? 2.5 : 1.8, Tone.GROUND));
        boolean twoEnded =
                wiring.part(id.owner()).filter(p -> p.ends().size() == 2).isPresent();
        if (twoEnded) {
            return;
        }
        String use = String.join(
                " / ", wiring.uses(id).stream().map(Use::words).distinct().toList());
        String text = board && !use.equals(id.number()) ? id.number() + "  " + use : id.number();
        double inside = wide ? 12 : 6;
        double room = plan.width(item) - 2 * inside;
        marks.add(new Mark.Words(
                "contact-name",
                new Place(right ? at.x() - inside : at.x() + inside, at.y() + size * 0.35),
                Letters.wrap(text, size, false, room, 1).getFirst(),
                size,
                false,
                right ? Anchor.END : Anchor.START,
                Tone.INK,
                false));
        if (wide) {
            wiring.namesOf(id)
                    .ifPresent(n -> marks.add(new Mark.Words(
                            "contact-names",
                            new Place(at.x() - inside, at.y() + size * 1.3),
                            Letters.wrap(String.join(" | ", n.given()), size - 3, false, room, 1)
                                    .getFirst(),
                            size - 3,
                            false,
                            Anchor.END,
                            Tone.FAINT,
                            false)));
        }
    }

    // ---- parts

    private void part(Item item, Part part) {
        List<ContactId> ends = part.contacts();
        if (ends.size() != 2) {
            return;
        }
        Place a = plan.place(ends.getFirst()).orElseThrow(() -> new coldward.quantity.OwnBug("no end"));
        Place b = plan.place(ends.getLast()).orElseThrow(() -> new coldward.quantity.OwnBug("no end"));
        double middle = plan.left(item) + plan.width(item) / 2;
        boolean across = item.left.size() == 1;
        double s = across ? wide ? 11 : 8 : Math.abs(a.y() - b.y()) * 0.26;
        Place centre = across ? new Place(middle, a.y()) : new Place(middle, (a.y() + b.y()) / 2);
        // unit steps from the first end to the second
        double dx = across ? Math.signum(b.x() - a.x()) : 0;
        double dy = across ? 0 : Math.signum(b.y() - a.y());
        lead(a, centre, -dx * s, -dy * s);
        lead(b, centre, dx * s, dy * s);
        if (part instanceof Part.SeriesDiode) {
            marks.add(new Mark.Area(
                    "diode",
                    List.of(at(centre, dx, dy, -s, -s), at(centre, dx, dy, -s, s), at(centre, dx, dy, s, 0)),
                    Tone.INK,
                    1));
            marks.add(new Mark.Line(
                    "diode-band",
                    List.of(at(centre, dx, dy, s, -s * 1.15), at(centre, dx, dy, s, s * 1.15)),
                    Stroke.of(Tone.INK, wide ? 4 : 3)));
            Place band = at(centre, dx, dy, s, 0);
            double size = layout.small() - 2;
            marks.add(new Mark.Words(
                    "band",
                    across
                            ? new Place(band.x(), band.y() + s + size * 1.1)
                            : new Place(band.x() + s + 6, band.y() + size * 0.35),
                    "band",
                    size,
                    false,
                    across ? Anchor.MIDDLE : Anchor.START,
                    Tone.INK,
                    false));
        } else {
            marks.add(new Mark.Area("resistor", outline(centre, dx, dy, s), Tone.GROUND, 1));
            List<Place> edge = new ArrayList<>(outline(centre, dx, dy, s));
            edge.add(edge.getFirst());
            marks.add(new Mark.Line("resistor-edge", edge, BOLD));
        }
    }

    private static List<Place> outline(Place centre, double dx, double dy, double s) {
        return List.of(
                at(centre, dx, dy, -s * 1.4, -s * 0.6),
                at(centre, dx, dy, -s * 1.4, s * 0.6),
                at(centre, dx, dy, s * 1.4, s * 0.6),
                at(centre, dx, dy, s * 1.4, -s * 0.6));
    }

    /** A place by steps along and across the part's own direction. */
    private static Place at(Place centre, double dx, double dy, double along, double across) {
        return new Place(centre.x() + dx * along - dy * across, centre.y() + dy * along + dx * across);
    }

    private void lead(Place end, Place centre, double ox, double oy) {
        Place to = new Place(centre.x() + ox, centre.y() + oy);
        marks.add(new Mark.Line("lead", List.of(end, new Place(to.x(), end.y()), to), BOLD));
    }

    // ---- wires

    private void label(WiringPlan.Route route) {
        Wire wire = route.wire();
        double size = layout.small() - (wide ? 1 : 1.5);
        List<String> forms = List.of(
                "%s: %s, %s, %s".formatted(wire.name(), Wires.colour(wire), Wires.gauge(wire), Wires.length(wire)),
                "%s, %s".formatted(Wires.colour(wire), Wires.length(wire)),
                Wires.colour(wire),
                wire.name());
        double room = route.room() - 12;
        forms.stream()
                .filter(f -> Letters.width(f, size, false) <= room)
                .findFirst()
                .ifPresent(f -> marks.add(new Mark.Words(
                        "wire-label",
                        new Place(route.label().x() + 8, route.label().y() - 5),
                        f,
                        size,
                        false,
                        Anchor.START,
                        Tone.INK,
                        false)));
    }

    // ---- pins

    private void pin(int number, Pin pin, List<WiringPlan.Route> routes) {
        double r = wide ? 9 : 7;
        Optional<Place> found = anchor(pin.at(), routes);
        if (found.isEmpty()) {
            return;
        }
        Place place = found.get();
        int before = taken.merge(place, 1, Integer::sum) - 1;
        double x = place.x() + before * (wide ? 2.7 : 1.95) * r;
        WiringFigure.marker(marks, x, place.y(), r, number, pin);
    }

    /** Where a place that a finding names is marked: inside a block beside its contact, on a wire, at a part's corner. */
    private Optional<Place> anchor(String at, List<WiringPlan.Route> routes) {
        Optional<Place> direct = contactOf(at).flatMap(this::beside);
        if (direct.isPresent()) {
            return direct;
        }
        for (WiringPlan.Route route : routes) {
            if (route.wire().name().equals(at)) {
                int half = route.places().size() / 2;
                Place a = route.places().get(half - 1);
                Place b = route.places().get(half);
                return Optional.of(new Place((a.x() + b.x()) / 2, (a.y() + b.y()) / 2));
            }
        }
        String owner = at.contains(".") ? at.substring(0, at.indexOf('.')) : at;
        for (Connector c : wiring.connectors()) {
            if (c.name().equals(at)) {
                return beside(c.contacts().getFirst());
            }
        }
        Item item = plan.blocks().get(owner);
        return item == null
                ? Optional.empty()
                : Optional.of(new Place(plan.left(item) + plan.width(item) - (wide ? 14 : 8), item.y - (wide ? 2 : 4)));
    }

    /** The contact that a place names: itself, or that of a port, an input or a rail. */
    private Optional<ContactId> contactOf(String at) {
        int dot = at.indexOf('.');
        if (dot <= 0) {
            return Optional.empty();
        }
        String owner = at.substring(0, dot);
        String name = at.substring(dot + 1);
        for (ContactId c : wiring.contacts()) {
            if (c.toString().equals(at)) {
                return Optional.of(c);
            }
        }
        return wiring.board(owner).flatMap(b -> number(b, name)).map(n -> new ContactId(owner, n));
    }

    private static Optional<String> number(Board board, String name) {
        for (Input i : board.inputs()) {
            if (i.name().equals(name)) {
                return Optional.of(i.contact());
            }
        }
        for (Port p : board.ports()) {
            if (p.name().equals(name)) {
                return Optional.of(p.plus());
            }
        }
        for (Rail r : board.rails()) {
            if (r.name().equals(name) && !r.contacts().isEmpty()) {
                return Optional.of(r.contacts().getFirst());
            }
        }
        return Optional.empty();
    }

    private Optional<Place> beside(ContactId contact) {
        return plan.place(contact).map(p -> {
            Item item = plan.item(contact);
            boolean two = wiring.part(contact.owner())
                    .filter(q -> q.ends().size() == 2)
                    .isPresent();
            boolean right = item.right.contains(contact);
            double x = two
                    ? p.x() + (right ? -1 : 1) * (wide ? 22 : 10)
                    : right ? plan.left(item) + (wide ? 16 : 10) : p.x() + plan.width(item) - (wide ? 44 : 10);
            return new Place(x, two ? p.y() - (wide ? 14 : 10) : p.y());
        });
    }
}
