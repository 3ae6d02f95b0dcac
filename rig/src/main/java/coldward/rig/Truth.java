package coldward.rig;

import coldward.model.build.Action;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What only a simulator can know. Times are rig time, ns.
 *
 * @param at now
 * @param speed the fan's real speed, rpm
 * @param block K
 * @param throat inner wall where the cold side begins, K
 * @param filamentAtThroat K
 * @param sink K
 * @param softenedDepth m
 * @param deepest softened depth since the fan failed, m
 * @param limit of the softened depth, m
 * @param fanFailure what is the matter with the fan
 * @param fanFailedAt since when
 * @param signalFailure what is the matter with the signal
 * @param signalFailedAt since when
 * @param actions when each was first asked for and takes effect
 */
public record Truth(
        long at,
        double speed,
        double block,
        double throat,
        double filamentAtThroat,
        double sink,
        double softenedDepth,
        double deepest,
        double limit,
        Optional<Failure.OfFan> fanFailure,
        OptionalLong fanFailedAt,
        Optional<Failure.OfSignal> signalFailure,
        OptionalLong signalFailedAt,
        Map<Action, PrinterRecord.Asked> actions) {

    /** Since the first failure that is not mended, ns; empty while nothing is the matter. */
    public OptionalLong sinceFailure() {
        long first = Math.min(fanFailedAt.orElse(Long.MAX_VALUE), signalFailedAt.orElse(Long.MAX_VALUE));
        return first == Long.MAX_VALUE ? OptionalLong.empty() : OptionalLong.of(at - first);
    }
}
