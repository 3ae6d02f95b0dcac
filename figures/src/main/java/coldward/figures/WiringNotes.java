package coldward.figures;

import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.WiringPicture.Pin;
import java.util.List;

/** What stands below the drawing of a wiring: findings in words, wires, names, cautions. */
final class WiringNotes {

    private static final int MOST_LINES = 12;

    private final WiringPicture picture;
    private final Layout layout;
    private final double room;
    private final List<Mark> marks;
    private double y;

    WiringNotes(WiringPicture picture, Layout layout, double room, List<Mark> marks) {
        this.picture = picture;
        this.layout = layout;
        this.room = Math.min(room, 1000);
        this.marks = marks;
    }

    /** Draws from {@code top} on; returns where it ends. */
    double draw(double top) {
        y = top;
        double edge = layout.edge();
        double r = layout.small() * 0.72;
        int number = 1;
        for (Pin pin : picture.pins()) {
            double indent = edge + 3.6 * r;
            y += layout.text() * 0.7;
            double at = y + Layout.line(layout.text()) - layout.text() * 0.32;
            WiringFigure.marker(marks, edge + 1.4 * r, at, r, number++, pin);
            lines(
                    "finding",
                    indent,
                    Wires.word(pin.severity()).toUpperCase(java.util.Locale.ROOT) + " " + pin.code() + " at " + pin.at()
                            + ": " + pin.headline(),
                    layout.text(),
                    true,
                    Tone.INK);
            lines("why", indent, pin.text(), layout.small(), false, Tone.INK);
        }
        block("Wires, colours as found on this machine", Wires.lines(picture.wiring()));
        block("Names of contacts", Wires.names(picture.wiring()));
        if (!picture.cautions().isEmpty()) {
            y += layout.text();
            marks.add(Mark.Line.of("rule", edge, y, edge + room, y, Stroke.of(Tone.INK, 1)));
            y += layout.text() * 0.3;
            double size = layout.text();
            double at = y + Layout.line(size) - 0.35 * size;
            marks.add(new Mark.Area(
                    "caution-sign",
                    List.of(
                            new Place(edge, at + 0.5 * size),
                            new Place(edge + 0.6 * size, at - 0.6 * size),
                            new Place(edge + 1.2 * size, at + 0.5 * size)),
                    Tone.ABNORMAL,
                    1));
            lines("caution", edge + 1.8 * size, "CAUTION", size, true, Tone.INK);
            picture.cautions().forEach(c -> lines("caution", edge, c, layout.small(), false, Tone.INK));
        }
        return y;
    }

    private void block(String heading, List<String> rows) {
        if (rows.isEmpty()) {
            return;
        }
        y += layout.text() * 1.1;
        lines("heading", layout.edge(), heading, layout.text(), true, Tone.INK);
        rows.forEach(row -> lines("row", layout.edge(), row, layout.small(), false, Tone.INK));
    }

    private void lines(String name, double x, String text, double size, boolean bold, Tone tone) {
        for (String line : Letters.wrap(text, size, bold, layout.edge() + room - x, MOST_LINES)) {
            y += Layout.line(size);
            marks.add(WiringFigure.words(name, x, y, line, size, bold, tone));
        }
    }
}
