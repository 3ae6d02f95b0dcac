package coldward.model.verdict;

import coldward.model.build.Action;
import coldward.model.build.Uncertain;
import coldward.model.heat.Deadline;
import coldward.model.heat.Regime;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.stat.correlation.PearsonsCorrelation;
import org.hipparchus.stat.ranking.NaturalRanking;

/**
 * What many draws say together.
 *
 * @param draws how many
 * @param softens per regime: the softening time as a deadline-like value, always where it does not soften
 * @param deadlines per regime and response
 * @param widest the three inputs whose draws explain most of the deadline's (squared rank correlation), largest first
 */
public record Uncertainty(
        int draws, Map<Regime, Band> softens, Map<Regime, Map<Set<Action>, Band>> deadlines, List<Widener> widest) {

    private static final int NAMED = 3;

    /**
     * Quantiles by nearest rank; each is a verdict of its own.
     *
     * @param p05 5 % quantile
     * @param p50 median
     * @param p95 95 % quantile
     * @param never share of draws that are never
     * @param always share of draws that are always
     */
    public record Band(Deadline p05, Deadline p50, Deadline p95, double never, double always) {

        /** The band of at least one value. */
        public static Band of(List<Deadline> values) {
            List<Deadline> sorted = values.stream().sorted().toList();
            int n = sorted.size();
            return new Band(
                    nearestRank(sorted, 0.05),
                    nearestRank(sorted, 0.50),
                    nearestRank(sorted, 0.95),
                    sorted.stream().filter(d -> d instanceof Deadline.Never).count() / (double) n,
                    sorted.stream().filter(d -> d instanceof Deadline.Always).count() / (double) n);
        }
    }

    /**
     * An input that widens the band.
     *
     * @param input which
     * @param share of the deadline's variance in ranks that goes with it, 0 to 1
     */
    public record Widener(Uncertain input, double share) {}

    /**
     * Summarises draws.
     *
     * @param all at least one
     * @param response the one whose deadline the widening inputs are sought for
     */
    public static Uncertainty of(List<Draws.Draw> all, Set<Action> response) {
        if (all.isEmpty()) {
            throw new InputError("draws", "draws is 0 but needs at least 1 for a band");
        }
        Map<Regime, Band> softens = new EnumMap<>(Regime.class);
        Map<Regime, Map<Set<Action>, Band>> deadlines = new EnumMap<>(Regime.class);
        for (Regime regime : Regime.values()) {
            softens.put(
                    regime, Band.of(all.stream().map(d -> softening(d, regime)).toList()));
            Map<Set<Action>, Band> row = new HashMap<>();
            for (Set<Action> each : responsesOf(all.getFirst(), regime)) {
                row.put(
                        each,
                        Band.of(all.stream().map(d -> deadline(d, regime, each)).toList()));
            }
            deadlines.put(regime, row);
        }
        return new Uncertainty(all.size(), softens, deadlines, widest(all, response));
    }

    /** The band of the worse regime at each quantile. */
    public Band worse(Set<Action> response) {
        Band printing = bandOf(Regime.PRINTING, response);
        Band idle = bandOf(Regime.HOT_IDLE, response);
        return printing.p05().compareTo(idle.p05()) < 0 ? printing : idle;
    }

    /** The band of one regime and response. */
    public Band bandOf(Regime regime, Set<Action> response) {
        Map<Set<Action>, Band> row = deadlines.get(regime);
        Band band = row == null ? null : row.get(response);
        if (band == null) {
            throw new InputError("response", "no band for response " + response);
        }
        return band;
    }

    private static Set<Set<Action>> responsesOf(Draws.Draw draw, Regime regime) {
        return draw.deadlines().getOrDefault(regime, Map.of()).keySet();
    }

    private static Deadline softening(Draws.Draw draw, Regime regime) {
        var seconds = draw.softens().get(regime);
        return seconds != null && seconds.isPresent() ? Deadline.until(seconds.getAsDouble()) : Deadline.always();
    }

    private static Deadline deadline(Draws.Draw draw, Regime regime, Set<Action> response) {
        Map<Set<Action>, Deadline> row = draw.deadlines().get(regime);
        Deadline deadline = row == null ? null : row.get(response);
        if (deadline == null) {
            throw new InputError("response", "no deadline was drawn for response " + response);
        }
        return deadline;
    }

    /** The value at rank {@code ceil(q n)} (nearest-rank quantile, NIST/SEMATECH handbook 7.2.6.2). */
    public static <T> T nearestRank(List<T> sorted, double q) {
        return sorted.get(Math.max(0, (int) Math.ceil(q * sorted.size() - 1e-9) - 1));
    }

    private static List<Widener> widest(List<Draws.Draw> all, Set<Action> response) {
        double[] worse = all.stream()
                .mapToDouble(d -> Math.min(
                        deadline(d, Regime.PRINTING, response).order(),
                        deadline(d, Regime.HOT_IDLE, response).order()))
                .toArray();
        if (Arrays.stream(worse).distinct().count() < 2) {
            // every draw has one verdict: what widens the softening time is then the useful answer
            worse = all.stream()
                    .mapToDouble(d -> softening(d, Regime.HOT_IDLE).order())
                    .toArray();
        }
        if (Arrays.stream(worse).distinct().count() < 2) {
            return List.of();
        }
        double[] ranks = new NaturalRanking().rank(finite(worse));
        List<Widener> found = new ArrayList<>();
        for (Uncertain input : Uncertain.values()) {
            double[] drawn =
                    all.stream().mapToDouble(d -> d.factors().of(input)).toArray();
            if (Arrays.stream(drawn).distinct().count() < 2) {
                continue;
            }
            double r = new PearsonsCorrelation().correlation(new NaturalRanking().rank(drawn), ranks);
            found.add(new Widener(input, r * r));
        }
        found.sort(Comparator.comparingDouble(Widener::share).reversed());
        return List.copyOf(found.subList(0, Math.min(NAMED, found.size())));
    }

    /** Ranks need numbers: the infinities of never and always become the far ends. */
    private static double[] finite(double[] values) {
        return Arrays.stream(values)
                .map(v -> Double.isInfinite(v) ? Math.copySign(1e12, v) : v)
                .toArray();
    }
}
