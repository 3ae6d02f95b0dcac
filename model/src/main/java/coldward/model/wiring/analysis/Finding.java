package coldward.model.wiring.analysis;

import static coldward.quantity.Checks.notBlank;

import coldward.quantity.InputError;
import java.util.Comparator;
import java.util.OptionalDouble;

/**
 * One fault, with the number that shows it.
 *
 * @param code what kind
 * @param at the place, as the description names it
 * @param value what was computed or read, in {@code unit}; empty where there is no number (a name that disagrees)
 * @param limit what it is held against, in {@code unit}; present exactly when {@code value} is
 * @param unit of both; empty for a count
 * @param state in which state and corner the value was found; empty where the fault does not depend on one
 * @param why why it matters
 * @param fix what mends it
 */
public record Finding(
        FindingCode code,
        String at,
        OptionalDouble value,
        OptionalDouble limit,
        String unit,
        String state,
        String why,
        String fix) {

    /** Worst first: by severity, then by code, then by place. */
    public static final Comparator<Finding> BY_HARM = Comparator.comparing(Finding::severity)
            .thenComparingInt(f -> f.code().harm())
            .thenComparing(f -> f.code().code())
            .thenComparing(Finding::at);

    public Finding {
        notBlank("finding at", at);
        notBlank("finding why", why);
        notBlank("finding fix", fix);
        if (value.isPresent() != limit.isPresent()) {
            throw new InputError("finding limit", "finding " + code.code() + " needs value and limit, or neither");
        }
    }

    /** The code's severity. */
    public Severity severity() {
        return code.severity();
    }
}
