package coldward.watch.replay;

import coldward.watch.History;
import coldward.watch.Recorded;
import coldward.watch.guard.Reads;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The newest reports of every printer, gone with the program. */
public final class MemoryHistory implements History, Recorded {

    private final int most;
    private final Map<String, Deque<Report>> kept = new HashMap<>();

    /** @param most reports kept of each printer; older ones are dropped */
    public MemoryHistory(int most) {
        this.most = most;
    }

    @Override
    public synchronized void keep(String printer, long wallMillis, Reads reads) {
        Deque<Report> own = kept.computeIfAbsent(printer, p -> new ArrayDeque<>());
        own.addLast(new Report(wallMillis, reads));
        if (own.size() > most) {
            own.removeFirst();
        }
    }

    @Override
    public synchronized List<Report> between(String printer, long fromMillis, long toMillis) {
        return kept.getOrDefault(printer, new ArrayDeque<>()).stream()
                .filter(r -> r.wallMillis() >= fromMillis && r.wallMillis() <= toMillis)
                .toList();
    }
}
