package coldward.model.circuit;

/** What came of solving a circuit at rest. */
public sealed interface DcResult {

    /**
     * Solved.
     *
     * @param point voltages and currents
     * @param residual largest A by which the currents at a node fail to cancel, below {@link DcSolver#RESIDUAL}
     * @param iterations Newton steps, all attempts together
     */
    record Converged(OperatingPoint point, double residual, int iterations) implements DcResult {}

    /**
     * No answer: a numerical failure, which is an answer of its own.
     *
     * @param reason what stopped it
     * @param last where it stood when it gave up
     * @param residual largest A by which the currents at a node failed to cancel there; infinite if not finite
     * @param iterations Newton steps, all attempts together
     */
    record Failed(Reason reason, OperatingPoint last, double residual, int iterations) implements DcResult {}

    /** Why there is no answer. */
    enum Reason {
        /** The equations contradict each other or leave a current undetermined: sources short each other. */
        SINGULAR,
        /** A current source has no way but leakage: voltages of a million volts and more. */
        UNBOUNDED,
        /** Neither Newton nor stepping the sources or the leakage settled within their bounds. */
        NOT_SETTLED
    }
}
