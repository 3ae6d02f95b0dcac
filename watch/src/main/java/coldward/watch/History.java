package coldward.watch;

import coldward.watch.guard.Reads;

/** Where every report is kept, compactly. Keeping never blocks; the last few seconds may be lost in a hard end. */
@FunctionalInterface
public interface History {

    /**
     * Keeps what a machine said.
     *
     * @param printer which
     * @param wallMillis when, wall time, ms since 1970
     * @param reads what it said
     */
    void keep(String printer, long wallMillis, Reads reads);

    /** Keeps nothing. */
    static History none() {
        return (printer, wallMillis, reads) -> {};
    }
}
