package coldward.watch.notices;

import coldward.quantity.Ticker;
import coldward.watch.Notice;
import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A notice on the board; changed only with the board locked. */
final class Posted {

    final String id;
    final Notice notice;

    /** A channel that it is not for; empty: none. */
    final String but;

    /** Waits for the end of the quiet hours. */
    boolean held;

    /** Nobody has acknowledged it yet, and nothing else has settled it. */
    boolean open;

    /** Its printers about which no settling news has come. */
    final Set<String> unsettled;

    int repeats;
    Ticker.@Nullable Pending timer;

    Posted(String id, Notice notice, String but) {
        this.id = id;
        this.but = but;
        this.notice = notice;
        this.unsettled = new HashSet<>(notice.printers());
    }

    boolean concerns(String printer) {
        return notice.printers().contains(printer);
    }

    void stopRepeating() {
        open = false;
        if (timer != null) {
            timer.close();
            timer = null;
        }
    }
}
