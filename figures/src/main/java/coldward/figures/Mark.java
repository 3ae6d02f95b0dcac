package coldward.figures;

import java.util.List;

/** One thing drawn. The name says what it is and becomes a class of the SVG element. */
sealed interface Mark {

    String name();

    /** A place: x to the right, y down. */
    record Place(double x, double y) {}

    /** How a line is drawn; dash lengths empty for a solid one. */
    record Stroke(Tone tone, double width, List<Integer> dash, double opacity) {

        static Stroke of(Tone tone, double width) {
            return new Stroke(tone, width, List.of(), 1);
        }

        Stroke dashed(List<Integer> lengths) {
            return new Stroke(tone, width, lengths, opacity);
        }

        Stroke faded(double share) {
            return new Stroke(tone, width, dash, share);
        }
    }

    /** A line through places. */
    record Line(String name, List<Place> places, Stroke stroke) implements Mark {
        public Line {
            places = List.copyOf(places);
        }

        static Line of(String name, double x1, double y1, double x2, double y2, Stroke stroke) {
            return new Line(name, List.of(new Place(x1, y1), new Place(x2, y2)), stroke);
        }
    }

    /** A filled outline. */
    record Area(String name, List<Place> places, Tone tone, double opacity) implements Mark {
        public Area {
            places = List.copyOf(places);
        }

        static Area box(String name, double x1, double y1, double x2, double y2, Tone tone, double opacity) {
            return new Area(
                    name,
                    List.of(new Place(x1, y1), new Place(x2, y1), new Place(x2, y2), new Place(x1, y2)),
                    tone,
                    opacity);
        }
    }

    /** A filled circle. */
    record Disc(String name, Place centre, double radius, Tone tone) implements Mark {}

    /** Which part of a text its place means. */
    enum Anchor {
        START,
        MIDDLE,
        END
    }

    /** One line of text; y is its baseline. */
    record Words(
            String name, Place place, String text, double size, boolean bold, Anchor anchor, Tone tone, boolean halo)
            implements Mark {

        Box box() {
            double width = Letters.width(text, size, bold);
            double left = switch (anchor) {
                case START -> place.x();
                case MIDDLE -> place.x() - width / 2;
                case END -> place.x() - width;
            };
            return new Box(left, place.y() - 0.75 * size, left + width, place.y() + 0.22 * size);
        }
    }

    /** What a text covers. */
    record Box(double left, double top, double right, double bottom) {

        boolean touches(Box other) {
            return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
        }
    }
}
