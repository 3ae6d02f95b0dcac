package coldward.links.http;

import coldward.watch.Link;
import coldward.watch.Link.Observation;
import coldward.watch.Link.Trouble;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** Listens to a link and remembers. */
final class Ear implements Link.Listener {

    final List<Observation> observations = new CopyOnWriteArrayList<>();
    final List<Trouble> troubles = new CopyOnWriteArrayList<>();

    @Override
    public void observed(Observation observation) {
        observations.add(observation);
    }

    @Override
    public void troubled(Trouble trouble) {
        troubles.add(trouble);
    }

    /** Waits until something holds, looking every few ms; false if it does not within the time. */
    static boolean within(double seconds, BooleanSupplier holds) throws InterruptedException {
        CountDownLatch never = new CountDownLatch(1);
        long end = System.nanoTime() + Math.round(seconds * 1e9);
        while (!holds.getAsBoolean()) {
            if (System.nanoTime() - end > 0 || never.await(5, TimeUnit.MILLISECONDS)) {
                return false;
            }
        }
        return true;
    }

    static void pause(double seconds) throws InterruptedException {
        within(seconds, () -> false);
    }
}
