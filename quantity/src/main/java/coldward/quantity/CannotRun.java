package coldward.quantity;

/** The machine does not let us: a port in use, a lock held, a disk full, a folder not writable. */
public final class CannotRun extends ColdwardError {

    private static final long serialVersionUID = 1L;

    /** @param message what was tried, what stood in the way, what helps */
    public CannotRun(String message) {
        super(message);
    }

    /**
     * @param message what was tried, what stood in the way, what helps
     * @param cause what led to it
     */
    public CannotRun(String message, Throwable cause) {
        super(message, cause);
    }
}
