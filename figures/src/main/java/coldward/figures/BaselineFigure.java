package coldward.figures;

import coldward.figures.BaselinePicture.Column;
import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * A baseline: reported speed against time, the band that a healthy fan keeps to, the drift line, and below, on the same
 * axis, a strip with the outliers.
 */
public final class BaselineFigure {

    private static final int MOST_COLUMNS = 800;
    private static final int MOST_DOTS = 400;
    private static final int MOST_LINES = 4;

    private BaselineFigure() {}

    /** As an SVG document of its own, which may also stand inside a page. */
    public static String svg(BaselinePicture picture, Format format, Theme theme) {
        return drawing(picture, format).svg(theme);
    }

    /** For a terminal; lines, each ended by a line feed. */
    public static String text(BaselinePicture picture, TextOptions options) {
        return new BaselineText(picture, options).lines();
    }

    static Drawing drawing(BaselinePicture picture, Format format) {
        Layout layout = Layout.of(format);
        List<Mark> marks = new ArrayList<>();
        double y = head(picture, layout, marks);
        double top = y + Layout.line(layout.small()) + layout.small() * 0.6;
        double bottom = top + layout.plotHeight() * 0.8;
        double[] range = picture.range();
        Scale speed = new Scale(range[0], range[1], bottom, top);
        Scale time = new Scale(0, picture.recording().length() / picture.perUnit(), layout.left(), layout.right());
        band(picture, layout, speed, marks);
        axes(picture, layout, speed, y, marks);
        reports(picture, speed, time, marks);
        drift(picture, layout, speed, time, y, marks);
        double end = outliers(picture, layout, time, bottom, marks);
        end = timeAxis(picture, layout, time, end, marks);
        return new Drawing(
                layout.width(),
                Math.ceil(end + layout.edge()),
                picture.name() + ": reported speed of a healthy fan",
                picture.description(),
                marks);
    }

    private static double head(BaselinePicture picture, Layout layout, List<Mark> marks) {
        double room = layout.width() - 2 * layout.edge();
        double y = layout.edge();
        for (String line : Letters.wrap(picture.name(), layout.title(), true, room, 2)) {
            y += Layout.line(layout.title()) * 0.85;
            marks.add(text("printer", layout.edge(), y, line, layout.title(), Anchor.START, Tone.INK));
        }
        y += layout.text() * 0.8;
        marks.add(Mark.Line.of("rule", layout.edge(), y, layout.width() - layout.edge(), y, Stroke.of(Tone.INK, 1)));
        y += layout.text() * 0.5;
        for (String line : Letters.balanced(picture.verdict(), layout.verdict(), Math.min(room, 1000), MOST_LINES)) {
            y += Layout.line(layout.verdict());
            marks.add(text("verdict", layout.edge(), y, line, layout.verdict(), Anchor.START, Tone.INK));
        }
        return y + layout.text() * 1.2;
    }

    private static void band(BaselinePicture picture, Layout layout, Scale speed, List<Mark> marks) {
        marks.add(Mark.Area.box(
                "healthy",
                layout.left(),
                speed.at(picture.bandHigh()),
                layout.right(),
                speed.at(picture.bandLow()),
                Tone.NORMAL,
                0.14));
    }

    private static void axes(BaselinePicture picture, Layout layout, Scale speed, double from, List<Mark> marks) {
        marks.add(text(
                "axis-title",
                layout.edge(),
                from + layout.small(),
                "reported speed, rpm",
                layout.small(),
                Anchor.START,
                Tone.FAINT));
        for (double tick : speed.ticks(layout.heatTicks())) {
            double y = speed.at(tick);
            marks.add(Mark.Line.of("grid", layout.left(), y, layout.right(), y, Stroke.of(Tone.HAIR, 1)));
            marks.add(text(
                    "speed-tick",
                    layout.left() - 9,
                    y + layout.small() * 0.35,
                    speed.label(tick, layout.heatTicks()),
                    layout.small(),
                    Anchor.END,
                    Tone.FAINT));
        }
        marks.add(
                Mark.Line.of("axis", layout.left(), speed.start(), layout.left(), speed.end(), Stroke.of(Tone.INK, 1)));
        double x = layout.right() + (layout.width() > 600 ? 16 : 8);
        double room = layout.width() - layout.edge() - x;
        List<List<String>> labels = new ArrayList<>();
        labels.add(Letters.wrap("mean " + rpm(picture.baseline().mean()), layout.text(), false, room, 3));
        labels.add(Letters.wrap(
                "healthy band: up to " + rpm(picture.bandHigh()), layout.small(), false, room, MOST_LINES));
        labels.add(Letters.wrap("down to " + rpm(picture.bandLow()), layout.small(), false, room, MOST_LINES));
        double[] wanted = {
            speed.at(picture.baseline().mean()), speed.at(picture.bandHigh()), speed.at(picture.bandLow())
        };
        int[] order = {1, 0, 2};
        double[] sorted = new double[3];
        double[] sizes = new double[3];
        for (int i = 0; i < 3; i++) {
            sorted[i] = wanted[order[i]];
            sizes[i] = labels.get(order[i]).size() * layout.text() * 1.15;
        }
        double[] centres = Spread.along(sorted, sizes, layout.text() * 0.4, speed.end(), speed.start());
        for (int i = 0; i < 3; i++) {
            double y = centres[i] - sizes[i] / 2 + layout.text() * 0.87;
            double size = order[i] == 0 ? layout.text() : layout.small();
            for (String line : labels.get(order[i])) {
                marks.add(text("label", x, y, line, size, Anchor.START, order[i] == 0 ? Tone.INK : Tone.NORMAL));
                y += layout.text() * 1.15;
            }
        }
    }

    private static void reports(BaselinePicture picture, Scale speed, Scale time, List<Mark> marks) {
        List<Column> columns = picture.columns(MOST_COLUMNS);
        if (picture.recording().reports().size() > MOST_COLUMNS) {
            List<Place> outline = new ArrayList<>();
            columns.forEach(c -> outline.add(new Place(time.at(c.seconds() / picture.perUnit()), speed.at(c.high()))));
            List<Place> back = new ArrayList<>();
            columns.forEach(c -> back.add(new Place(time.at(c.seconds() / picture.perUnit()), speed.at(c.low()))));
            Collections.reverse(back);
            outline.addAll(back);
            marks.add(new Mark.Area("spread", outline, Tone.INK, 0.22));
        }
        marks.add(new Mark.Line(
                "reports",
                columns.stream()
                        .map(c -> new Place(time.at(c.seconds() / picture.perUnit()), speed.at(c.mean())))
                        .toList(),
                Stroke.of(Tone.INK, 1)));
    }

    private static void drift(
            BaselinePicture picture, Layout layout, Scale speed, Scale time, double from, List<Mark> marks) {
        double length = picture.recording().length();
        marks.add(Mark.Line.of(
                "drift",
                time.at(0),
                speed.at(picture.drift(0)),
                time.at(length / picture.perUnit()),
                speed.at(picture.drift(length)),
                Stroke.of(Tone.WARM, 2).dashed(List.of(9, 5))));
        marks.add(text(
                "drift-label",
                layout.right(),
                from + layout.small(),
                String.format(
                        Locale.ROOT,
                        "dashed: drift %+.3g rpm/h",
                        picture.baseline().drift().slope() + 0.0),
                layout.small(),
                Anchor.END,
                Tone.WARM));
    }

    /** A strip of its own: an outlier reads 0 or far off, and on the axis above would flatten everything else. */
    private static double outliers(
            BaselinePicture picture, Layout layout, Scale time, double bottom, List<Mark> marks) {
        double y = bottom + layout.small() * 1.4;
        List<Integer> all = picture.outliers();
        marks.add(Mark.Line.of("strip", layout.left(), y, layout.right(), y, Stroke.of(Tone.HAIR, 1)));
        int step = Math.max(1, (all.size() + MOST_DOTS - 1) / MOST_DOTS);
        for (int i = 0; i < all.size(); i += step) {
            double seconds = all.get(i) * picture.recording().interval();
            marks.add(new Mark.Disc("outlier", new Place(time.at(seconds / picture.perUnit()), y), 3.6, Tone.ABNORMAL));
        }
        double x = layout.right() + (layout.width() > 600 ? 16 : 8);
        String text = all.isEmpty() ? "no outliers" : all.size() == 1 ? "1 outlier" : all.size() + " outliers";
        marks.add(text("strip-label", x, y + layout.small() * 0.35, text, layout.small(), Anchor.START, Tone.INK));
        return y + layout.small() * 1.1;
    }

    private static double timeAxis(BaselinePicture picture, Layout layout, Scale time, double y, List<Mark> marks) {
        marks.add(Mark.Line.of("axis", layout.left(), y, layout.right(), y, Stroke.of(Tone.INK, 1)));
        for (double tick : time.ticks(layout.timeTicks())) {
            double x = time.at(tick);
            marks.add(Mark.Line.of("time-mark", x, y, x, y + 6, Stroke.of(Tone.INK, 1)));
            marks.add(text(
                    "time-tick",
                    x,
                    y + 9 + layout.small(),
                    time.label(tick, layout.timeTicks()) + " " + picture.timeUnit(),
                    layout.small(),
                    Anchor.MIDDLE,
                    Tone.FAINT));
        }
        return y + 9 + layout.small();
    }

    private static String rpm(double value) {
        return String.format(Locale.ROOT, "%.0f rpm", value);
    }

    private static Mark.Words text(
            String name, double x, double y, String text, double size, Anchor anchor, Tone tone) {
        return RaceFigure.words(name, x, y, text, size, name.equals("printer"), anchor, tone);
    }
}
