package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.Mark.Words;
import coldward.model.build.Trip;
import coldward.model.design.TripMap.Cell;
import coldward.model.trip.Margin;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

/**
 * The trip map: trip speed along the bottom, confirmations upwards; where heat begins to ask, where spurious trips begin to
 * disturb, contours of both rates and margins, the choice and the sheet's own trip marked.
 */
public final class TripMapFigure {

    private static final int MOST_LINES = 6;
    private static final int MARGIN_LEVELS = 5;
    private static final int TEXT_SPEEDS = 5;
    private static final List<Integer> DOTTED = List.of(2, 4);
    private static final List<Integer> DASHED = List.of(9, 5);

    private final TripMapPicture picture;
    private final Layout layout;
    private final List<Mark> marks = new ArrayList<>();

    private TripMapFigure(TripMapPicture picture, Layout layout) {
        this.picture = picture;
        this.layout = layout;
    }

    /**
     * The map as an SVG document of its own, which may also stand inside a page.
     *
     * @param picture what it shows
     * @param format the page it is laid out for
     * @param theme the ground it stands on
     */
    public static String svg(TripMapPicture picture, Format format, Theme theme) {
        return new TripMapFigure(picture, Layout.of(format)).drawing().svg(theme);
    }

    /**
     * The map for a terminal: a table of spurious trips a year and margins.
     *
     * @param picture what it shows
     * @param options width, letters and colour
     * @return lines, each ended by a line feed
     */
    public static String text(TripMapPicture picture, TextOptions options) {
        List<Double> speeds = picture.map().cells().stream()
                .filter(c -> c.confirmations() == 1)
                .map(Cell::speed)
                .toList();
        int shown = Math.min(speeds.size(), options.width() >= 80 ? TEXT_SPEEDS : 3);
        List<Double> some = new ArrayList<>();
        for (int i = 0; i < shown; i++) {
            some.add(speeds.get(Math.toIntExact(Math.round(i * (speeds.size() - 1.0) / Math.max(1, shown - 1)))));
        }
        List<TextTable.Column> columns = new ArrayList<>(List.of(TextTable.Column.numbers("in a row")));
        some.forEach(s -> columns.add(TextTable.Column.numbers("%.0f rpm".formatted(s))));
        List<List<String>> rows = new ArrayList<>();
        for (int k = 1; k <= picture.confirmations(); k++) {
            List<String> row = new ArrayList<>(List.of(Integer.toString(k)));
            for (double speed : some) {
                row.add(row(picture, k).stream()
                        .filter(c -> c.speed() == speed)
                        .findFirst()
                        .map(c -> margin(c.margin()) + ", " + yearly(picture, c))
                        .orElse(""));
            }
            rows.add(row);
        }
        return "Margin and spurious trips a year, by trip speed and confirmations; heat asks for %.0f rpm or more\n"
                        .formatted(picture.map().unsafeBelow())
                + new TextTable(columns, rows).text(options);
    }

    private static String margin(Margin margin) {
        return switch (margin) {
            case Margin.NothingSaves() -> "none";
            case Margin.Seconds(double s) -> Checks.number(Math.floor(s)) + " s";
            case Margin.Unlimited() -> "no limit";
        };
    }

    private static String yearly(TripMapPicture picture, Cell cell) {
        double year = cell.spurious().perYear(picture.hoursPerYear());
        if (year < 1e-4) {
            return "<0.0001";
        }
        return year >= 100
                ? "%.1e".formatted(year)
                : year >= 1 ? "%.0f".formatted(year) : Checks.number(Math.rint(year * 1e4) / 1e4);
    }

    private static List<Cell> row(TripMapPicture picture, int confirmations) {
        return picture.map().cells().stream()
                .filter(c -> c.confirmations() == confirmations)
                .sorted(Comparator.comparingDouble(Cell::speed))
                .toList();
    }

    private Drawing drawing() {
        double y = head();
        double top = y + Layout.line(layout.small()) + layout.small() * 0.6;
        double bottom = top + layout.plotHeight();
        List<Cell> first = row(picture, 1);
        Scale speed = new Scale(first.getFirst().speed(), first.getLast().speed(), layout.left(), right());
        Scale confirmations = new Scale(0.5, picture.confirmations() + 0.5, bottom, top);
        areas(speed, confirmations, top, bottom);
        axes(speed, confirmations, y, bottom);
        spurious(speed, confirmations);
        margins(speed, confirmations);
        trips(speed, confirmations);
        double end = legend(bottom + 9 + 2.6 * Layout.line(layout.small()));
        return new Drawing(
                layout.width(), Math.ceil(end + layout.edge()), picture.printer() + ": trip map", description(), marks);
    }

    private double right() {
        return layout.width() - layout.edge();
    }

    private double head() {
        double room = layout.width() - 2 * layout.edge();
        double y = layout.edge();
        for (String line : Letters.wrap(picture.printer(), layout.title(), true, room, 2)) {
            y += Layout.line(layout.title()) * 0.85;
            words("printer", layout.edge(), y, line, layout.title(), true, Anchor.START, Tone.INK);
        }
        y += layout.text() * 0.8;
        marks.add(Mark.Line.of("rule", layout.edge(), y, right(), y, Stroke.of(Tone.INK, 1)));
        y += layout.text() * 0.5;
        for (String line : Letters.balanced(picture.verdict(), layout.verdict(), Math.min(room, 1000), MOST_LINES)) {
            y += Layout.line(layout.verdict());
            words("verdict", layout.edge(), y, line, layout.verdict(), false, Anchor.START, Tone.INK);
        }
        return y + layout.text() * 1.2;
    }

    private void areas(Scale speed, Scale confirmations, double top, double bottom) {
        double low = Math.clamp(speed.at(picture.map().unsafeBelow()), layout.left(), right());
        if (low > layout.left()) {
            marks.add(Mark.Area.box("unsafe", layout.left(), top, low, bottom, Tone.DANGER, 0.08));
        }
        for (int k = 1; k <= picture.confirmations(); k++) {
            double upper = confirmations.at(k + 0.5);
            double lower = confirmations.at(k - 0.5);
            double high = Math.clamp(speed.at(picture.map().highest().get(k - 1)), layout.left(), right());
            if (high < right()) {
                marks.add(Mark.Area.box("spurious", high, upper, right(), lower, Tone.ABNORMAL, 0.14));
            }
            if (high > low) {
                marks.add(Mark.Area.box("room", low, upper, high, lower, Tone.NORMAL, 0.12));
            }
        }
        if (low > layout.left() && low < right()) {
            marks.add(Mark.Line.of("lowest", low, top, low, bottom, Stroke.of(Tone.DANGER, 2)));
        }
    }

    private void axes(Scale speed, Scale confirmations, double from, double bottom) {
        words(
                "axis-title",
                layout.edge(),
                from + layout.small(),
                "confirmations (low reports in a row)",
                layout.small(),
                false,
                Anchor.START,
                Tone.FAINT);
        for (int k = 1; k <= picture.confirmations(); k++) {
            double y = confirmations.at(k);
            marks.add(Mark.Line.of("grid", layout.left(), y, right(), y, Stroke.of(Tone.HAIR, 1)));
            words(
                    "tick",
                    layout.left() - 10,
                    y + layout.small() * 0.35,
                    Integer.toString(k),
                    layout.small(),
                    false,
                    Anchor.END,
                    Tone.FAINT);
        }
        marks.add(Mark.Line.of("axis", layout.left(), bottom, right(), bottom, Stroke.of(Tone.INK, 1)));
        for (double tick : speed.ticks(layout.timeTicks())) {
            double x = speed.at(tick);
            marks.add(Mark.Line.of("tick", x, bottom, x, bottom + 5, Stroke.of(Tone.INK, 1)));
            words(
                    "tick",
                    x,
                    bottom + 7 + layout.small(),
                    speed.label(tick, layout.timeTicks()),
                    layout.small(),
                    false,
                    x > right() - 30 ? Anchor.END : Anchor.MIDDLE,
                    Tone.FAINT);
        }
        words(
                "axis-title",
                right(),
                bottom + 7 + layout.small() * 2.3,
                "trip speed, rpm",
                layout.small(),
                false,
                Anchor.END,
                Tone.FAINT);
    }

    private void spurious(Scale speed, Scale confirmations) {
        double limit = Math.log(picture.limitPerThousandHours());
        ToDoubleFunction<Cell> rate = c -> Math.log(c.spurious().perThousandHours());
        contour(
                "spurious-more",
                speed,
                confirmations,
                rate,
                limit + Math.log(100),
                Stroke.of(Tone.INK, 1.2).dashed(DOTTED));
        contour(
                "spurious-less",
                speed,
                confirmations,
                rate,
                limit - Math.log(100),
                Stroke.of(Tone.INK, 1.2).dashed(DASHED));
        for (int k = 1; k <= picture.confirmations(); k++) {
            double high = picture.map().highest().get(k - 1);
            if (high > speed.from() && high < speed.to()) {
                double x = speed.at(high);
                marks.add(Mark.Line.of(
                        "highest",
                        x,
                        confirmations.at(k - 0.5),
                        x,
                        confirmations.at(k + 0.5),
                        Stroke.of(Tone.INK, 2.6)));
            }
        }
    }

    private void margins(Scale speed, Scale confirmations) {
        List<Double> seconds = picture.map().cells().stream()
                .flatMap(c -> c.margin() instanceof Margin.Seconds(double s)
                        ? java.util.stream.Stream.of(s)
                        : java.util.stream.Stream.empty())
                .sorted()
                .toList();
        if (seconds.size() < 2 || seconds.getFirst().equals(seconds.getLast())) {
            return;
        }
        double step = Scale.step(seconds.getLast() - seconds.getFirst(), MARGIN_LEVELS);
        ToDoubleFunction<Cell> margin = c -> c.margin() instanceof Margin.Seconds(double s) ? s : Double.NaN;
        for (double level = Math.ceil(seconds.getFirst() / step) * step; level <= seconds.getLast(); level += step) {
            double rounded = Math.rint(level / step) * step;
            contour("margin", speed, confirmations, margin, rounded, Stroke.of(Tone.NORMAL, 1.4))
                    .ifPresent(p -> marks.add(new Words(
                            "margin-label",
                            new Place(p.x() + 6, p.y() - 4),
                            Checks.number(rounded) + " s",
                            layout.small(),
                            false,
                            p.x() > right() - 60 ? Anchor.END : Anchor.START,
                            Tone.NORMAL,
                            true)));
        }
    }

    /** One line through the places where neighbouring speeds of a row lie on both sides of a level; its last place. */
    private Optional<Place> contour(
            String name, Scale speed, Scale confirmations, ToDoubleFunction<Cell> value, double level, Stroke stroke) {
        List<Place> places = new ArrayList<>();
        for (int k = 1; k <= picture.confirmations(); k++) {
            OptionalDouble at = crossing(row(picture, k), value, level);
            if (at.isPresent()) {
                places.add(new Place(speed.at(at.getAsDouble()), confirmations.at(k)));
            }
        }
        if (places.size() > 1) {
            marks.add(new Mark.Line(name, places, stroke));
        }
        return places.isEmpty() ? Optional.empty() : Optional.of(places.getLast());
    }

    private static OptionalDouble crossing(List<Cell> row, ToDoubleFunction<Cell> value, double level) {
        for (int i = 0; i + 1 < row.size(); i++) {
            double a = value.applyAsDouble(row.get(i));
            double b = value.applyAsDouble(row.get(i + 1));
            if ((a <= level && b > level) || (a >= level && b < level)) {
                double share = (level - a) / (b - a);
                return OptionalDouble.of(row.get(i).speed()
                        + share * (row.get(i + 1).speed() - row.get(i).speed()));
            }
        }
        return OptionalDouble.empty();
    }

    private void trips(Scale speed, Scale confirmations) {
        picture.own().ifPresent(t -> trip(t, "the sheet's", Tone.FAINT, speed, confirmations));
        picture.recommended().ifPresent(t -> trip(t, "recommended", Tone.INK, speed, confirmations));
    }

    private void trip(Trip trip, String label, Tone tone, Scale speed, Scale confirmations) {
        if (trip.speed() < speed.from()
                || trip.speed() > speed.to()
                || trip.confirmations() > picture.confirmations()) {
            return;
        }
        double x = speed.at(trip.speed());
        double y = confirmations.at(trip.confirmations());
        marks.add(new Mark.Disc("trip", new Place(x, y), 6, tone));
        String words = "%s: %.0f rpm, %d in a row".formatted(label, trip.speed(), trip.confirmations());
        boolean left = x + 12 + Letters.width(words, layout.text(), true) > right();
        // two marks in one row would write over one another: the sheet's below, the choice above
        double dy = label.startsWith("the") ? layout.text() * 1.5 : -layout.text() * 0.8;
        marks.add(new Words(
                "trip-label",
                new Place(left ? right() - 4 : x + 4, y + dy),
                words,
                layout.text(),
                true,
                left ? Anchor.END : Anchor.START,
                tone,
                true));
    }

    private double legend(double from) {
        double y = from;
        String limit = "%s a year"
                .formatted(Checks.number(Math.rint(picture.limitPerThousandHours() * picture.hoursPerYear()) / 1000));
        for (String line : Letters.wrap(
                ("Red: too low, a fan too slow to be safe goes unnoticed. Yellow: too high, a healthy fan trips more than %s"
                                + " (thick line); dotted 100 times as often, dashed a hundredth. Green: room between, with lines of equal"
                                + " margin.")
                        .formatted(limit),
                layout.small(),
                false,
                right() - layout.edge(),
                MOST_LINES)) {
            y += Layout.line(layout.small());
            words("legend", layout.edge(), y, line, layout.small(), false, Anchor.START, Tone.FAINT);
        }
        return y;
    }

    private String description() {
        return "%s Heat asks for a trip speed of %.0f rpm or more.%s"
                .formatted(
                        picture.verdict(),
                        picture.map().unsafeBelow(),
                        picture.recommended()
                                .map(t ->
                                        " Marked: %.0f rpm, %d confirmations.".formatted(t.speed(), t.confirmations()))
                                .orElse(""));
    }

    private void words(
            String name, double x, double y, String text, double size, boolean bold, Anchor anchor, Tone tone) {
        marks.add(RaceFigure.words(name, x, y, text, size, bold, anchor, tone));
    }
}
