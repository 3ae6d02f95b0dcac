package coldward.model.design;

import coldward.model.build.Action;
import coldward.model.build.Trip;
import coldward.model.trip.Detection;
import coldward.model.trip.FailureMode;
import coldward.model.trip.Margin;
import coldward.model.trip.SpuriousRate;
import coldward.model.verdict.Uncertainty.Band;
import java.util.List;
import java.util.Set;

/**
 * A trip with a response, judged.
 *
 * @param trip the trip
 * @param response the actions
 * @param spurious how often a healthy fan trips
 * @param modes every way of failing, in the enum's order
 * @param finding what speaks against it before the margin is looked at
 * @param margin smallest over the modes; nothing saves it where a fan below the unsafe speed may go unnoticed
 */
public record Judged(
        Trip trip,
        Set<Action> response,
        SpuriousRate spurious,
        List<ModeBudget> modes,
        Finding finding,
        Margin margin) {

    /** What speaks against a trip whatever its margin. */
    public enum Finding {
        /** Nothing. */
        NONE,
        /** A fan that turns between the trip speed and the unsafe speed softens the cold side unnoticed. */
        BELOW_UNSAFE,
        /** A healthy fan is shown below the trip speed. */
        TRIPS_AT_ONCE,
        /** A lost signal would not trip. */
        SIGNAL_LOSS_UNNOTICED
    }

    /**
     * One way of failing.
     *
     * @param mode which
     * @param detection from the failure to the last confirmation
     * @param response s from there until the response has taken effect: link and slowest action
     * @param deadline of the response; always for a lost signal
     * @param margin what is left: 5 % quantile of the deadline minus 99 % quantile of the stop time
     */
    public record ModeBudget(FailureMode mode, Detection detection, double response, Band deadline, Margin margin) {}

    public Judged {
        modes = List.copyOf(modes);
    }

    /** The mode with the smallest margin. */
    public ModeBudget binding() {
        return modes.stream()
                .filter(m -> m.mode().warms())
                .min(java.util.Comparator.comparing(ModeBudget::margin))
                .orElseThrow(() -> new coldward.quantity.OwnBug("no mode was judged"));
    }

    /** One mode's budget. */
    public ModeBudget of(FailureMode mode) {
        return modes.stream()
                .filter(m -> m.mode() == mode)
                .findFirst()
                .orElseThrow(() -> new coldward.quantity.OwnBug("mode " + mode + " was not judged"));
    }

    /** True if it saves the cold side in every mode. */
    public boolean safe() {
        return finding == Finding.NONE && margin.saves();
    }
}
