package coldward.app.shop;

import coldward.model.shop.WatchRules;
import coldward.watch.PrinterView;
import java.util.Optional;

/** How long ago a printer's trip was last tried, in words. */
public final class LastDrill {

    private static final double MILLIS = 1e3;

    private LastDrill() {}

    /** Whether the next drill is due: none was ever carried to its end, the last is too old, or it was not passed. */
    public static boolean overdue(Optional<PrinterView.LastDrill> last, WatchRules rules, long wallMillis) {
        return last.isEmpty()
                || !last.get().passed()
                || (wallMillis - last.get().wallMillis()) / MILLIS > rules.drillEvery();
    }

    /** For example {@code 12 d}, {@code never, overdue}, {@code 95 d, overdue}, {@code 3 d, not passed}. */
    public static String words(Optional<PrinterView.LastDrill> last, WatchRules rules, long wallMillis) {
        String when = last.map(l -> l.days(wallMillis) == 0 ? "today" : l.days(wallMillis) + " d")
                .orElse("never");
        if (last.isPresent() && !last.get().passed()) {
            return when + ", not passed";
        }
        return overdue(last, rules, wallMillis) ? when + ", overdue" : when;
    }
}
