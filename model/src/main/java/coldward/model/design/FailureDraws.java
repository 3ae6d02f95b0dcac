package coldward.model.design;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.trip.FailureMode;
import coldward.model.verdict.Draws;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Seeded draws of the deadlines after every way of failing; the inputs of a draw are those of {@link Draws} with the same
 * seed and index.
 *
 * @param build the printer
 * @param seed any number
 * @param settings which failures
 * @param unsafeShare unsafe speed, share of rated speed
 * @param responses whose deadlines are drawn
 */
public record FailureDraws(
        Build build, long seed, DesignSettings settings, double unsafeShare, List<Set<Action>> responses) {
    public FailureDraws {
        responses = List.copyOf(responses);
    }

    /**
     * One draw.
     *
     * @param deadlines per mode that warms and response, worse regime
     */
    public record Draw(Map<FailureMode, Map<Set<Action>, Deadline>> deadlines) {

        /** One of them; empty where it was not drawn. */
        public Optional<Deadline> deadline(FailureMode mode, Set<Action> response) {
            return Optional.ofNullable(deadlines.getOrDefault(mode, Map.of()).get(response));
        }
    }

    /** Computes one draw; index from 0. */
    public Draw at(int index) {
        Draws draws = new Draws(build, seed, Optional.empty());
        Map<FailureMode, Map<Set<Action>, Deadline>> all = new EnumMap<>(FailureMode.class);
        for (FailureMode mode : FailureMode.values()) {
            if (mode.warms()) {
                Optional<Race> race = draws.race(index, settings.fan(mode, build, unsafeShare));
                boolean soft = race.isEmpty() || race.get().softWhileHealthy();
                Map<Set<Action>, Deadline> row = new HashMap<>();
                for (Set<Action> response : responses) {
                    row.put(response, soft ? Deadline.never() : race.get().deadline(response));
                }
                all.put(mode, row);
            }
        }
        return new Draw(all);
    }
}
