package coldward.figures;

import coldward.figures.Mark.Place;
import coldward.figures.Mark.Stroke;
import java.util.List;
import java.util.Locale;

/**
 * A finished layout.
 *
 * @param width units
 * @param height units
 * @param title what a reader of the page hears first
 * @param description the same facts as the drawing, in words
 * @param marks in the order of drawing
 */
record Drawing(double width, double height, String title, String description, List<Mark> marks) {

    private static final String FACE = "Helvetica Neue,Helvetica,Arial,Liberation Sans,sans-serif";

    Drawing {
        marks = List.copyOf(marks);
    }

    /**
     * As SVG. Colours are attributes, so that every reader of SVG shows them; AUTO adds a style that changes them for dark
     * screens, with class names that only concern drawings of this project.
     */
    String svg(Theme theme) {
        StringBuilder out = new StringBuilder(16_000);
        String id = "cw-" + Integer.toHexString(31 * marks.hashCode() + title.hashCode());
        out.append("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ")
                .append(number(width))
                .append(' ')
                .append(number(height))
                .append("\" width=\"100%\" role=\"img\" class=\"cw cw-")
                .append(theme.name().toLowerCase(Locale.ROOT))
                .append("\" aria-labelledby=\"")
                .append(id)
                .append("-t ")
                .append(id)
                .append("-d\" font-family=\"")
                .append(FACE)
                .append("\" style=\"font-variant-numeric:tabular-nums\">\n<title id=\"")
                .append(id)
                .append("-t\">")
                .append(escape(title))
                .append("</title>\n<desc id=\"")
                .append(id)
                .append("-d\">")
                .append(escape(description))
                .append("</desc>\n");
        if (theme == Theme.AUTO) {
            style(out);
        }
        out.append("<rect class=\"cw-f-ground\" width=\"")
                .append(number(width))
                .append("\" height=\"")
                .append(number(height))
                .append("\" fill=\"")
                .append(Tone.GROUND.on(theme))
                .append("\"/>\n");
        for (Mark mark : marks) {
            write(out, mark, theme);
        }
        return out.append("</svg>\n").toString();
    }

    private static void style(StringBuilder out) {
        out.append("<style>@media screen and (prefers-color-scheme:dark){");
        for (Tone tone : Tone.values()) {
            String dark = tone.on(Theme.DARK);
            out.append(".cw-auto .cw-f-")
                    .append(tone.word())
                    .append("{fill:")
                    .append(dark)
                    .append('}');
            out.append(".cw-auto .cw-s-")
                    .append(tone.word())
                    .append("{stroke:")
                    .append(dark)
                    .append('}');
        }
        out.append("}</style>\n");
    }

    private static void write(StringBuilder out, Mark mark, Theme theme) {
        switch (mark) {
            case Mark.Line line -> {
                Stroke stroke = line.stroke();
                out.append("<path class=\"cw-")
                        .append(line.name())
                        .append(" cw-s-")
                        .append(stroke.tone().word());
                out.append("\" d=\"");
                path(out, line.places());
                out.append("\" fill=\"none\" stroke=\"").append(stroke.tone().on(theme));
                out.append("\" stroke-width=\"").append(number(stroke.width())).append('"');
                if (!stroke.dash().isEmpty()) {
                    out.append(" stroke-dasharray=\"");
                    for (int i = 0; i < stroke.dash().size(); i++) {
                        out.append(i == 0 ? "" : " ")
                                .append(stroke.dash().get(i).intValue());
                    }
                    out.append('"');
                }
                if (stroke.opacity() < 1) {
                    out.append(" stroke-opacity=\"")
                            .append(number(stroke.opacity()))
                            .append('"');
                }
                out.append(" stroke-linejoin=\"round\"/>\n");
            }
            case Mark.Area area -> {
                out.append("<path class=\"cw-")
                        .append(area.name())
                        .append(" cw-f-")
                        .append(area.tone().word());
                out.append("\" d=\"");
                path(out, area.places());
                out.append("Z\" fill=\"").append(area.tone().on(theme)).append('"');
                if (area.opacity() < 1) {
                    out.append(" fill-opacity=\"")
                            .append(number(area.opacity()))
                            .append('"');
                }
                out.append("/>\n");
            }
            case Mark.Disc disc ->
                out.append("<circle class=\"cw-")
                        .append(disc.name())
                        .append(" cw-f-")
                        .append(disc.tone().word())
                        .append("\" cx=\"")
                        .append(number(disc.centre().x()))
                        .append("\" cy=\"")
                        .append(number(disc.centre().y()))
                        .append("\" r=\"")
                        .append(number(disc.radius()))
                        .append("\" fill=\"")
                        .append(disc.tone().on(theme))
                        .append("\"/>\n");
            case Mark.Words words -> words(out, words, theme);
        }
    }

    private static void words(StringBuilder out, Mark.Words words, Theme theme) {
        if (words.halo()) {
            // a second copy below, in the ground's colour: readable over lines, and understood by every reader of SVG
            text(out, words, "halo", Tone.GROUND, theme, true);
        }
        text(out, words, words.name(), words.tone(), theme, false);
    }

    private static void text(
            StringBuilder out, Mark.Words words, String name, Tone tone, Theme theme, boolean outlined) {
        out.append("<text class=\"cw-").append(name).append(" cw-f-").append(tone.word());
        if (outlined) {
            out.append(" cw-s-").append(tone.word());
        }
        out.append("\" x=\"").append(number(words.place().x()));
        out.append("\" y=\"").append(number(words.place().y()));
        out.append("\" font-size=\"").append(number(words.size()));
        out.append("\" fill=\"").append(tone.on(theme)).append('"');
        if (outlined) {
            out.append(" stroke=\"").append(tone.on(theme)).append("\" stroke-width=\"5\" stroke-linejoin=\"round\"");
            out.append(" aria-hidden=\"true\"");
        }
        if (words.bold()) {
            out.append(" font-weight=\"600\"");
        }
        switch (words.anchor()) {
            case START -> {}
            case MIDDLE -> out.append(" text-anchor=\"middle\"");
            case END -> out.append(" text-anchor=\"end\"");
        }
        out.append('>').append(escape(words.text())).append("</text>\n");
    }

    private static void path(StringBuilder out, List<Place> places) {
        for (int i = 0; i < places.size(); i++) {
            out.append(i == 0 ? 'M' : 'L')
                    .append(number(places.get(i).x()))
                    .append(' ')
                    .append(number(places.get(i).y()));
        }
    }

    /** Two decimals at most. */
    private static String number(double value) {
        double rounded = Math.rint(value * 100) / 100 + 0.0;
        return rounded == Math.rint(rounded) ? Long.toString((long) rounded) : Double.toString(rounded);
    }

    /** Text as XML 1.0 allows it; letters it does not allow become the replacement character. */
    static String escape(String text) {
        StringBuilder out = new StringBuilder(text.length() + 16);
        text.codePoints().forEach(letter -> {
            switch (letter) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> out.appendCodePoint(allowed(letter) ? letter : 0xfffd);
            }
        });
        return out.toString();
    }

    private static boolean allowed(int letter) {
        return letter == '\t'
                || letter == '\n'
                || letter == '\r'
                || (letter >= 0x20 && letter <= 0xd7ff)
                || (letter >= 0xe000 && letter <= 0xfffd)
                || letter >= 0x10000;
    }
}
