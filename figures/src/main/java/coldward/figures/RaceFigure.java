package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.Mark.Words;
import java.util.ArrayList;
import java.util.List;

/**
 * The race: seconds since the failure along the bottom; above, the filament's temperature where the cold side begins, one
 * line per response; below, on the same axis, the stop time's bar, the deadline's post and the margin between them.
 */
public final class RaceFigure {

    private static final int MOST_TITLE_LINES = 2;

    private static final int MOST_VERDICT_LINES = 6;

    private RaceFigure() {}

    /**
     * The race as an SVG document of its own, which may also stand inside a page.
     *
     * @param picture what it shows
     * @param format the page it is laid out for; the drawing scales with the space it is given
     * @param theme the ground it stands on
     */
    public static String svg(RacePicture picture, Format format, Theme theme) {
        return drawing(picture, format).svg(theme);
    }

    /**
     * The race for a terminal.
     *
     * @param picture what it shows
     * @param options width, letters and colour
     * @return lines, each ended by a line feed
     */
    public static String text(RacePicture picture, TextOptions options) {
        return new RaceText(RaceScene.of(picture), options).lines();
    }

    static Drawing drawing(RacePicture picture, Format format) {
        RaceScene scene = RaceScene.of(picture);
        Layout layout = Layout.of(format);
        List<Mark> marks = new ArrayList<>();
        double y = head(scene, layout, marks);
        Scale time = new Scale(0, scene.end(), layout.left(), layout.right());
        y = new RacePlot(scene, layout, time, marks).draw(y);
        y = new RaceBar(scene, layout, time, marks).draw(y);
        return new Drawing(layout.width(), Math.ceil(y), scene.title(), scene.description(), marks);
    }

    /** Printer, plastic and state, a rule, the verdict; returns where the rest begins. */
    private static double head(RaceScene scene, Layout layout, List<Mark> marks) {
        RacePicture picture = scene.picture();
        double room = layout.width() - 2 * layout.edge();
        double y = layout.edge();
        String facts = picture.plastic() + " · fan fails while " + picture.state();
        double factsWidth = Letters.width(facts, layout.text(), false);
        double nameWidth = Letters.width(picture.printer(), layout.title(), true);
        boolean beside = nameWidth + 24 + factsWidth <= room;
        for (String line : Letters.wrap(picture.printer(), layout.title(), true, room, MOST_TITLE_LINES)) {
            y += Layout.line(layout.title()) * 0.85;
            marks.add(words("printer", layout.edge(), y, line, layout.title(), true, Anchor.START, Tone.INK));
        }
        if (beside) {
            marks.add(words(
                    "facts", layout.width() - layout.edge(), y, facts, layout.text(), false, Anchor.END, Tone.FAINT));
        } else {
            for (String line : Letters.wrap(facts, layout.text(), false, room, MOST_TITLE_LINES)) {
                y += Layout.line(layout.text()) * 1.15;
                marks.add(words("facts", layout.edge(), y, line, layout.text(), false, Anchor.START, Tone.FAINT));
            }
        }
        y += layout.text() * 0.8;
        marks.add(Mark.Line.of("rule", layout.edge(), y, layout.width() - layout.edge(), y, Stroke.of(Tone.INK, 1)));
        y += layout.text() * 0.5;
        for (String line :
                Letters.balanced(picture.verdict(), layout.verdict(), Math.min(room, 1000), MOST_VERDICT_LINES)) {
            y += Layout.line(layout.verdict());
            marks.add(words("verdict", layout.edge(), y, line, layout.verdict(), false, Anchor.START, Tone.INK));
        }
        return y + layout.text() * 1.2;
    }

    static Words words(
            String name, double x, double y, String text, double size, boolean bold, Anchor anchor, Tone tone) {
        return new Words(name, new Place(x, y), text, size, bold, anchor, tone, false);
    }
}
