package coldward.quantity;

/** Something that the code itself should have made impossible. The user did nothing wrong. */
public final class OwnBug extends ColdwardError {

    private static final long serialVersionUID = 1L;

    /** @param message what was assumed and what was found */
    public OwnBug(String message) {
        super(message);
    }

    /**
     * @param message what was assumed and what was found
     * @param cause what led to it
     */
    public OwnBug(String message, Throwable cause) {
        super(message, cause);
    }
}
