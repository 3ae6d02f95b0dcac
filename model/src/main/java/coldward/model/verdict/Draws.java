package coldward.model.verdict;

import static coldward.quantity.Checks.within;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.HotEnd;
import coldward.model.build.Uncertain;
import coldward.model.heat.Curve;
import coldward.model.heat.Deadline;
import coldward.model.heat.Factors;
import coldward.model.heat.FanFailure;
import coldward.model.heat.HeatSettings;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.quantity.Seeds;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;

/**
 * Seeded independent draws of the uncertain inputs. Each draw depends on the seed and its own index only, so the numbers
 * are the same on any number of threads and in any order.
 *
 * @param build the printer
 * @param seed any number
 * @param curves what curve to keep of every draw, if any
 */
public record Draws(Build build, long seed, Optional<CurveWish> curves) {

    /**
     * Curves to keep of every draw: the filament's temperature at the throat.
     *
     * @param regime what the machine is doing
     * @param responses one curve each
     * @param responseAt s after the failure
     * @param end s
     */
    public record CurveWish(Regime regime, List<Set<Action>> responses, double responseAt, double end) {
        public CurveWish {
            responses = List.copyOf(responses);
            within("curve end", end, 1, 1e5, "s");
        }
    }

    /**
     * One draw's outcome. A machine whose cold side is soft with a healthy fan softens at 0 s and is never saved.
     *
     * @param factors what was drawn
     * @param softens softening time per regime, s; empty if not within the horizon
     * @param deadlines per regime and response
     * @param curves as wished, in that order; empty where the draw has none
     */
    public record Draw(
            Factors factors,
            Map<Regime, OptionalDouble> softens,
            Map<Regime, Map<Set<Action>, Deadline>> deadlines,
            List<Curve> curves) {}

    /** Computes one draw; index from 0. */
    public Draw at(int index) {
        Factors factors = factors(index);
        HotEnd hotEnd = build.hotEnd();
        Map<Regime, OptionalDouble> softens = new EnumMap<>(Regime.class);
        Map<Regime, Map<Set<Action>, Deadline>> deadlines = new EnumMap<>(Regime.class);
        List<Curve> kept = new ArrayList<>();
        Optional<Race> race = race(index, new FanFailure.Stop(hotEnd.fan().coastDown()));
        Set<Set<Action>> responses = new LinkedHashSet<>(Race.RESPONSES);
        responses.add(build.response().actions());
        for (Regime regime : Regime.values()) {
            Map<Set<Action>, Deadline> row = new HashMap<>();
            boolean soft = race.isEmpty() || race.get().softWhileHealthy(regime);
            softens.put(regime, soft ? OptionalDouble.of(0) : race.get().softens(regime));
            for (Set<Action> response : responses) {
                row.put(response, soft ? Deadline.never() : race.get().deadline(regime, response));
            }
            deadlines.put(regime, row);
        }
        if (curves.isPresent() && race.isPresent()) {
            CurveWish wish = curves.get();
            for (Set<Action> response : wish.responses()) {
                kept.add(race.get().curve(wish.regime(), response, wish.responseAt(), wish.end()));
            }
        }
        return new Draw(factors, softens, deadlines, List.copyOf(kept));
    }

    /**
     * The race of one draw after one kind of failure; empty where the drawn air is no colder than what softens.
     *
     * @param index from 0
     * @param failure how the fan fails
     */
    public Optional<Race> race(int index, FanFailure failure) {
        Factors factors = factors(index);
        HotEnd hotEnd = build.hotEnd();
        double air = hotEnd.surroundings().air() + factors.of(Uncertain.AIR);
        double softensAt = hotEnd.plastic().softensAt() + factors.of(Uncertain.SOFTENING);
        boolean room = air < Math.min(softensAt, hotEnd.plastic().softensAt());
        return room ? Optional.of(new Race(hotEnd, factors, failure, HeatSettings.USUAL)) : Optional.empty();
    }

    /** What one draw draws; index from 0. */
    public Factors factors(int index) {
        RandomGenerator random = new SplittableRandom(Seeds.of(seed, index + 1));
        Map<Uncertain, Double> drawn = new EnumMap<>(Uncertain.class);
        for (Uncertain input : Uncertain.values()) {
            double spread = build.spreads().getOrDefault(input, input.usualSpread());
            double z = random.nextGaussian();
            drawn.put(input, input.law() == Uncertain.Law.LOG_NORMAL ? Math.exp(spread * z) : spread * z);
        }
        return new Factors(drawn);
    }
}
