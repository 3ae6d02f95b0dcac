package coldward.figures;

import coldward.figures.Mark.Anchor;
import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import coldward.figures.RaceScene.Segment;
import coldward.model.heat.Deadline;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The lower part of the race: the stop time's bar, the deadline's post, the margin between them. */
final class RaceBar {

    /** A word over a number, below the place it belongs to. */
    private record Note(double at, String word, String number, boolean strong) {}

    private final RaceScene scene;
    private final Layout layout;
    private final Scale time;
    private final List<Mark> marks;

    RaceBar(RaceScene scene, Layout layout, Scale time, List<Mark> marks) {
        this.scene = scene;
        this.layout = layout;
        this.time = time;
        this.marks = marks;
    }

    /** Draws below a height and returns where the drawing may end. */
    double draw(double from) {
        double wordsBase = from + layout.margin() * 1.1;
        double span = wordsBase + layout.margin() * 0.6;
        double top = span + 14;
        double bottom = top + layout.barHeight();
        double stop = time.at(scene.stopTime().orElse(0.0));
        double post = scene.post().map(time::at).orElse(layout.right());
        marks.add(Mark.Line.of("axis", layout.left(), bottom, layout.right(), bottom, Stroke.of(Tone.INK, 1)));
        for (double tick : time.ticks(layout.timeTicks())) {
            marks.add(Mark.Line.of(
                    "time-mark", time.at(tick), bottom, time.at(tick), bottom + 4, Stroke.of(Tone.INK, 1)));
        }
        marginWords(wordsBase, (stop + post) / 2);
        if (scene.stopTime().isPresent()) {
            raced(top, bottom, span, stop, post);
        } else {
            marks.add(Mark.Line.of(
                    "no-stop",
                    layout.left(),
                    (top + bottom) / 2,
                    layout.right(),
                    (top + bottom) / 2,
                    Stroke.of(Tone.FAINT, 1).dashed(List.of(2, 6))));
        }
        post(span, top, bottom, post);
        heading(top, bottom);
        double y = notes(bottom);
        if (scene.picture().stop() instanceof RacePicture.Missing(String why)) {
            double room = layout.width() - 2 * layout.edge();
            y += layout.small() * 0.4;
            for (String line : Letters.wrap(why, layout.text(), false, room, 4)) {
                y += Layout.line(layout.text());
                marks.add(
                        RaceFigure.words("why", layout.edge(), y, line, layout.text(), false, Anchor.START, Tone.INK));
            }
        }
        return y + layout.edge();
    }

    /** Bar, the stretch between its end and the post, and the dimension line over that stretch. */
    private void raced(double top, double bottom, double span, double stop, double post) {
        for (Segment segment : scene.segments()) {
            segment(segment, time.at(segment.from()), time.at(segment.to()), top, bottom);
        }
        boolean late = scene.post().isPresent() && stop > post;
        boolean doomed = scene.picture().deadline() instanceof Deadline.Never;
        Tone tone = late || doomed ? Tone.DANGER : Tone.NORMAL;
        double a = Math.min(stop, post);
        double b = Math.max(stop, post);
        marks.add(Mark.Area.box(late ? "late" : "spare", a, top, b, bottom, tone, late ? 0.3 : 0.16));
        if (scene.post().isPresent() && !doomed) {
            dimension(a, b, span, top, tone);
        } else if (!doomed) {
            // open to the right: the post is beyond every axis
            marks.add(Mark.Line.of("span", a, span, b, span, Stroke.of(tone, 1.4)));
            marks.add(Mark.Line.of("span-end", a, span - 6, a, top, Stroke.of(Tone.FAINT, 1)));
            arrow(b, span, 1, tone);
        }
    }

    private void dimension(double a, double b, double y, double top, Tone tone) {
        marks.add(Mark.Line.of("span-end", a, y - 6, a, top, Stroke.of(Tone.FAINT, 1)));
        marks.add(Mark.Line.of("span-end", b, y - 6, b, top, Stroke.of(Tone.FAINT, 1)));
        if (b - a >= 24) {
            marks.add(Mark.Line.of("span", a, y, b, y, Stroke.of(tone, 1.4)));
            arrow(a, y, -1, tone);
            arrow(b, y, 1, tone);
        } else {
            // too short for arrows inside: they point at it from outside
            marks.add(Mark.Line.of("span", a - 18, y, b + 18, y, Stroke.of(tone, 1.4)));
            arrow(a, y, 1, tone);
            arrow(b, y, -1, tone);
        }
    }

    private void arrow(double x, double y, int direction, Tone tone) {
        double back = x - direction * 9;
        marks.add(new Mark.Area(
                "arrow", List.of(new Place(x, y), new Place(back, y - 3.2), new Place(back, y + 3.2)), tone, 1));
    }

    private void post(double span, double top, double bottom, double x) {
        Tone tone = scene.picture().deadline() instanceof Deadline.Never ? Tone.DANGER : Tone.INK;
        if (scene.post().isEmpty()) {
            double middle = (top + bottom) / 2;
            marks.add(Mark.Line.of("post-open", x, middle, x + 16, middle, Stroke.of(tone, 2)));
            marks.add(new Mark.Area(
                    "post-open",
                    List.of(new Place(x + 24, middle), new Place(x + 13, middle - 5), new Place(x + 13, middle + 5)),
                    tone,
                    1));
            return;
        }
        marks.add(Mark.Line.of("post", x, span - 8, x, bottom, Stroke.of(tone, 4)));
        marks.add(Mark.Line.of("post-foot", x - 8, bottom, x + 8, bottom, Stroke.of(tone, 3)));
    }

    private void marginWords(double baseline, double middle) {
        String text = scene.marginWords();
        double size = layout.margin();
        double radius = size * 0.3;
        double sign = 2 * radius + size * 0.35;
        double width = sign + Letters.width(text, size, true);
        double least = layout.edge();
        double most = layout.width() - layout.edge() - width;
        double x = Math.clamp(middle - width / 2, least, Math.max(least, most));
        sign(x + radius, baseline - size * 0.34, radius);
        Tone tone = scene.marginTone();
        // yellow letters cannot be read on a light ground; there the shape alone carries the colour
        marks.add(RaceFigure.words(
                "margin", x + sign, baseline, text, size, true, Anchor.START, tone == Tone.ABNORMAL ? Tone.INK : tone));
    }

    /** A shape for the state, so that it does not rest on colour: disc normal, triangle abnormal, square on edge danger. */
    private void sign(double x, double y, double r) {
        Tone tone = scene.marginTone();
        switch (tone) {
            case NORMAL -> marks.add(new Mark.Disc("sign", new Place(x, y), r, tone));
            case ABNORMAL -> {
                Place tip = new Place(x, y - r);
                Place right = new Place(x + r, y + r * 0.8);
                Place left = new Place(x - r, y + r * 0.8);
                marks.add(new Mark.Area("sign", List.of(tip, right, left), tone, 1));
                marks.add(new Mark.Line("sign-edge", List.of(tip, right, left, tip), Stroke.of(Tone.INK, 1.2)));
            }
            default ->
                marks.add(new Mark.Area(
                        "sign",
                        List.of(
                                new Place(x, y - r * 1.15),
                                new Place(x + r * 1.15, y),
                                new Place(x, y + r * 1.15),
                                new Place(x - r * 1.15, y)),
                        tone,
                        1));
        }
    }

    /** What the bar is and how long, left of it. */
    private void heading(double top, double bottom) {
        // clear of the foot of a post at zero
        double x = layout.left() - 13;
        String total = scene.stopTime().map(RaceScene::seconds).orElse("none");
        double room = x - layout.edge() / 2;
        List<String> lines = new ArrayList<>(Letters.wrap("stop time", layout.small(), false, room, 2));
        double height = (lines.size() + 1) * layout.small() * 1.15;
        double y = (top + bottom) / 2 - height / 2 + layout.small() * 0.9;
        for (String line : lines) {
            marks.add(RaceFigure.words("stop", x, y, line, layout.small(), false, Anchor.END, Tone.FAINT));
            y += layout.small() * 1.15;
        }
        marks.add(RaceFigure.words("stop", x, y, total, layout.small(), true, Anchor.END, Tone.INK));
    }

    private double notes(double bottom) {
        List<Note> notes = new ArrayList<>();
        for (Segment segment : scene.segments()) {
            notes.add(new Note(
                    (time.at(segment.from()) + time.at(segment.to())) / 2,
                    segment.word(),
                    RaceScene.seconds(segment.to() - segment.from()),
                    false));
        }
        double post = scene.post().map(time::at).orElse(layout.right());
        notes.add(new Note(post, "deadline", scene.deadlineWords(), true));
        notes.sort(Comparator.comparingDouble(Note::at));
        double[] wanted = notes.stream().mapToDouble(Note::at).toArray();
        double[] sizes = notes.stream()
                .mapToDouble(n -> Math.max(
                        Letters.width(n.word(), layout.small(), n.strong()),
                        Letters.width(n.number(), layout.small(), n.strong())))
                .toArray();
        double gap = layout.width() > 600 ? 16 : 6;
        double[] centres = Spread.along(wanted, sizes, gap, layout.edge(), layout.width() - layout.edge());
        double knee = bottom + 8;
        double end = bottom + 26;
        double y = end + 3 + layout.small();
        for (int i = 0; i < notes.size(); i++) {
            Note note = notes.get(i);
            marks.add(new Mark.Line(
                    "note-leader",
                    List.of(
                            new Place(note.at(), bottom + (note.strong() ? 2 : 0)),
                            new Place(note.at(), knee),
                            new Place(centres[i], end)),
                    Stroke.of(note.strong() ? Tone.INK : Tone.FAINT, note.strong() ? 1.2 : 0.8)));
            Tone tone = note.strong() ? Tone.INK : Tone.FAINT;
            marks.add(RaceFigure.words(
                    "note", centres[i], y, note.word(), layout.small(), note.strong(), Anchor.MIDDLE, tone));
            marks.add(RaceFigure.words(
                    "note-number",
                    centres[i],
                    y + Layout.line(layout.small()) * 0.95,
                    note.number(),
                    layout.small(),
                    note.strong(),
                    Anchor.MIDDLE,
                    Tone.INK));
        }
        return y + Layout.line(layout.small());
    }

    /** One part of the bar, hatched so that neighbours differ without colour. */
    private void segment(Segment segment, double a, double b, double top, double bottom) {
        marks.add(Mark.Area.box("segment", a, top, b, bottom, Tone.GROUND, 1));
        switch (segment.word()) {
            case "coast" -> hatch(a, b, top, bottom, 6, 1);
            case "reading" -> marks.add(Mark.Area.box("fill", a, top, b, bottom, Tone.INK, 0.28));
            case "confirmations" -> marks.add(Mark.Area.box("fill", a, top, b, bottom, Tone.INK, 0.1));
            case "link" -> marks.add(Mark.Area.box("fill", a, top, b, bottom, Tone.INK, 1));
            default -> hatch(a, b, top, bottom, 6, -1);
        }
        marks.add(new Mark.Line(
                "segment-edge",
                List.of(
                        new Place(a, bottom),
                        new Place(a, top),
                        new Place(b, top),
                        new Place(b, bottom),
                        new Place(a, bottom)),
                Stroke.of(Tone.INK, 1)));
    }

    /** Slanted lines, cut off at the sides. */
    private void hatch(double a, double b, double top, double bottom, double step, int slant) {
        double height = bottom - top;
        for (double foot = a - height + step / 2; foot < b; foot += step) {
            double from = Math.max(a, foot);
            double to = Math.min(b, foot + height);
            if (to > from) {
                double low = bottom - (from - foot);
                double high = bottom - (to - foot);
                marks.add(Mark.Line.of(
                        "hatch",
                        from,
                        slant > 0 ? low : top + bottom - low,
                        to,
                        slant > 0 ? high : top + bottom - high,
                        Stroke.of(Tone.INK, 0.8)));
            }
        }
    }
}
