package coldward.links.http;

import coldward.quantity.Ticker;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/** The computer's clock, for tests on real sockets. */
final class RealTicker implements Ticker, AutoCloseable {

    private final ScheduledThreadPoolExecutor executor = new ScheduledThreadPoolExecutor(2);

    RealTicker() {
        executor.setRemoveOnCancelPolicy(true);
        executor.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
        executor.setRejectedExecutionHandler((task, pool) -> {});
    }

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
        ScheduledFuture<?> later = executor.schedule(task, delayNanos, TimeUnit.NANOSECONDS);
        return () -> later.cancel(false);
    }

    @Override
    public void close() {
        executor.shutdownNow();
    }
}
