package coldward.watch;

import static coldward.quantity.Checks.within;

import coldward.model.build.Action;
import coldward.model.build.Response;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.LinkSpec.Proof;
import coldward.quantity.InputError;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What is done on a trip, computed beforehand: the watch itself calculates nothing when seconds count.
 *
 * @param actions the response; sent in the order of {@link Action}, {@code power-off} last and not at once
 * @param choices other sets of actions and how long each still saves; the best without the unconfirmed ones is next
 * @param mapped the actions that the link can request
 * @param proofs what shows each action's effect; where there is none, the machine's answer must do
 * @param attempts how often one action is requested before it counts as unconfirmed, 1 to 20
 * @param blockFanSeconds s for which block-fan must have blown before power-off may stop it, 0 to 3600
 */
public record ResponsePlan(
        Set<Action> actions,
        List<Choice> choices,
        Set<Action> mapped,
        Map<Action, Proof> proofs,
        int attempts,
        double blockFanSeconds) {

    /** Requests of one action before it counts as unconfirmed: two may be lost, a third is rarely (own choice). */
    public static final int USUAL_ATTEMPTS = 3;

    /** s that an action without a proof has for its answer (own choice). */
    static final double ANSWER_WITHIN = 5;

    public ResponsePlan {
        if (actions.isEmpty()) {
            throw new InputError("response actions", "response has no action but needs at least one");
        }
        actions = Collections.unmodifiableSet(EnumSet.copyOf(actions));
        choices = List.copyOf(choices);
        EnumSet<Action> canRequest = EnumSet.noneOf(Action.class);
        canRequest.addAll(mapped);
        mapped = Collections.unmodifiableSet(canRequest);
        Map<Action, Proof> copy = new EnumMap<>(Action.class);
        copy.putAll(proofs);
        proofs = Collections.unmodifiableMap(copy);
        within("response attempts", attempts, 1, 20);
        within("response block-fan time", blockFanSeconds, 0, 3600, "s");
    }

    /**
     * The plan for a printer.
     *
     * @param response the sheet's
     * @param link what can be requested and how it is proved
     * @param choices as computed, in any order
     * @param blockFanSeconds as computed, s
     */
    public static ResponsePlan of(Response response, LinkSpec link, List<Choice> choices, double blockFanSeconds) {
        Set<Action> mapped = switch (link) {
            case LinkSpec.Http http -> http.acts().keySet();
        };
        return new ResponsePlan(response.actions(), choices, mapped, link.proofs(), USUAL_ATTEMPTS, blockFanSeconds);
    }

    /**
     * A set of actions and until when it saves.
     *
     * @param actions at least one
     * @param saves counted from the failure
     */
    public record Choice(Set<Action> actions, Saves saves) {
        public Choice {
            if (actions.isEmpty()) {
                throw new InputError("choice actions", "choice has no action but needs at least one");
            }
            actions = Collections.unmodifiableSet(EnumSet.copyOf(actions));
        }
    }

    /** Until when a set of actions still keeps the softened depth within its limit. */
    public sealed interface Saves extends Comparable<Saves> {

        /** Not even at the moment of the failure. */
        record Never() implements Saves {}

        /**
         * Up to a deadline.
         *
         * @param seconds s after the failure
         */
        record Until(double seconds) implements Saves {}

        /** However late. */
        record Always() implements Saves {}

        /** Whether it still saves so long after the failure, s. */
        default boolean stillAt(double seconds) {
            return switch (this) {
                case Never n -> false;
                case Until u -> seconds <= u.seconds();
                case Always a -> true;
            };
        }

        /** The longer one is the greater. */
        @Override
        default int compareTo(Saves other) {
            return Double.compare(rank(this), rank(other));
        }

        private static double rank(Saves saves) {
            return switch (saves) {
                case Never n -> Double.NEGATIVE_INFINITY;
                case Until u -> u.seconds();
                case Always a -> Double.POSITIVE_INFINITY;
            };
        }
    }

    /** The best choice, by deadline, that can be requested and does without some actions and without power-off. */
    Optional<Choice> bestWithout(Set<Action> unconfirmed) {
        return choices.stream()
                .filter(c -> mapped.containsAll(c.actions()))
                .filter(c -> Collections.disjoint(c.actions(), unconfirmed))
                .filter(c -> !c.actions().contains(Action.POWER_OFF))
                .max(Comparator.comparing(Choice::saves));
    }

    /** s after a request within which an action must be confirmed. */
    double secondsFor(Action action) {
        Proof proof = proofs.get(action);
        return proof == null ? ANSWER_WITHIN : proof.withinSeconds();
    }
}
