package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.WiringPicture.Pin;
import coldward.model.wiring.analysis.Severity;
import java.util.ArrayList;
import java.util.List;

/**
 * The wiring: boards with their contacts, wires with their colours as found, parts, the diode's band on its side, the fan;
 * every finding is pinned where it is, with a number and a shape for its severity, and told in words below.
 */
public final class WiringFigure {

    private WiringFigure() {}

    /**
     * The wiring as an SVG document of its own, which may also stand inside a page.
     *
     * @param picture what it shows
     * @param format the page it is laid out for
     * @param theme the ground it stands on
     */
    public static String svg(WiringPicture picture, Format format, Theme theme) {
        return drawing(picture, format).svg(theme);
    }

    /**
     * The wiring for a terminal.
     *
     * @param picture what it shows
     * @param options width, letters and colour
     * @return lines, each ended by a line feed
     */
    public static String text(WiringPicture picture, TextOptions options) {
        return new WiringText(picture, options).lines();
    }

    static Drawing drawing(WiringPicture picture, Format format) {
        Layout layout = Layout.of(format);
        List<Mark> marks = new ArrayList<>();
        double edge = layout.edge();
        double y = edge + Layout.line(layout.title()) * 0.85;
        marks.add(words("printer", edge, y, picture.printer() + ": wiring", layout.title(), true, Tone.INK));
        y += layout.text() * 0.8;
        marks.add(Mark.Line.of("rule", edge, y, layout.width() - edge, y, Stroke.of(Tone.INK, 1)));
        y += layout.text() * 0.5;
        double room = layout.width() - 2 * edge;
        for (String line : Letters.balanced(picture.verdict(), layout.verdict(), Math.min(room, 1000), 6)) {
            y += Layout.line(layout.verdict());
            marks.add(words("verdict", edge, y, line, layout.verdict(), false, Tone.INK));
        }
        WiringPlan plan = new WiringPlan(picture.wiring(), format, edge, layout.width(), y + layout.text() * 2.2);
        new WiringMarks(picture, plan, layout, format, marks).draw();
        double width = Math.max(layout.width(), plan.right() + edge);
        y = plan.bottom() + layout.text() * 2;
        y = new WiringNotes(picture, layout, width - 2 * edge, marks).draw(y);
        return new Drawing(width, Math.ceil(y + edge), picture.printer() + ": wiring", description(picture), marks);
    }

    private static String description(WiringPicture picture) {
        StringBuilder out = new StringBuilder(picture.verdict());
        picture.wiring()
                .wires()
                .forEach(w -> out.append(' ').append(Wires.sentence(w)).append('.'));
        int number = 1;
        for (Pin pin : picture.pins()) {
            out.append(" %d: %s %s at %s: %s."
                    .formatted(number++, Wires.word(pin.severity()), pin.code(), pin.at(), pin.headline()));
        }
        picture.cautions().forEach(c -> out.append(' ').append(c));
        return out.toString();
    }

    static Mark.Words words(String name, double x, double y, String text, double size, boolean bold, Tone tone) {
        return new Mark.Words(name, new Place(x, y), text, size, bold, Anchor.START, tone, false);
    }

    /** The shape and number of a finding: a triangle for an error, a diamond for a warning, a disc for a note. */
    static void marker(List<Mark> marks, double x, double y, double r, int number, Pin pin) {
        Tone fill = Wires.tone(pin.severity());
        switch (pin.severity()) {
            case ERROR ->
                marks.add(new Mark.Area(
                        "pin-error",
                        List.of(
                                new Place(x - 1.25 * r, y + 0.95 * r),
                                new Place(x, y - 1.35 * r),
                                new Place(x + 1.25 * r, y + 0.95 * r)),
                        fill,
                        1));
            case WARNING -> {
                List<Place> edge = List.of(
                        new Place(x - 1.3 * r, y),
                        new Place(x, y - 1.3 * r),
                        new Place(x + 1.3 * r, y),
                        new Place(x, y + 1.3 * r),
                        new Place(x - 1.3 * r, y));
                // yellow carries no light letters and dark ones only on light ground: an edge and ink do on both
                marks.add(new Mark.Area("pin-warning", edge, Tone.GROUND, 1));
                marks.add(new Mark.Line("pin-warning-edge", edge, Stroke.of(fill, 0.32 * r)));
            }
            case NOTE -> marks.add(new Mark.Disc("pin-note", new Place(x, y), r, fill));
        }
        double size = number > 9 ? 1.0 * r : 1.2 * r;
        marks.add(new Mark.Words(
                "pin-number",
                new Place(x, y + 0.36 * size + (pin.severity() == Severity.ERROR ? 0.15 * r : 0)),
                Integer.toString(number),
                size,
                true,
                Anchor.MIDDLE,
                pin.severity() == Severity.WARNING ? Tone.INK : Tone.GROUND,
                false));
    }
}
