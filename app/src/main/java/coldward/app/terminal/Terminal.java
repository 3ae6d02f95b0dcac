package coldward.app.terminal;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Where a command writes. Colour only on a terminal and never with {@code NO_COLOR} (no-color.org) set; line drawing in
 * Unicode where the locale has it, in ASCII elsewhere.
 *
 * @param out results
 * @param err errors and progress
 * @param width columns
 * @param colour whether state may be coloured
 * @param unicode whether line-drawing characters may be used
 * @param interactive whether a person is at the terminal
 */
public record Terminal(
        PrintWriter out, PrintWriter err, int width, boolean colour, boolean unicode, boolean interactive) {

    private static final int USUAL_WIDTH = 100;
    private static final int NARROWEST = 40;
    private static final int WIDEST = 160;

    /** The process's own. */
    @SuppressWarnings("SystemConsoleNull") // the default console of JDK 25 is null where no person is
    public static Terminal ofProcess(PrintStream out, PrintStream err, Map<String, String> environment) {
        java.io.Console console = System.console();
        boolean interactive = console != null && console.isTerminal();
        String locale = environment.getOrDefault(
                "LC_ALL", environment.getOrDefault("LC_CTYPE", environment.getOrDefault("LANG", "")));
        boolean unicode =
                locale.isEmpty() || locale.toUpperCase(java.util.Locale.ROOT).contains("UTF");
        boolean colour = interactive
                && environment.getOrDefault("NO_COLOR", "").isEmpty()
                && !"dumb".equals(environment.get("TERM"));
        Charset charset = unicode ? StandardCharsets.UTF_8 : StandardCharsets.US_ASCII;
        return new Terminal(
                new PrintWriter(out, true, charset),
                new PrintWriter(err, true, charset),
                width(environment.get("COLUMNS")),
                colour,
                unicode,
                interactive);
    }

    private static int width(@org.jspecify.annotations.Nullable String columns) {
        if (columns == null || !columns.matches("[0-9]{1,4}")) {
            return USUAL_WIDTH;
        }
        return Math.clamp(Integer.parseInt(columns), NARROWEST, WIDEST);
    }

    /** Prints a line of result. */
    public void line(String text) {
        out.println(text);
    }

    /** Prints an empty line of result. */
    public void line() {
        out.println();
    }

    /** Prints text folded at the width, with an indent for the lines after the first. */
    public void folded(String text, String indent) {
        fold(text, indent).forEach(out::println);
    }

    /** Text folded at the width, with an indent for the lines after the first; what fits stays as it is. */
    public List<String> fold(String text, String indent) {
        if (text.length() <= width) {
            return List.of(text);
        }
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.strip().split(" +", -1)) {
            if (line.length() > indent.length() && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line = new StringBuilder(indent);
            }
            if (!line.isEmpty() && !line.toString().equals(indent)) {
                line.append(' ');
            }
            line.append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
