package coldward.model.design;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.heat.Deadline;
import coldward.model.heat.Factors;
import coldward.model.heat.HeatSettings;
import coldward.model.heat.Race;
import coldward.model.trip.FailureMode;
import coldward.model.verdict.Uncertainty.Band;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The deadline of a response after each way of failing, in the worse regime. Belongs to one thread. */
interface Deadlines {

    /** The band; nominal deadlines are their own band. A lost signal warms nothing: always. */
    Band of(FailureMode mode, Set<Action> response);

    /** Nominal ones, computed when first asked for. */
    static Deadlines nominal(Build build, DesignSettings settings, double unsafeShare) {
        Map<FailureMode, Race> races = new EnumMap<>(FailureMode.class);
        return (mode, response) -> {
            if (!mode.warms()) {
                return Band.of(List.of(Deadline.always()));
            }
            Race race = races.computeIfAbsent(
                    mode,
                    m -> new Race(
                            build.hotEnd(), Factors.NONE, settings.fan(m, build, unsafeShare), HeatSettings.USUAL));
            return Band.of(List.of(race.softWhileHealthy() ? Deadline.never() : race.deadline(response)));
        };
    }

    /** Drawn ones where the response was drawn, else the others. */
    static Deadlines drawn(List<FailureDraws.Draw> draws, Deadlines others) {
        return (mode, response) -> {
            List<Deadline> found = draws.stream()
                    .flatMap(d -> d.deadline(mode, response).stream())
                    .toList();
            return found.isEmpty() ? others.of(mode, response) : Band.of(found);
        };
    }
}
