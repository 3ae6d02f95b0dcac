package coldward.app.command;

import java.util.concurrent.CountDownLatch;

/** Waits until the process is told to end, and closes what has to be closed in good order before it does. */
final class UntilStopped {

    private UntilStopped() {}

    /** Waits; on a termination signal each is closed in turn before the process ends. */
    static void await(AutoCloseable... closing) {
        CountDownLatch told = new CountDownLatch(1);
        Thread hook = Thread.ofPlatform().name("stop").unstarted(() -> {
            for (AutoCloseable each : closing) {
                try {
                    each.close();
                } catch (Exception e) {
                    System.err.println("while stopping: " + e.getMessage());
                }
            }
            told.countDown();
        });
        Runtime.getRuntime().addShutdownHook(hook);
        try {
            told.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
