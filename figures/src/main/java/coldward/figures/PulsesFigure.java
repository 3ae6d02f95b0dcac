package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.PulsesScene.Moment;
import java.util.ArrayList;
import java.util.List;

/**
 * The pulses: a stretch of the train with the moments at which the counter looks and what it counts; below it shown
 * against true speed, with the rated speed and the highest honest one.
 */
public final class PulsesFigure {

    private static final int MOST_LINES = 4;

    private PulsesFigure() {}

    /**
     * As an SVG document of its own, which may also stand inside a page.
     *
     * @param picture what it shows
     * @param format the page it is laid out for
     * @param theme the ground it stands on
     */
    public static String svg(PulsesPicture picture, Format format, Theme theme) {
        return drawing(picture, format).svg(theme);
    }

    /**
     * For a terminal.
     *
     * @param picture what it shows
     * @param options width and letters
     * @return lines, each ended by a line feed
     */
    public static String text(PulsesPicture picture, TextOptions options) {
        return new PulsesText(PulsesScene.of(picture), options).lines();
    }

    static Drawing drawing(PulsesPicture picture, Format format) {
        PulsesScene scene = PulsesScene.of(picture);
        Layout layout = Layout.of(format);
        List<Mark> marks = new ArrayList<>();
        double y = head(scene, layout, marks);
        y = train(scene, layout, marks, y);
        y = curve(scene, layout, marks, y);
        return new Drawing(
                layout.width(),
                Math.ceil(y + layout.edge() / 2),
                picture.printer() + ": what the counter makes of the pulses",
                scene.description(),
                marks);
    }

    private static void words(
            List<Mark> marks,
            String name,
            double x,
            double y,
            String text,
            double size,
            boolean bold,
            Anchor at,
            Tone tone) {
        marks.add(RaceFigure.words(name, x, y, text, size, bold, at, tone));
    }

    private static double end(Layout layout) {
        return layout.width() - layout.edge();
    }

    private static double head(PulsesScene scene, Layout layout, List<Mark> marks) {
        double room = layout.width() - 2 * layout.edge();
        double y = layout.edge();
        for (String line : Letters.wrap(scene.picture().printer(), layout.title(), true, room, 2)) {
            y += Layout.line(layout.title()) * 0.85;
            words(marks, "printer", layout.edge(), y, line, layout.title(), true, Anchor.START, Tone.INK);
        }
        for (String line : Letters.wrap(scene.facts(), layout.text(), false, room, 2)) {
            y += Layout.line(layout.text()) * 1.15;
            words(marks, "facts", layout.edge(), y, line, layout.text(), false, Anchor.START, Tone.FAINT);
        }
        y += layout.text() * 0.8;
        marks.add(Mark.Line.of("rule", layout.edge(), y, end(layout), y, Stroke.of(Tone.INK, 1)));
        y += layout.text() * 0.5;
        for (String line :
                Letters.balanced(scene.picture().verdict(), layout.verdict(), Math.min(room, 1000), MOST_LINES)) {
            y += Layout.line(layout.verdict());
            words(marks, "verdict", layout.edge(), y, line, layout.verdict(), false, Anchor.START, Tone.INK);
        }
        return y + layout.text() * 1.6;
    }

    private static double train(PulsesScene scene, Layout layout, List<Mark> marks, double from) {
        Scale time = new Scale(0, scene.seconds(), layout.edge(), end(layout));
        double top = from + layout.small();
        double bottom = top + layout.barHeight() * 2;
        List<Place> pin = new ArrayList<>();
        pin.add(new Place(time.at(0), bottom));
        boolean high = false;
        for (double change : scene.changes()) {
            double x = time.at(Math.min(scene.seconds(), change));
            pin.add(new Place(x, high ? top : bottom));
            high = !high;
            pin.add(new Place(x, high ? top : bottom));
        }
        pin.add(new Place(time.at(scene.seconds()), high ? top : bottom));
        for (Place on : scene.on()) {
            marks.add(Mark.Area.box("supply", time.at(on.x()), top - 6, time.at(on.y()), bottom + 6, Tone.INK, 0.08));
        }
        for (Moment look : scene.looks()) {
            double x = time.at(look.seconds());
            marks.add(Mark.Line.of("look", x, top - 8, x, bottom + 14, Stroke.of(Tone.FAINT, 0.9)));
        }
        marks.add(new Mark.Line("pin", pin, Stroke.of(Tone.INK, 1.8)));
        double count = bottom + 16 + layout.small();
        double free = 0;
        int number = 0;
        for (Moment look : scene.looks()) {
            Place place = new Place(time.at(look.seconds()), look.high() ? top : bottom);
            marks.add(new Mark.Disc("look-end", place, 3.6, Tone.INK));
            if (!look.high()) {
                marks.add(new Mark.Disc("look-low", place, 2.2, Tone.GROUND));
            }
            if (look.counted()) {
                number++;
                String text = Integer.toString(number);
                double width = Letters.width(text, layout.small(), true) + 3;
                if (place.x() - width / 2 >= free && place.x() + width / 2 <= layout.width()) {
                    words(marks, "count", place.x(), count, text, layout.small(), true, Anchor.MIDDLE, Tone.INK);
                    free = place.x() + width / 2;
                }
            }
        }
        double y = count + layout.small() * 0.6;
        String note = scene.counts() + (scene.on().isEmpty() ? "" : "; shaded: supply on");
        for (String line : Letters.wrap(note, layout.small(), false, layout.width() - 2 * layout.edge(), MOST_LINES)) {
            y += Layout.line(layout.small());
            words(marks, "note", layout.edge(), y, line, layout.small(), false, Anchor.START, Tone.FAINT);
        }
        return y + layout.text() * 1.8;
    }

    private static double curve(PulsesScene scene, Layout layout, List<Mark> marks, double from) {
        double line = Layout.line(layout.small());
        double room = end(layout) - layout.left();
        words(
                marks,
                "axis-title",
                layout.edge(),
                from + layout.small(),
                "shown against true speed, rpm",
                layout.small(),
                false,
                Anchor.START,
                Tone.FAINT);
        double top = from + 3.6 * line;
        double bottom = top + layout.plotHeight();
        Scale across = new Scale(0, scene.upTo(), layout.left(), end(layout));
        Scale up = new Scale(0, scene.highestShown() * 1.05, bottom, top);
        for (double tick : up.ticks(layout.heatTicks())) {
            double y = up.at(tick);
            marks.add(Mark.Line.of("grid", layout.left(), y, end(layout), y, Stroke.of(Tone.HAIR, 1)));
            words(
                    marks,
                    "shown-tick",
                    layout.left() - 7,
                    y + layout.small() * 0.35,
                    up.label(tick, layout.heatTicks()),
                    layout.small(),
                    false,
                    Anchor.END,
                    Tone.FAINT);
        }
        for (double tick : across.ticks(layout.timeTicks())) {
            double x = across.at(tick);
            String text = across.label(tick, layout.timeTicks());
            marks.add(Mark.Line.of("true-mark", x, bottom, x, bottom + 6, Stroke.of(Tone.INK, 1)));
            if (x + Letters.width(text, layout.small(), false) / 2 <= layout.width()) {
                words(
                        marks,
                        "true-tick",
                        x,
                        bottom + 9 + layout.small(),
                        text,
                        layout.small(),
                        false,
                        Anchor.MIDDLE,
                        Tone.FAINT);
            }
        }
        marks.add(Mark.Line.of("axis", layout.left(), bottom, end(layout), bottom, Stroke.of(Tone.INK, 1)));
        double honest = Math.min(scene.upTo(), up.to());
        marks.add(Mark.Line.of(
                "as-it-is",
                across.at(0),
                up.at(0),
                across.at(honest),
                up.at(honest),
                Stroke.of(Tone.FAINT, 1).dashed(List.of(3, 4))));
        marks.add(new Mark.Line(
                "shown",
                scene.curve().points().stream()
                        .map(p -> new Place(across.at(p.trueRpm()), up.at(p.shownRpm())))
                        .toList(),
                Stroke.of(Tone.INK, 2.4)));
        upright(marks, layout, across, scene.picture().ratedRpm(), "rated", bottom, from + 2.1 * line, Tone.INK);
        scene.result()
                .highestHonestRpm()
                .ifPresent(rpm -> upright(
                        marks,
                        layout,
                        across,
                        Math.min(rpm, scene.upTo()),
                        rpm > scene.upTo()
                                ? "honest up to %.0f rpm, beyond the edge".formatted(rpm)
                                : "honest up to %.0f rpm".formatted(rpm),
                        bottom,
                        from + 3.3 * line,
                        Tone.NORMAL));
        double x = across.at(scene.picture().trueRpm());
        double y = up.at(scene.result().shownRpm());
        Tone tone = scene.result().honest() ? Tone.NORMAL : Tone.DANGER;
        marks.add(new Mark.Disc("now", new Place(x, y), 6, tone));
        String now = "%s %.0f, shown %.0f"
                .formatted(
                        scene.result().honest() ? "true" : "not honest: true",
                        scene.picture().trueRpm(),
                        scene.result().shownRpm());
        double width = Letters.width(now, layout.text(), true);
        double left = Math.clamp(x + 10, layout.left() + 4, Math.max(layout.left() + 4, end(layout) - width));
        double base = y - 12 - layout.text() < top ? y + layout.text() + 14 : y - 12;
        marks.add(new Mark.Words(
                "now-label",
                new Place(Math.min(left, layout.left() + room - width), base),
                now,
                layout.text(),
                true,
                Anchor.START,
                tone,
                true));
        return bottom + 9 + line + layout.small();
    }

    private static void upright(
            List<Mark> marks,
            Layout layout,
            Scale across,
            double rpm,
            String label,
            double bottom,
            double base,
            Tone tone) {
        double x = across.at(rpm);
        String text = label.equals("rated") ? "rated %.0f rpm".formatted(rpm) : label;
        double half = Letters.width(text, layout.small(), false) / 2;
        double centre = Math.clamp(x, layout.edge() + half, Math.max(layout.edge() + half, end(layout) - half));
        marks.add(Mark.Line.of(
                "upright", x, base + 4, x, bottom, Stroke.of(tone, 1.2).dashed(List.of(6, 3))));
        words(marks, "upright-label", centre, base, text, layout.small(), false, Anchor.MIDDLE, tone);
    }
}
