package coldward.watch;

import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;

/**
 * Runs tasks one after another, in the order of posting, on the threads that post them: whoever finds it idle works it
 * off. No thread of its own and no lock, so thirty printers cost no thirty stacks. Tasks must be short and never block.
 */
final class Mailbox {

    private final Queue<Runnable> tasks = new ConcurrentLinkedQueue<>();
    private final AtomicInteger waiting = new AtomicInteger();
    private final Consumer<Throwable> onFault;

    /** @param onFault told of what a task throws; the next task runs all the same */
    Mailbox(Consumer<Throwable> onFault) {
        this.onFault = onFault;
    }

    void post(Runnable task) {
        tasks.add(task);
        if (waiting.getAndIncrement() == 0) {
            workOff();
        }
    }

    private void workOff() {
        do {
            Runnable next = tasks.poll();
            try {
                if (next != null) {
                    next.run();
                }
            } catch (RuntimeException | Error fault) {
                report(fault);
            }
        } while (waiting.decrementAndGet() != 0);
    }

    private void report(Throwable fault) {
        try {
            onFault.accept(fault);
        } catch (RuntimeException | Error second) {
            // nobody is left to tell, but the next task must run all the same
            second.addSuppressed(fault);
            Thread thread = Thread.currentThread();
            thread.getUncaughtExceptionHandler().uncaughtException(thread, second);
        }
    }
}
