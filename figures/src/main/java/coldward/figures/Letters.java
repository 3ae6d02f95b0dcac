package coldward.figures;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/**
 * How wide a text will be, without a font at hand: advance widths of the sans-serif faces that share Helvetica's metrics
 * (in thousandths of the size, from memory of the Adobe core font metrics), with some room for faces that are wider.
 */
final class Letters {

    private static final int[] WIDTHS = {
        278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556,
        556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667,
        556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556,
        556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722,
        500, 500, 500, 334, 260, 334, 584
    };

    private static final Pattern SPACES = Pattern.compile("\\s+");

    private static final double ROOM = 1.04;

    private static final double BOLD = 1.07;

    private Letters() {}

    static double width(String text, double size, boolean bold) {
        double sum = text.codePoints().mapToDouble(Letters::width).sum();
        return sum / 1000 * size * ROOM * (bold ? BOLD : 1);
    }

    private static double width(int letter) {
        if (letter >= ' ' && letter <= '~') {
            return WIDTHS[letter - ' '];
        }
        int kind = Character.getType(letter);
        if (kind == Character.NON_SPACING_MARK || kind == Character.ENCLOSING_MARK || kind == Character.FORMAT) {
            return 0;
        }
        if (letter == '\u00b0') {
            return 400;
        }
        return Character.isIdeographic(letter) || letter > 0xffff ? 1000 : 700;
    }

    /** Lines no wider than asked; a word that is too wide by itself is cut. At most {@code most}, the last with an ellipsis. */
    static List<String> wrap(String text, double size, boolean bold, double width, int most) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : SPACES.splitAsStream(text.strip()).toList()) {
            String rest = word;
            String joined = line.isEmpty() ? rest : line + " " + rest;
            if (width(joined, size, bold) <= width) {
                line.setLength(0);
                line.append(joined);
                continue;
            }
            if (!line.isEmpty()) {
                lines.add(line.toString());
                line.setLength(0);
            }
            while (width(rest, size, bold) > width && rest.codePointCount(0, rest.length()) > 1) {
                String head = fitting(rest, size, bold, width);
                lines.add(head);
                rest = rest.substring(head.length());
            }
            line.append(rest);
        }
        lines.add(line.toString());
        if (lines.size() > most) {
            String cut = lines.get(most - 1) + " " + lines.get(most);
            lines = new ArrayList<>(lines.subList(0, most - 1));
            lines.add(fitting(cut, size, bold, width - width("\u2026", size, bold))
                            .stripTrailing() + "\u2026");
        }
        return lines;
    }

    /** As {@link #wrap}, but with lines of about the same length: the least width that needs no further line. */
    static List<String> balanced(String text, double size, double width, int most) {
        List<String> best = wrap(text, size, false, width, most);
        double low = width / 2;
        double high = width;
        while (high - low > 1) {
            double middle = (low + high) / 2;
            List<String> tried = wrap(text, size, false, middle, most + 1);
            if (tried.size() <= best.size()) {
                best = wrap(text, size, false, middle, most);
                high = middle;
            } else {
                low = middle;
            }
        }
        return best;
    }

    /** The longest beginning, at least one letter, no wider than asked. */
    private static String fitting(String text, double size, boolean bold, double width) {
        int end = text.offsetByCodePoints(0, 1);
        while (end < text.length()) {
            int next = text.offsetByCodePoints(end, 1);
            if (width(text.substring(0, next), size, bold) > width) {
                break;
            }
            end = next;
        }
        return text.substring(0, end);
    }
}
