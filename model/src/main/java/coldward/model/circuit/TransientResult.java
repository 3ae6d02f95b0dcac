package coldward.model.circuit;

/** What came of following a circuit in time. */
public sealed interface TransientResult {

    /**
     * Followed to its end.
     *
     * @param trace voltages over time
     * @param residual largest A by which the currents at a node failed to cancel in any step
     * @param steps taken
     * @param rejected steps taken again with a shorter one
     */
    record Followed(Trace trace, double residual, int steps, int rejected) implements TransientResult {}

    /**
     * Not followed to its end.
     *
     * @param at s it came to
     * @param last where it stood
     * @param steps taken
     * @param why what stopped it
     */
    record Stopped(double at, OperatingPoint last, int steps, String why) implements TransientResult {}
}
