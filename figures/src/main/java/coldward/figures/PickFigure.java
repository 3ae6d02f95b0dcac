package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.pick.PickMap;
import coldward.quantity.Dimension;
import coldward.quantity.Units;
import java.util.ArrayList;
import java.util.List;

/**
 * The map of pull-up against diode class: resistance from left to right, one row per class. A full disc is allowed and
 * grows with its noise margin, a cross is not allowed, a ring marks the best pair.
 */
public final class PickFigure {

    private PickFigure() {}

    /**
     * The map as an SVG document of its own.
     *
     * @param printer its name
     * @param map what was computed
     * @param verdict one sentence
     * @param cautions told at the end
     * @param format the page it is laid out for
     * @param theme the ground it stands on
     */
    public static String svg(
            String printer, PickMap map, String verdict, List<String> cautions, Format format, Theme theme) {
        Layout layout = Layout.of(format);
        boolean wide = format == Format.WIDE;
        double edge = layout.edge();
        double room = layout.width() - 2 * edge;
        List<Mark> marks = new ArrayList<>();
        double y = edge + Layout.line(layout.title()) * 0.85;
        marks.add(WiringFigure.words(
                "printer", edge, y, printer + ": pull-up and diode", layout.title(), true, Tone.INK));
        y += layout.text() * 0.8;
        marks.add(Mark.Line.of("rule", edge, y, layout.width() - edge, y, Stroke.of(Tone.INK, 1)));
        y = lines(marks, verdict, edge, y + layout.text() * 0.5, room, layout.verdict());
        List<Double> ohms =
                map.cells().stream().map(PickMap.Cell::ohm).distinct().sorted().toList();
        List<DiodeClass> kinds =
                map.cells().stream().map(PickMap.Cell::diode).distinct().toList();
        double left = wide ? edge + 190 : edge + 12;
        double right = layout.width() - edge - 12;
        double row = wide ? 46 : 52;
        double top = y + layout.text() * 1.5;
        Scale scale = new Scale(Math.log10(ohms.getFirst()), Math.log10(ohms.getLast()), left, right);
        double bottom = top + row * kinds.size();
        for (double tick = 1e3; tick <= ohms.getLast(); tick *= 10) {
            double x = scale.at(Math.log10(tick));
            marks.add(Mark.Line.of("tick", x, top, x, bottom, Stroke.of(Tone.HAIR, 1)));
            marks.add(new Mark.Words(
                    "tick-label",
                    new Place(x, bottom + layout.small() * 1.5),
                    Units.format(Dimension.RESISTANCE, tick, 2),
                    layout.small(),
                    false,
                    Anchor.MIDDLE,
                    Tone.INK,
                    false));
        }
        double widest = map.cells().stream()
                .filter(PickMap.Cell::allowed)
                .mapToDouble(PickMap.Cell::margin)
                .max()
                .orElse(1);
        double most = Math.max(2.5, Math.min(wide ? 12 : 5, 0.45 * (right - left) / ohms.size()));
        for (int k = 0; k < kinds.size(); k++) {
            double line = top + row * (k + (wide ? 0.5 : 0.7));
            marks.add(Mark.Line.of("row", left, line, right, line, Stroke.of(Tone.HAIR, 1)));
            marks.add(WiringFigure.words(
                    "diode",
                    wide ? edge : left,
                    wide ? line + layout.text() * 0.35 : line - 14,
                    kinds.get(k).name(),
                    layout.text(),
                    false,
                    Tone.INK));
            for (PickMap.Cell cell : map.cells()) {
                if (cell.diode().equals(kinds.get(k))) {
                    cell(marks, cell, new Place(scale.at(Math.log10(cell.ohm())), line), most, widest);
                    if (map.best().filter(cell::equals).isPresent()) {
                        best(marks, scale.at(Math.log10(cell.ohm())), line, most, layout);
                    }
                }
            }
        }
        y = bottom + layout.small() * 2.6;
        String legend =
                "Full disc: works in every corner, larger with a larger noise margin. Cross: an error in some corner."
                        + " Ring: best.";
        y = lines(marks, legend, edge, y, room, layout.small());
        y = lines(marks, "CAUTION", edge, y + layout.text() * 0.6, room, layout.text());
        for (String caution : cautions) {
            y = lines(marks, caution, edge, y, room, layout.small());
        }
        return new Drawing(
                        layout.width(),
                        Math.ceil(y + edge),
                        printer + ": pull-up and diode",
                        verdict + " " + String.join(" ", cautions),
                        marks)
                .svg(theme);
    }

    private static void cell(List<Mark> marks, PickMap.Cell cell, Place at, double most, double widest) {
        if (cell.allowed()) {
            double share = Math.clamp(cell.margin() / widest, 0, 1);
            marks.add(new Mark.Disc("allowed", at, most * (0.35 + 0.65 * share), Tone.NORMAL));
            return;
        }
        double s = most * 0.45;
        Stroke stroke = Stroke.of(Tone.DANGER, 1.6);
        marks.add(Mark.Line.of("forbidden", at.x() - s, at.y() - s, at.x() + s, at.y() + s, stroke));
        marks.add(Mark.Line.of("forbidden", at.x() - s, at.y() + s, at.x() + s, at.y() - s, stroke));
    }

    private static void best(List<Mark> marks, double x, double y, double most, Layout layout) {
        List<Place> ring = new ArrayList<>();
        for (int i = 0; i <= 36; i++) {
            double angle = Math.PI * i / 18;
            ring.add(new Place(x + (most + 4) * Math.cos(angle), y + (most + 4) * Math.sin(angle)));
        }
        marks.add(new Mark.Line("best-ring", ring, Stroke.of(Tone.INK, 2)));
        marks.add(new Mark.Words(
                "best",
                new Place(x, y + most + layout.small() + 4),
                "best",
                layout.small(),
                true,
                Anchor.MIDDLE,
                Tone.INK,
                true));
    }

    private static double lines(List<Mark> marks, String text, double x, double from, double room, double size) {
        double y = from;
        for (String line : Letters.wrap(text, size, false, Math.min(room, 1000), 8)) {
            y += Layout.line(size);
            marks.add(WiringFigure.words("text", x, y, line, size, false, Tone.INK));
        }
        return y;
    }
}
