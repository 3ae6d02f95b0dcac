package coldward.quantity;

/** A solver did not reach its answer within its bounds. The message carries the state it stopped in. */
public final class NumericalFailure extends ColdwardError {

    private static final long serialVersionUID = 1L;

    /** @param message what was solved, the residual, the iterations spent */
    public NumericalFailure(String message) {
        super(message);
    }
}
