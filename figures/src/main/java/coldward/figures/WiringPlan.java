package coldward.figures;

import coldward.figures.Mark.Place;
import coldward.model.wiring.Board;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Part;
import coldward.model.wiring.Use;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/**
 * Where everything in a wiring stands. Boards are the first column, the fan the last, parts stand between them by their
 * distance from a board. A wire that passes a column takes a lane of its own there; in the gaps between columns every
 * wire has its own upright track, so that no two wires lie on one another however many boards and parts there are
 * (layered drawing after Sugiyama, Tagawa and Toda, 1981).
 */
final class WiringPlan {

    /** A block, or the lane of a wire that passes a column; {@code owner} is empty for a lane. */
    static final class Item {
        final String owner;
        final int layer;
        final List<ContactId> left = new ArrayList<>();
        final List<ContactId> right = new ArrayList<>();
        double y;
        double order;

        Item(String owner, int layer) {
            this.owner = owner;
            this.layer = layer;
        }

        boolean isLane() {
            return owner.isEmpty();
        }

        int rows() {
            return Math.max(left.size(), right.size());
        }
    }

    /** A wire as drawn. */
    record Route(Wire wire, List<Place> places, Place label, double room) {}

    private record End(Item item, Optional<ContactId> contact, boolean right) {}

    /** A wire's way through one gap; its ends lie at the gap's left border where they are right of their item. */
    private record Leg(Wire wire, int gap, End from, End to) {}

    /** Sizes of one format. */
    record Sizes(
            double board, double part, double fan, double row, double head, double space, double track, double stub) {
        static Sizes of(Format format) {
            return switch (format) {
                case WIDE -> new Sizes(250, 170, 150, 34, 38, 26, 12, 190);
                case NARROW -> new Sizes(86, 62, 62, 26, 30, 16, 7, 40);
            };
        }
    }

    private final Wiring wiring;
    private final Sizes sizes;
    private final Map<String, Item> blocks = new LinkedHashMap<>();
    private final List<List<Item>> layers = new ArrayList<>();
    private final List<List<Leg>> wires = new ArrayList<>();
    private final double[] lefts;
    private final double[] widths;
    private double bottom;
    private double right;

    WiringPlan(Wiring wiring, Format format, double edge, double width, double top) {
        this.wiring = wiring;
        this.sizes = Sizes.of(format);
        layer();
        sides();
        lay();
        order();
        lefts = new double[layers.size()];
        widths = new double[layers.size()];
        across(edge, width);
        down(top);
    }

    Sizes sizes() {
        return sizes;
    }

    double bottom() {
        return bottom;
    }

    double right() {
        return right;
    }

    Map<String, Item> blocks() {
        return blocks;
    }

    double left(Item item) {
        return lefts[item.layer];
    }

    double width(Item item) {
        return widths[item.layer];
    }

    double height(Item item) {
        return item.isLane() ? sizes.row() * 0.6 : sizes.head() + sizes.row() * Math.max(1, item.rows()) + 8;
    }

    // ---- columns

    private void layer() {
        Map<String, Integer> distance = new HashMap<>();
        Deque<String> next = new ArrayDeque<>();
        for (Board b : wiring.boards()) {
            distance.put(b.name(), 0);
            next.add(b.name());
        }
        int last = 0;
        while (!next.isEmpty()) {
            String owner = next.removeFirst();
            for (Wire w : wiring.wires()) {
                String other = w.from().owner().equals(owner)
                        ? w.to().owner()
                        : w.to().owner().equals(owner) ? w.from().owner() : "";
                if (!other.isEmpty() && !other.equals(WiredFan.OWNER) && !distance.containsKey(other)) {
                    int d = distance.getOrDefault(owner, 0) + 1;
                    distance.put(other, d);
                    last = Math.max(last, d);
                    if (!owner.equals(WiredFan.OWNER)) {
                        next.add(other);
                    }
                }
            }
        }
        for (Part p : wiring.parts()) {
            last = Math.max(last, distance.computeIfAbsent(p.name(), n -> 1));
        }
        for (int i = 0; i <= last + 1; i++) {
            layers.add(new ArrayList<>());
        }
        wiring.boards().forEach(b -> block(b.name(), 0));
        wiring.parts().forEach(p -> block(p.name(), distance.getOrDefault(p.name(), 1)));
        block(WiredFan.OWNER, last + 1);
    }

    private void block(String owner, int layer) {
        Item item = new Item(owner, layer);
        blocks.put(owner, item);
        layers.get(layer).add(item);
    }

    /** Contacts of boards look right, those of the fan left, those of parts towards the nearest thing they lead to. */
    private void sides() {
        for (ContactId contact : wiring.contacts()) {
            Item item = item(contact);
            boolean board = wiring.board(contact.owner()).isPresent();
            if (board && !isShown(contact)) {
                continue;
            }
            boolean toRight = board
                    || (wiring.part(contact.owner()).isPresent()
                            && wiring.wiresAt(contact).stream()
                                    .map(w -> item(w.from().equals(contact) ? w.to() : w.from()))
                                    .anyMatch(o -> o.layer > item.layer));
            (toRight ? item.right : item.left).add(contact);
        }
    }

    /** Rails and grounds are shown only where something is joined or said. */
    private boolean isShown(ContactId contact) {
        return !wiring.wiresAt(contact).isEmpty()
                || wiring.namesOf(contact).isPresent()
                || wiring.uses(contact).stream()
                        .anyMatch(u -> !(u instanceof Use.OnRail) && !(u instanceof Use.Ground));
    }

    Item item(ContactId contact) {
        Item item = blocks.get(contact.owner());
        if (item == null) {
            throw new coldward.quantity.OwnBug("no block for " + contact);
        }
        return item;
    }

    // ---- wires

    private void lay() {
        for (Wire w : wiring.wires()) {
            End a = end(w.from());
            End b = end(w.to());
            if (gap(a) > gap(b)) {
                End swap = a;
                a = b;
                b = swap;
            }
            List<Leg> legs = new ArrayList<>();
            End from = a;
            for (int g = gap(a); g < gap(b); g++) {
                Item lane = new Item("", g + 1);
                layers.get(g + 1).add(lane);
                legs.add(new Leg(w, g, from, new End(lane, Optional.empty(), false)));
                from = new End(lane, Optional.empty(), true);
            }
            legs.add(new Leg(w, gap(b), from, b));
            wires.add(legs);
        }
    }

    private End end(ContactId contact) {
        Item item = item(contact);
        return new End(item, Optional.of(contact), item.right.contains(contact));
    }

    private static int gap(End end) {
        return end.right() ? end.item().layer : end.item().layer - 1;
    }

    private void order() {
        for (int l = 0; l < layers.size(); l++) {
            List<Item> layer = layers.get(l);
            if (l > 0) {
                layer.forEach(i -> i.order = mean(i, Optional.empty()));
                layer.sort(Comparator.comparingDouble(i -> i.order));
                for (Item item : layer) {
                    item.left.sort(Comparator.comparingDouble(c -> mean(item, Optional.of(c))));
                }
            }
            for (int i = 0; i < layer.size(); i++) {
                layer.get(i).order = i;
            }
        }
    }

    /** Mean place, in the column before, of what an item or one of its contacts leads to. */
    private double mean(Item item, Optional<ContactId> contact) {
        return wires.stream()
                .flatMap(List::stream)
                .filter(l -> l.to().item() == item
                        && (contact.isEmpty() || l.to().contact().equals(contact)))
                .mapToDouble(l -> l.from().item().order + 0.01 * (1 + row(l.from())))
                .average()
                .orElse(1e6);
    }

    private static int row(End end) {
        return end.contact()
                .map(c -> Math.max(end.item().left.indexOf(c), end.item().right.indexOf(c)))
                .orElse(0);
    }

    // ---- places

    private void across(double edge, double width) {
        double blocks = 0;
        for (int i = 0; i < layers.size(); i++) {
            widths[i] = i == 0 ? sizes.board() : i == layers.size() - 1 ? sizes.fan() : sizes.part();
            blocks += widths[i];
        }
        int gaps = layers.size() - 1;
        double gap = (width - 2 * edge - blocks) / gaps;
        int most = 0;
        for (int g = 0; g < gaps; g++) {
            most = Math.max(most, bent(g).size());
        }
        gap = Math.min(Math.max(gap, (most + 1) * sizes.track() + 12), sizes.stub() + 220);
        double x = edge;
        for (int i = 0; i < layers.size(); i++) {
            lefts[i] = x;
            x += widths[i] + gap;
        }
        right = x - gap;
    }

    private List<Leg> bent(int gap) {
        return wires.stream().flatMap(List::stream).filter(l -> l.gap() == gap).toList();
    }

    private void down(double top) {
        for (List<Item> layer : layers) {
            double y = top;
            for (Item item : layer) {
                item.y = Math.max(y, wanted(item, y));
                y = item.y + height(item) + (item.isLane() ? 6 : sizes.space());
            }
        }
        for (int i = 1; i < layers.size(); i++) {
            apart(i);
        }
        bottom = layers.stream()
                .flatMap(List::stream)
                .mapToDouble(i -> i.y + height(i))
                .max()
                .orElse(top);
    }

    /** Where an item's first wire would run straight. */
    private double wanted(Item item, double otherwise) {
        return wires.stream()
                .flatMap(List::stream)
                .filter(l -> l.to().item() == item && l.from().item().layer < item.layer)
                .mapToDouble(l -> l.from().item().y + offset(l.from()) - offset(l.to()))
                .min()
                .orElse(otherwise);
    }

    /** Moves a column down by a little where a wire that ends there would lie on one that begins before it. */
    private void apart(int layer) {
        for (int round = 0; round < 40; round++) {
            boolean moved = false;
            for (Leg a : bent(layer - 1)) {
                for (Leg b : bent(layer - 1)) {
                    boolean ends = b.to().item().layer == layer && !b.to().right();
                    boolean same = a.wire().equals(b.wire()) || a.from().equals(b.from());
                    if (!same && ends && a.from().right() && Math.abs(y(a.from()) - y(b.to())) < 5) {
                        b.to().item().y += 7;
                        moved = true;
                    }
                }
            }
            double y = 0;
            for (Item item : layers.get(layer)) {
                item.y = Math.max(item.y, y);
                y = item.y + height(item) + 6;
            }
            if (!moved) {
                return;
            }
        }
    }

    private double offset(End end) {
        return end.item().isLane() ? sizes.row() * 0.3 : sizes.head() + sizes.row() * (row(end) + 0.5);
    }

    private double y(End end) {
        return end.item().y + offset(end);
    }

    /** Where a contact is on its block's edge; empty if it is not drawn. */
    Optional<Place> place(ContactId contact) {
        Item item = blocks.get(contact.owner());
        if (item == null || (!item.left.contains(contact) && !item.right.contains(contact))) {
            return Optional.empty();
        }
        End end = end(contact);
        return Optional.of(new Place(x(end), y(end)));
    }

    private double x(End end) {
        return end.right() ? lefts[end.item().layer] + widths[end.item().layer] : lefts[end.item().layer];
    }

    /** Every wire's line, with where its label may stand and how much room there is. */
    List<Route> routes() {
        Map<Leg, Double> tracks = new HashMap<>();
        double[] first = new double[Math.max(1, layers.size() - 1)];
        for (int g = 0; g < layers.size() - 1; g++) {
            first[g] = tracks(g, tracks);
        }
        List<Route> routes = new ArrayList<>();
        for (List<Leg> legs : wires) {
            List<Place> places = new ArrayList<>();
            for (Leg leg : legs) {
                double track = tracks.getOrDefault(leg, x(leg.to()));
                places.add(new Place(x(leg.from()), y(leg.from())));
                places.add(new Place(track, y(leg.from())));
                places.add(new Place(track, y(leg.to())));
                places.add(new Place(x(leg.to()), y(leg.to())));
            }
            Leg leg = legs.getFirst();
            Place label = new Place(x(leg.from()), y(leg.from()));
            double room = leg.from().right() ? first[leg.gap()] - label.x() : 0;
            routes.add(new Route(leg.wire(), places, label, room));
        }
        return routes;
    }

    /** Upright tracks of one gap, as far right as they go; returns the leftmost. */
    private double tracks(int gap, Map<Leg, Double> into) {
        double from = lefts[gap] + widths[gap];
        double to = lefts[gap + 1];
        List<Leg> up = new ArrayList<>();
        List<Leg> down = new ArrayList<>();
        List<Leg> sideways = new ArrayList<>();
        for (Leg leg : bent(gap)) {
            boolean through = leg.from().right() && !leg.to().right();
            if (through && Math.abs(y(leg.from()) - y(leg.to())) < 0.5) {
                into.put(leg, to);
            } else if (!through) {
                sideways.add(leg);
            } else if (y(leg.to()) < y(leg.from())) {
                up.add(leg);
            } else {
                down.add(leg);
            }
        }
        up.sort(Comparator.comparingDouble(l -> y(l.from())));
        down.sort(Comparator.comparingDouble(l -> -y(l.from())));
        List<Leg> all = new ArrayList<>(up);
        all.addAll(down);
        all.addAll(sideways);
        double step = Math.min(sizes.track(), (to - from - 10) / (all.size() + 1));
        double x = to - step * all.size() - 2;
        double leftmost = all.isEmpty() ? to - 10 : x;
        for (Leg leg : all) {
            into.put(leg, x);
            x += step;
        }
        return Math.max(from, leftmost - 6);
    }

    /** Contacts at which more than one wire ends. */
    List<Place> joints() {
        return new TreeSet<>(wiring.contacts())
                .stream()
                        .filter(c -> wiring.wiresAt(c).size() > 1)
                        .flatMap(c -> place(c).stream())
                        .toList();
    }
}
