package coldward.model.trip;

/** The largest trip speed that keeps spurious trips within a limit, for given confirmations. */
public sealed interface SpuriousLimit {

    /**
     * Any trip speed up to this one meets the limit.
     *
     * @param speed rpm, rounded down by less than {@link SpuriousTrips#SPEED_TOLERANCE} of the reports' deviation
     * @param rate the rate at that speed, not above the limit
     * @param evaluations how often the root search solved the chain
     */
    record Largest(double speed, SpuriousRate rate, int evaluations) implements SpuriousLimit {}

    /**
     * Outliers alone trip too often, however low the trip speed.
     *
     * @param rate the rate at the lowest trip speed looked at
     */
    record NoSpeed(SpuriousRate rate) implements SpuriousLimit {}

    /**
     * The limit allows a trip every k reports: it limits nothing.
     *
     * @param rate the rate where every report is low
     */
    record AnySpeed(SpuriousRate rate) implements SpuriousLimit {}
}
