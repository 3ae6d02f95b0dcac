package coldward.figures;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Text in columns of a terminal: a letter takes one, an ideograph two, a combining mark none. */
final class Columns {

    private static final Pattern SPACES = Pattern.compile("\\s+");

    private Columns() {}

    /** Without anything that could move the cursor or change the colour; without letters beyond ASCII if so asked. */
    static String clean(String text, boolean ascii) {
        StringBuilder out = new StringBuilder(text.length());
        text.codePoints().forEach(letter -> {
            if (Character.isWhitespace(letter)) {
                out.append(' ');
            } else if (Character.isISOControl(letter) || Character.getType(letter) == Character.FORMAT) {
                out.append('?');
            } else if (ascii && letter > '~') {
                out.append(plain(letter));
            } else {
                out.appendCodePoint(letter);
            }
        });
        return out.toString();
    }

    private static String plain(int letter) {
        return switch (letter) {
            case '\u00b0' -> "deg";
            case '\u00b7' -> "-";
            case '\u2013', '\u2014' -> "-";
            case '\u2026' -> "...";
            default -> "?";
        };
    }

    static int width(String text) {
        return text.codePoints().map(Columns::width).sum();
    }

    private static int width(int letter) {
        int kind = Character.getType(letter);
        if (kind == Character.NON_SPACING_MARK || kind == Character.ENCLOSING_MARK) {
            return 0;
        }
        boolean wide = Character.isIdeographic(letter)
                || (letter >= 0x1100 && letter <= 0x115f)
                || (letter >= 0x3000 && letter <= 0x30ff)
                || (letter >= 0xac00 && letter <= 0xd7a3)
                || (letter >= 0xff01 && letter <= 0xff60)
                || (letter >= 0x1f300 && letter <= 0x1faff);
        return wide ? 2 : 1;
    }

    /** Lines no wider than asked, at least 2; a word that is too wide by itself is cut. */
    static List<String> wrap(String text, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : SPACES.splitAsStream(text.strip()).toList()) {
            String rest = word;
            if (!line.isEmpty() && width(line.toString()) + 1 + width(rest) <= width) {
                line.append(' ').append(rest);
                continue;
            }
            if (!line.isEmpty()) {
                lines.add(line.toString());
                line.setLength(0);
            }
            while (width(rest) > width) {
                String head = fitting(rest, width);
                lines.add(head);
                rest = rest.substring(head.length());
            }
            line.append(rest);
        }
        lines.add(line.toString());
        return lines;
    }

    /** The longest beginning, at least one letter, no wider than asked. */
    private static String fitting(String text, int width) {
        int end = text.offsetByCodePoints(0, 1);
        while (end < text.length()) {
            int next = text.offsetByCodePoints(end, 1);
            if (width(text.substring(0, next)) > width) {
                break;
            }
            end = next;
        }
        return text.substring(0, end);
    }

    /** Filled up with spaces, before the text if {@code right}. */
    static String pad(String text, int width, boolean right) {
        String spaces = " ".repeat(Math.max(0, width - width(text)));
        return right ? spaces + text : text + spaces;
    }
}
