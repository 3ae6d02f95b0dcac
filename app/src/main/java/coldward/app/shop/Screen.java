package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.shop.ReadName;
import coldward.quantity.Ticker;
import coldward.watch.Notice;
import coldward.watch.Notices;
import coldward.watch.PrinterView;
import coldward.watch.guard.FanState;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import tools.jackson.databind.node.ObjectNode;

/**
 * Shows a running watch: on a terminal the live table with the last messages under it, elsewhere a line for every change
 * of state and every notice, or with JSON an object a line.
 */
public final class Screen implements Notices {

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss");
    private static final String CLEAR = "\u001b[H\u001b[J";
    private static final int KEPT = 12;
    private static final long REFRESH_NANOS = 500_000_000L;

    private final Terminal terminal;
    private final Ticker ticker;
    private final boolean json;
    private final String heading;
    private final Deque<String> messages = new ArrayDeque<>();
    private final Map<String, FanState> last = new ConcurrentHashMap<>();

    public Screen(Terminal terminal, Ticker ticker, boolean json, String heading) {
        this.terminal = terminal;
        this.ticker = ticker;
        this.json = json;
        this.heading = heading;
    }

    /** Begins to show a watch. */
    public void show(ShopWatch watch) {
        watch.watch().onView(this::changed);
        if (json) {
            return;
        }
        LiveTable table = new LiveTable(watch, terminal);
        if (terminal.interactive()) {
            redraw(table);
        } else {
            terminal.line(heading);
            terminal.out().print(table.text(ticker.nanos(), ticker.wallMillis()));
            terminal.out().flush();
        }
    }

    private void redraw(LiveTable table) {
        StringBuilder page = new StringBuilder(CLEAR).append(heading).append("\n\n");
        page.append(table.text(ticker.nanos(), ticker.wallMillis())).append('\n');
        synchronized (this) {
            messages.forEach(m -> page.append(m).append('\n'));
        }
        terminal.out().print(page);
        terminal.out().flush();
        ticker.after(REFRESH_NANOS, () -> redraw(table));
    }

    /** A message of several lines, kept under the table. */
    public synchronized void say(String text) {
        if (terminal.interactive() && !json) {
            for (String line : text.split("\n", -1)) {
                terminal.fold(line, "    ").forEach(messages::addLast);
            }
            while (messages.size() > KEPT) {
                messages.removeFirst();
            }
        } else if (!json) {
            for (String line : text.split("\n", -1)) {
                terminal.fold(line, "    ").forEach(terminal::line);
            }
        }
    }

    @Override
    public void tell(Notice notice) {
        if (json) {
            ObjectNode node = event("notice", notice.wallMillis());
            node.put("kind", notice.kind().word());
            node.put("signal", notice.kind().signal().name());
            notice.printers().forEach(node.putArray("printers")::add);
            node.put("happened", notice.happened());
            node.put("done", notice.done());
            node.put("next", notice.next());
            line(node);
        } else {
            say("%s  %s  %s. Done: %s. Next: %s."
                    .formatted(
                            clock(notice.wallMillis()),
                            notice.kind().signal().name(),
                            bare(notice.happened()),
                            bare(notice.done()),
                            bare(notice.next())));
        }
    }

    private static String bare(String sentence) {
        return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
    }

    private void changed(PrinterView view) {
        FanState before = last.put(view.printer(), view.fan());
        if (before == view.fan()) {
            return;
        }
        if (json) {
            ObjectNode node = event("state", ticker.wallMillis());
            node.put("printer", view.printer());
            node.put("state", view.fan().word());
            view.reads().find(ReadName.SPEED).ifPresent(v -> Json.put(node, "speed_rpm", v));
            line(node);
        } else if (!terminal.interactive()) {
            terminal.line("%s  %s is %s%s"
                    .formatted(
                            clock(ticker.wallMillis()),
                            view.printer(),
                            view.fan().word(),
                            view.speed().isPresent()
                                    ? " at %.0f rpm".formatted(view.speed().getAsDouble())
                                    : ""));
        }
    }

    private ObjectNode event(String kind, long wallMillis) {
        ObjectNode node = Json.object();
        node.put("event", kind);
        node.put("at_ms", wallMillis);
        return node;
    }

    private synchronized void line(ObjectNode node) {
        terminal.line(Json.compact(node));
    }

    private static String clock(long wallMillis) {
        return CLOCK.format(Instant.ofEpochMilli(wallMillis).atZone(ZoneId.systemDefault()));
    }
}
