package coldward.watch.replay;

import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import java.util.Comparator;
import java.util.PriorityQueue;

/**
 * A clock that stands still until it is advanced. Tasks run in the order of their times, those of the same time in the
 * order of asking, on the thread that advances; not thread-safe.
 */
public final class EventTicker implements Ticker {

    private final long wallAtZero;
    private long now;
    private long asked;
    private final PriorityQueue<Task> tasks =
            new PriorityQueue<>(Comparator.comparingLong(Task::at).thenComparingLong(Task::order));

    private record Task(long at, long order, Runnable what) {}

    /** @param wallMillis wall time at the beginning, ms since 1970 */
    public EventTicker(long wallMillis) {
        this.wallAtZero = wallMillis;
    }

    @Override
    public long wallMillis() {
        return wallAtZero + now / 1_000_000;
    }

    @Override
    public long nanos() {
        return now;
    }

    @Override
    public Pending after(long delayNanos, Runnable what) {
        if (delayNanos < 0) {
            throw new InputError("delay", "delay is " + delayNanos + " ns but must be 0 or above");
        }
        Task task = new Task(now + delayNanos, asked++, what);
        tasks.add(task);
        return () -> tasks.remove(task);
    }

    /** Advances to a time, running what falls due on the way, each at its own time. */
    public void advanceTo(long nanos) {
        if (nanos < now) {
            throw new InputError("time", "time is " + nanos + " ns but must not be before " + now + " ns");
        }
        for (Task next = tasks.peek(); next != null && next.at() <= nanos; next = tasks.peek()) {
            tasks.remove(next);
            now = next.at();
            next.what().run();
        }
        now = nanos;
    }

    /** Advances by a time, ns. */
    public void advance(long nanos) {
        advanceTo(now + nanos);
    }

    /** How many tasks wait. */
    public int waiting() {
        return tasks.size();
    }
}
