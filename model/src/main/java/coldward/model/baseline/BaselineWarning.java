package coldward.model.baseline;

/** Why a baseline is not to be relied on, with the number and the limit behind it. */
public sealed interface BaselineWarning {

    /**
     * Too few reports to know the scatter.
     *
     * @param effectiveReports reports that are worth as much as independent ones, n (1 - r) / (1 + r)
     * @param limit the least number
     * @param recommendedLength s of recording that would reach it
     */
    record TooShort(double effectiveReports, double limit, double recommendedLength) implements BaselineWarning {}

    /**
     * The speed moves in the first half of the recording and has settled in the second.
     *
     * @param firstHalf rpm by which it moves in the first half
     * @param secondHalf rpm by which it moves in the second half
     * @param limit rpm that are allowed
     */
    record StillWarmingUp(double firstHalf, double secondHalf, double limit) implements BaselineWarning {}

    /**
     * The speed drifts through the recording.
     *
     * @param change rpm from one end of the recording to the other
     * @param limit rpm that are allowed
     */
    record NotStationary(double change, double limit) implements BaselineWarning {}

    /**
     * All reports but the outliers are equal: the scatter is below the resolution, or the recording is made up.
     *
     * @param deviation rpm that is reported instead: the resolution over sqrt(12), or 0 where none is known
     * @param resolution rpm
     */
    record NoScatter(double deviation, double resolution) implements BaselineWarning {}

    /**
     * So many outliers that the signal, not the fan, needs a look.
     *
     * @param rate share of the reports
     * @param limit largest share
     */
    record ManyOutliers(double rate, double limit) implements BaselineWarning {}

    /**
     * Neighbouring reports are so alike that the fan drifts rather than scatters.
     *
     * @param correlation between neighbouring reports
     * @param limit largest correlation the trip's design takes
     */
    record TooAlike(double correlation, double limit) implements BaselineWarning {}
}
