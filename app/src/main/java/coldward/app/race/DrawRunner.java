package coldward.app.race;

import coldward.app.terminal.ProgressLine;
import coldward.app.terminal.Terminal;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntFunction;
import me.tongfei.progressbar.ProgressBar;

/** Computes draws on all processors, with progress on standard error where a person waits. */
public final class DrawRunner {

    private DrawRunner() {}

    /**
     * Runs draws.
     *
     * @param draw computes the draw of an index from 0, on any thread
     * @param count how many
     * @param terminal where progress goes
     */
    public static <T> List<T> run(IntFunction<T> draw, int count, Terminal terminal) {
        int threads = Math.min(count, Runtime.getRuntime().availableProcessors());
        try (ExecutorService executor = Executors.newFixedThreadPool(
                        threads,
                        Thread.ofPlatform().name("draw-", 0).daemon(true).factory());
                ProgressBar bar = ProgressLine.bar("draws", count, terminal)) {
            List<Future<T>> pending = new ArrayList<>();
            for (int i = 0; i < count; i++) {
                int index = i;
                pending.add(executor.submit(() -> draw.apply(index)));
            }
            List<T> done = new ArrayList<>();
            for (Future<T> each : pending) {
                done.add(each.get());
                bar.step();
            }
            return done;
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw new coldward.quantity.OwnBug("a draw failed", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new coldward.quantity.CannotRun("interrupted while drawing", e);
        }
    }
}
