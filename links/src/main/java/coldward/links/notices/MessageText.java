package coldward.links.notices;

import coldward.watch.Notice;
import coldward.watch.notices.Message;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;

/** A message as plain text: for each notice which printer, what happened, what was done, what to do next. */
public final class MessageText {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss");

    private MessageText() {}

    /** The whole text, lines ended by line feeds. */
    public static String of(Message message, ZoneId zone) {
        StringBuilder out = new StringBuilder();
        if (message.summary()) {
            out.append(message.line()).append("\n\n");
        }
        for (Notice notice : message.notices()) {
            out.append(notice.kind().signal())
                    .append("  ")
                    .append(TIME.format(
                            Instant.ofEpochMilli(notice.wallMillis()).atZone(zone)))
                    .append('\n');
            line(
                    out,
                    "Printer:  ",
                    notice.printers().isEmpty() ? "the watch itself" : String.join(", ", notice.printers()));
            line(out, "Happened: ", notice.happened());
            line(out, "Done:     ", notice.done());
            line(out, "Next:     ", notice.next());
            out.append('\n');
        }
        if (message.notices().stream().anyMatch(n -> n.kind().repeats())) {
            out.append("This is repeated until somebody acknowledges it:\n  coldward acknowledge SHOP")
                    .append(
                            message.printers().size() == 1
                                    ? " " + quoted(message.printers().getFirst())
                                    : "")
                    .append(" --name YOU\n\n");
        }
        out.append("A fan trip protects the process; it is not fire protection.\n");
        return out.toString();
    }

    private static String quoted(String name) {
        return name.contains(" ") ? "'" + name + "'" : name;
    }

    private static void line(StringBuilder out, String label, String text) {
        out.append(label).append(text.replaceAll("\\p{Cntrl}", " ")).append('\n');
    }
}
