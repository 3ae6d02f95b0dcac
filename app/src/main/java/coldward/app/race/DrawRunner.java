package coldward.app.race;

import coldward.app.terminal.ProgressLine;
import coldward.app.terminal.Terminal;
import coldward.model.verdict.Draws;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import me.tongfei.progressbar.ProgressBar;

/** Computes draws on all processors, with progress on standard error where a person waits. */
public final class DrawRunner {

    private DrawRunner() {}

    /**
     * Runs draws.
     *
     * @param draws what to draw
     * @param count how many
     * @param terminal where progress goes
     */
    public static List<Draws.Draw> run(Draws draws, int count, Terminal terminal) {
        int threads = Math.min(count, Runtime.getRuntime().availableProcessors());
        try (ExecutorService executor = Executors.newFixedThreadPool(
                        threads,
                        Thread.ofPlatform().name("draw-", 0).daemon(true).factory());
                ProgressBar bar = ProgressLine.bar("draws", count, terminal)) {
            List<Future<Draws.Draw>> pending = new ArrayList<>();
            for (int i = 0; i < count; i++) {
                int index = i;
                pending.add(executor.submit(() -> draws.at(index)));
            }
            List<Draws.Draw> done = new ArrayList<>();
            for (Future<Draws.Draw> each : pending) {
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
