package coldward.app.shop;

import java.util.ArrayDeque;
import java.util.Deque;

/** What has been opened so far; undone in reverse if the next thing cannot be opened. */
final class Opening {

    private final Deque<AutoCloseable> open = new ArrayDeque<>();

    <T extends AutoCloseable> T add(T next) {
        open.push(next);
        return next;
    }

    void undo(RuntimeException cause) {
        while (!open.isEmpty()) {
            try {
                open.pop().close();
            } catch (Exception e) {
                cause.addSuppressed(e);
            }
        }
    }
}
