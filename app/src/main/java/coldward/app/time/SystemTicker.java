package coldward.app.time;

import coldward.quantity.Ticker;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The real clock of the running process. */
public final class SystemTicker implements Ticker, AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(SystemTicker.class);

    private final ScheduledExecutorService executor = Executors.newScheduledThreadPool(
            2, Thread.ofPlatform().name("ticker-", 0).daemon(true).factory());

    @Override
    public long wallMillis() {
        return System.currentTimeMillis();
    }

    @Override
    public long nanos() {
        return System.nanoTime();
    }

    @Override
    public Pending after(long delayNanos, Runnable task) {
        ScheduledFuture<?> future = executor.schedule(() -> guarded(task), delayNanos, TimeUnit.NANOSECONDS);
        return () -> future.cancel(false);
    }

    /** A task that fails must not end the schedule; what failed is logged. */
    private static void guarded(Runnable task) {
        try {
            task.run();
        } catch (RuntimeException e) {
            LOG.error("a scheduled task failed", e);
        }
    }

    @Override
    public void close() {
        executor.shutdownNow();
    }
}
