package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;

import java.util.Optional;

/**
 * What a reading suffers beyond its counter.
 *
 * @param jitter s by which a look, or the time stamp of an edge, may be early or late (uniform)
 * @param chopping of the fan's supply; empty for a steady supply
 */
public record Conditions(double jitter, Optional<Chopping> chopping) {

    /** Looks on time, supply steady. */
    public static final Conditions PLAIN = new Conditions(0, Optional.empty());

    public Conditions {
        notNegative("jitter", jitter * 1e3, "ms");
    }

    /** The same with looks that may be early or late, s. */
    public Conditions withJitter(double seconds) {
        return new Conditions(seconds, chopping);
    }

    /** The same with a chopped supply. */
    public Conditions withChopping(Chopping by) {
        return new Conditions(jitter, Optional.of(by));
    }
}
