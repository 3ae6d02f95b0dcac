package coldward.watch.replay;

import coldward.watch.Journal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;

/** A journal that is gone with the program, for replays. Nothing can be proved by it: every hash is 64 zeros. */
public final class MemoryJournal implements Journal {

    private static final String NO_HASH = "0".repeat(64);

    private final List<Kept> kept = new ArrayList<>();

    @Override
    public synchronized CompletionStage<Kept> append(Entry entry) {
        Kept one = new Kept(kept.size() + 1L, entry, NO_HASH);
        kept.add(one);
        return CompletableFuture.completedFuture(one);
    }

    @Override
    public synchronized List<Kept> of(String printer, String... kinds) {
        List<String> wanted = Arrays.asList(kinds);
        return kept.stream()
                .filter(k -> k.entry().printer().equals(printer))
                .filter(k -> wanted.isEmpty() || wanted.contains(k.entry().kind()))
                .toList();
    }

    @Override
    public void read(long from, Consumer<Kept> reader) {
        List<Kept> copy;
        synchronized (this) {
            copy = List.copyOf(kept);
        }
        copy.stream().filter(k -> k.number() >= from).forEach(reader);
    }

    @Override
    public void close() {
        // nothing is open; what was kept can still be read
    }
}
