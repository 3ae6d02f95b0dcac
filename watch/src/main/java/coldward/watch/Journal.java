package coldward.watch;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;

/**
 * The append-only, hash-chained record of everything that happened. Appending never blocks the caller; entries are
 * kept in the order of the calls.
 */
public interface Journal extends AutoCloseable {

    /**
     * Something that happened.
     *
     * @param wallMillis when, wall time, ms since 1970
     * @param printer which printer; empty for the watch itself
     * @param kind one word with hyphens, for example {@code trip}, {@code action-sent}, {@code release}
     * @param facts values are {@link Long} or {@link String} only, so that their canonical form (RFC 8785) is exact
     */
    record Entry(long wallMillis, String printer, String kind, SortedMap<String, Object> facts) {
        public Entry {
            facts = java.util.Collections.unmodifiableSortedMap(new java.util.TreeMap<>(facts));
            for (var fact : facts.entrySet()) {
                if (!(fact.getValue() instanceof Long) && !(fact.getValue() instanceof String)) {
                    throw new coldward.quantity.OwnBug("journal fact " + fact.getKey() + " is neither Long nor String");
                }
            }
        }
    }

    /**
     * An entry as kept.
     *
     * @param number from 1, without gaps
     * @param entry what happened
     * @param hash SHA-256 over the previous hash and the canonical JSON of number and entry, 64 hex digits
     */
    record Kept(long number, Entry entry, String hash) {}

    /**
     * Appends an entry.
     *
     * @return completes with the kept entry once it is safely on the disk, exceptionally if it could not be written
     */
    CompletionStage<Kept> append(Entry entry);

    /** Entries of a printer of these kinds, oldest first; no kinds: all kinds. Reads only what is on the disk. */
    List<Kept> of(String printer, String... kinds);

    /**
     * The newest entry of a printer of these kinds, if there is one; no kinds: all kinds. A database does this without
     * reading the others.
     */
    default Optional<Kept> latest(String printer, String... kinds) {
        List<Kept> all = of(printer, kinds);
        return all.isEmpty() ? Optional.empty() : Optional.of(all.getLast());
    }

    /** Hands every kept entry from a number on, oldest first, to the reader. */
    void read(long from, Consumer<Kept> reader);

    @Override
    void close();
}
