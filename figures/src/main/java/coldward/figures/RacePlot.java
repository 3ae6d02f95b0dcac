package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Box;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.Mark.Words;
import coldward.figures.RacePicture.Sample;
import coldward.figures.RacePicture.Series;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;

/** The upper part of the race: temperature against time, labelled line by line. */
final class RacePlot {

    /** Told apart without colour; the solid line is the chosen response's. */
    private static final List<List<Integer>> DASHES = List.of(
            List.of(9, 5),
            List.of(2, 4),
            List.of(14, 4, 2, 4),
            List.of(5, 3),
            List.of(14, 4, 2, 4, 2, 4),
            List.of(1, 7));

    /** One curve's label: lines of words, the curve's last place. */
    private record Label(Series series, List<String> lines, Place end, Stroke stroke) {}

    private final RaceScene scene;
    private final Layout layout;
    private final Scale time;
    private final List<Mark> marks;

    RacePlot(RaceScene scene, Layout layout, Scale time, List<Mark> marks) {
        this.scene = scene;
        this.layout = layout;
        this.time = time;
        this.marks = marks;
    }

    /** Draws below a height and returns where the next part begins. */
    double draw(double from) {
        double top = from + Layout.line(layout.small()) + layout.small() * 0.6;
        List<Label> labels = new ArrayList<>();
        double gutter = layout.width() - layout.edge() - labelLeft();
        double needed = 0;
        List<Stroke> strokes = strokes();
        for (Series one : scene.series()) {
            List<String> lines = Letters.wrap(one.label(), layout.text(), one.chosen(), gutter, 6);
            needed += blockHeight(lines.size(), one.chosen()) + gap();
            labels.add(new Label(one, lines, new Place(0, 0), strokes.get(labels.size())));
        }
        double height = Math.max(layout.plotHeight(), needed);
        double bottom = top + height;
        Scale heat = new Scale(scene.low(), scene.high(), bottom, top);
        axes(heat, from, top, bottom);
        curves(heat);
        labels(heat, labels, top, bottom);
        level(heat, top);
        return bottom + 9 + 2 * Layout.line(layout.small());
    }

    private double labelLeft() {
        return layout.right() + (layout.width() > 600 ? 34 : 16);
    }

    private double gap() {
        return layout.text() * 0.5;
    }

    private double blockHeight(int lines, boolean chosen) {
        return lines * layout.text() * 1.15 + (chosen ? layout.small() * 1.15 : 0);
    }

    private List<Stroke> strokes() {
        List<Stroke> strokes = new ArrayList<>();
        int next = 0;
        for (Series one : scene.series()) {
            if (one.chosen()) {
                strokes.add(Stroke.of(Tone.INK, 2.6));
            } else {
                strokes.add(Stroke.of(Tone.INK, 1.4).dashed(DASHES.get(next % DASHES.size())));
                next++;
            }
        }
        return strokes;
    }

    private void axes(Scale heat, double from, double top, double bottom) {
        boolean banded = scene.series().stream().anyMatch(Series::banded);
        marks.add(RaceFigure.words(
                "axis-title",
                layout.edge(),
                from + layout.small(),
                "filament where the cold side begins" + (banded ? " · shaded: 5–95 %" : ""),
                layout.small(),
                false,
                Anchor.START,
                Tone.FAINT));
        marks.add(Mark.Area.box(
                "soft",
                layout.left(),
                top,
                layout.right(),
                heat.at(scene.picture().softensAt()),
                Tone.WARM,
                0.07));
        for (double tick : heat.ticks(layout.heatTicks())) {
            double y = heat.at(tick);
            marks.add(Mark.Line.of("grid", layout.left(), y, layout.right(), y, Stroke.of(Tone.HAIR, 1)));
            marks.add(RaceFigure.words(
                    "heat-tick",
                    layout.left() - 9,
                    y + layout.small() * 0.35,
                    heat.label(tick, layout.heatTicks()) + " °C",
                    layout.small(),
                    false,
                    Anchor.END,
                    Tone.FAINT));
        }
        for (double tick : time.ticks(layout.timeTicks())) {
            double x = time.at(tick);
            marks.add(Mark.Line.of("time-mark", x, bottom, x, bottom + 6, Stroke.of(Tone.INK, 1)));
            marks.add(RaceFigure.words(
                    "time-tick",
                    x,
                    bottom + 9 + layout.small(),
                    time.label(tick, layout.timeTicks()) + " s",
                    layout.small(),
                    false,
                    Anchor.MIDDLE,
                    Tone.FAINT));
        }
        marks.add(RaceFigure.words(
                "axis-title",
                layout.right(),
                bottom + 9 + layout.small() + Layout.line(layout.small()),
                "since the fan failed",
                layout.small(),
                false,
                Anchor.END,
                Tone.FAINT));
        marks.add(Mark.Line.of("axis", layout.left(), bottom, layout.right(), bottom, Stroke.of(Tone.INK, 1)));
        marks.add(Mark.Line.of("axis", layout.left(), top, layout.left(), bottom, Stroke.of(Tone.INK, 1)));
        scene.stopTime().ifPresent(stop -> upright("stop-line", stop, top, bottom, List.of(1, 4)));
        scene.post().filter(post -> post > 0).ifPresent(post -> upright("post-line", post, top, bottom, List.of()));
    }

    private void upright(String name, double seconds, double top, double bottom, List<Integer> dash) {
        double x = time.at(seconds);
        marks.add(Mark.Line.of(name, x, top, x, bottom, Stroke.of(Tone.FAINT, 1).dashed(dash)));
    }

    private void curves(Scale heat) {
        List<Stroke> strokes = strokes();
        for (int i = 0; i < scene.series().size(); i++) {
            Series one = scene.series().get(i);
            if (one.banded()) {
                List<Place> outline = new ArrayList<>();
                one.samples().forEach(s -> outline.add(place(heat, s.seconds(), s.high())));
                List<Place> back = new ArrayList<>();
                one.samples().forEach(s -> back.add(place(heat, s.seconds(), s.low())));
                Collections.reverse(back);
                outline.addAll(back);
                marks.add(new Mark.Area("band", outline, Tone.INK, one.chosen() ? 0.13 : 0.06));
            }
        }
        // the chosen curve last, over the others
        for (boolean chosen : new boolean[] {false, true}) {
            for (int i = 0; i < scene.series().size(); i++) {
                Series one = scene.series().get(i);
                if (one.chosen() == chosen) {
                    marks.add(new Mark.Line("curve", curve(heat, one), strokes.get(i)));
                }
            }
        }
    }

    private List<Place> curve(Scale heat, Series one) {
        return one.samples().stream()
                .map(s -> place(heat, s.seconds(), s.celsius()))
                .toList();
    }

    private Place place(Scale heat, double seconds, double celsius) {
        return new Place(time.at(seconds), heat.at(celsius));
    }

    private void labels(Scale heat, List<Label> open, double top, double bottom) {
        List<Label> labels = open.stream()
                .map(label -> {
                    Sample last = label.series().samples().getLast();
                    return new Label(
                            label.series(), label.lines(), place(heat, last.seconds(), last.celsius()), label.stroke());
                })
                .sorted(Comparator.comparingDouble(label -> label.end().y()))
                .toList();
        double[] wanted = labels.stream().mapToDouble(l -> l.end().y()).toArray();
        double[] sizes = labels.stream()
                .mapToDouble(l -> blockHeight(l.lines().size(), l.series().chosen()))
                .toArray();
        double[] centres = Spread.along(wanted, sizes, gap(), top, bottom);
        double x = labelLeft();
        for (int i = 0; i < labels.size(); i++) {
            Label label = labels.get(i);
            boolean chosen = label.series().chosen();
            List<Place> leader = new ArrayList<>();
            leader.add(label.end());
            if (label.end().x() < layout.right() - 1) {
                leader.add(new Place(layout.right(), label.end().y()));
            }
            double elbow = layout.right() + (x - layout.right()) * 0.55;
            leader.add(new Place(elbow, centres[i]));
            leader.add(new Place(x - 5, centres[i]));
            marks.add(new Mark.Line("leader", leader, Stroke.of(Tone.FAINT, 0.8)));
            marks.add(new Mark.Disc("curve-end", label.end(), chosen ? 3.2 : 2.2, Tone.INK));
            double y = centres[i] - sizes[i] / 2 + layout.text() * 0.87;
            for (String line : label.lines()) {
                marks.add(RaceFigure.words("curve-label", x, y, line, layout.text(), chosen, Anchor.START, Tone.INK));
                y += layout.text() * 1.15;
            }
            if (chosen) {
                marks.add(RaceFigure.words(
                        "curve-note", x, y, "chosen", layout.small(), false, Anchor.START, Tone.FAINT));
            }
        }
    }

    /** The softening temperature; its label stands where the fewest curves pass. */
    private void level(Scale heat, double top) {
        double y = heat.at(scene.picture().softensAt());
        marks.add(Mark.Line.of("level", layout.left(), y, layout.right(), y, Stroke.of(Tone.WARM, 1.6)));
        String text = scene.picture().plastic() + " softens at "
                + Checks.number(Math.rint(scene.picture().softensAt() * 10) / 10) + " °C";
        double room = layout.right() - layout.left() - 20;
        String line = Letters.wrap(text, layout.text(), false, room, 1).getFirst();
        double width = Letters.width(line, layout.text(), false);
        List<Words> places = new ArrayList<>();
        for (double baseline : new double[] {y - 7, y + layout.text() + 3}) {
            for (double share : new double[] {0, 1, 0.5, 0.25, 0.75}) {
                double x = layout.left() + 10 + share * (room - width);
                Words words = new Words(
                        "level-label",
                        new Place(x, baseline),
                        line,
                        layout.text(),
                        false,
                        Anchor.START,
                        Tone.WARM,
                        true);
                if (words.box().top() > top) {
                    places.add(words);
                }
            }
        }
        places.stream()
                .min(Comparator.comparingInt(words -> crossings(heat, words.box())))
                .ifPresent(marks::add);
    }

    private int crossings(Scale heat, Box box) {
        int crossings = 0;
        for (Series one : scene.series()) {
            List<Place> curve = curve(heat, one);
            for (int i = 1; i < curve.size(); i++) {
                crossings += crosses(curve.get(i - 1), curve.get(i), box) ? 4 : 0;
            }
            crossings += one.banded() && one.chosen() && shaded(heat, one, box) ? 3 : 0;
        }
        for (double upright : scene.post().stream().toList()) {
            double x = time.at(upright);
            crossings += x > box.left() && x < box.right() ? 4 : 0;
        }
        return crossings;
    }

    /** Whether a band covers some of a box. */
    private boolean shaded(Scale heat, Series one, Box box) {
        return one.samples().stream()
                .filter(s -> time.at(s.seconds()) > box.left() && time.at(s.seconds()) < box.right())
                .anyMatch(s -> heat.at(s.high()) < box.bottom() && heat.at(s.low()) > box.top());
    }

    /** Whether a stretch passes through a box: some part of it within the box's width lies within its height. */
    private static boolean crosses(Place a, Place b, Box box) {
        double from = Math.max(a.x(), box.left());
        double to = Math.min(b.x(), box.right());
        if (from > to || b.x() <= a.x()) {
            return false;
        }
        double slope = (b.y() - a.y()) / (b.x() - a.x());
        double one = a.y() + slope * (from - a.x());
        double other = a.y() + slope * (to - a.x());
        return Math.min(one, other) < box.bottom() && Math.max(one, other) > box.top();
    }
}
