package coldward.quantity;

/**
 * The one clock. Decisions use {@link #nanos()} (monotonic, unaffected by a changed wall clock), people are shown
 * {@link #wallMillis()}. Tests and the fast rig pass a ticker of their own; only the application makes the real one.
 */
public interface Ticker {

    /** Wall time, ms since 1970-01-01T00:00Z; for display and records, never for decisions. */
    long wallMillis();

    /** Monotonic time in ns from an arbitrary origin. */
    long nanos();

    /**
     * Runs a task once, later. Tasks of one ticker may run at the same time as one another.
     *
     * @param delayNanos how much later, ns, at least 0
     * @param task what to run; an exception it throws is reported by the ticker and does not stop it
     * @return closing it before the task has begun prevents the task; afterwards closing does nothing
     */
    Pending after(long delayNanos, Runnable task);

    /** A task not yet run. */
    interface Pending extends AutoCloseable {
        @Override
        void close();
    }
}
