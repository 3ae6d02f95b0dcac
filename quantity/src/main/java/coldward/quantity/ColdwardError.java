package coldward.quantity;

/** The root of the few kinds of error this project raises; callers catch the kind, never the text. */
public abstract sealed class ColdwardError extends RuntimeException
        permits InputError, DataError, DataErrors, NumericalFailure, OwnBug, CannotRun {

    private static final long serialVersionUID = 1L;

    /** @param message what is wrong, where, and what would be right */
    protected ColdwardError(String message) {
        super(message);
    }

    /**
     * @param message what is wrong, where, and what would be right
     * @param cause what led to it
     */
    protected ColdwardError(String message, Throwable cause) {
        super(message, cause);
    }
}
