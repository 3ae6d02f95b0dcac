package coldward.model.cause;

import static coldward.quantity.Checks.within;

import coldward.model.build.Reading.Sampled;
import coldward.model.cause.CauseRanking.NextTest;
import coldward.model.cause.CauseRanking.Prediction;
import coldward.model.cause.CauseRanking.Ranked;
import coldward.model.cause.Seen.Asked;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Ranks causes by Bayes: P(cause | seen) ~ weight * mean over the cause's worlds of the product of likelihoods. Of a look
 * not yet taken, the expected information is the mutual information of cause and outcome; the next test has the most bits
 * a minute. Holds on to predictions once made: one for every sheet, for one thread. A sound fan whose speed the sheet's
 * own counter cannot show is folding, not a right reading: that share of the one's prior weight goes to the other.
 */
public final class CauseRanker {

    /** A cause less probable than this is not in the lead. */
    public static final double LEADING = 0.03;

    /** A test that says less than this is not worth the walk, bit. */
    public static final double LEAST_BITS = 0.02;

    private static final double USUAL_TEST_DUTY = 0.6;

    private static final double SHORTER_INTERVAL = 0.25;

    /** A world with less than this share of its cause's weight says nothing more. */
    private static final double NEGLIGIBLE = 1e-9;

    /** More would take products of likelihoods out of the reach of doubles. */
    private static final int MOST_SEEN = 60;

    private final Expected expected;
    private final Outcomes outcomes;
    private final Map<Cause, List<World>> worlds = new EnumMap<>(Cause.class);
    private final Map<Cause, Double> priors = new EnumMap<>(Cause.class);
    private final Map<Cause, Map<Asked, double[]>> predictions = new EnumMap<>(Cause.class);

    private final Map<Cause, Map<Asked, int[]>> bins = new EnumMap<>(Cause.class);

    private CauseRanker(Expected expected) {
        this.expected = expected;
        this.outcomes = new Outcomes(expected);
        for (Cause cause : Cause.values()) {
            worlds.put(cause, Worlds.of(cause, expected));
            priors.put(cause, cause.weight());
            predictions.put(cause, new HashMap<>());
            bins.put(cause, new HashMap<>());
        }
        List<World> right = of(worlds, Cause.READING_RIGHT);
        List<World> honest =
                right.stream().filter(w -> Worlds.honest(w, expected)).toList();
        double share = honest.size() / (double) right.size();
        worlds.put(Cause.READING_RIGHT, honest);
        priors.put(Cause.READING_RIGHT, Cause.READING_RIGHT.weight() * share);
        priors.put(Cause.FOLDING, Cause.FOLDING.weight() + Cause.READING_RIGHT.weight() * (1 - share));
    }

    /**
     * For one sheet.
     *
     * @param expected what should be shown
     */
    public static CauseRanker of(Expected expected) {
        return new CauseRanker(expected);
    }

    /** Those of a cause's worlds that still count, weighted by what was seen; the arrays never leave the ranker. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Weighed(Cause cause, double probability, int[] live, double[] weights) {}

    /**
     * Ranks.
     *
     * @param seen in any order; at least one
     * @throws InputError if nothing was seen, or the interval was changed of a counter that has none
     */
    public CauseRanking rank(List<Seen> seen) {
        return rank(seen, Set.of());
    }

    /**
     * Ranks, and proposes no look that cannot be taken.
     *
     * @param seen in any order; at least one
     * @param impossible looks that cannot be taken
     */
    public CauseRanking rank(List<Seen> seen, Set<Look> impossible) {
        if (seen.isEmpty()) {
            throw new InputError("seen", "nothing was seen but a ranking needs at least one number");
        }
        within("things seen", seen.size(), 1, MOST_SEEN);
        List<Weighed> weighed = weigh(seen);
        List<Ranked> ranked = weighed.stream()
                .map(w -> new Ranked(w.cause(), w.probability(), trueSpeed(w)))
                .sorted(Comparator.comparingDouble(Ranked::probability).reversed())
                .toList();
        return new CauseRanking(ranked, next(seen, impossible, weighed));
    }

    /** The looks that can still be taken after some, with the settings that a test would use. */
    public List<Asked> looksLeft(List<Seen> seen) {
        List<Asked> left = new ArrayList<>();
        for (Look look : Look.values()) {
            Optional<Asked> asked = switch (look) {
                case SHOWN -> Optional.empty();
                case AT_DUTY -> Optional.of(new Asked(look, USUAL_TEST_DUTY));
                case AT_INTERVAL -> shorterInterval();
                default -> Optional.of(Asked.of(look));
            };
            asked.filter(a -> seen.stream().noneMatch(s -> s.asked().look() == a.look()))
                    .ifPresent(left::add);
        }
        return List.copyOf(left);
    }

    /**
     * How much alike the outcomes of a look are under two causes before anything is seen: the shared part of their
     * distributions, 0 to 1.
     */
    public double overlap(Cause one, Cause other, Asked asked) {
        double[] a = prior(one, asked);
        double[] b = prior(other, asked);
        double shared = 0;
        for (int i = 0; i < a.length; i++) {
            shared += Math.min(a[i], b[i]);
        }
        return shared;
    }

    private double[] prior(Cause cause, Asked asked) {
        int[] bins = binned(cause, asked);
        double[] even = new double[bins.length];
        Arrays.fill(even, 1.0 / even.length);
        return Outcomes.spread(
                asked.look(), bins, IntStream.range(0, even.length).toArray(), even);
    }

    private Optional<Asked> shorterInterval() {
        return expected.reading().counter() instanceof Sampled(double every)
                ? Optional.of(new Asked(Look.AT_INTERVAL, every * SHORTER_INTERVAL))
                : Optional.empty();
    }

    private List<Weighed> weigh(List<Seen> seen) {
        for (Seen one : seen) {
            if (one.asked().look() == Look.AT_INTERVAL && shorterInterval().isEmpty()) {
                throw new InputError(
                        "at-interval", "the sheet's counter does not sample the pin: it has no interval to change");
            }
        }
        List<Weighed> weighed = new ArrayList<>();
        double total = 0;
        for (Cause cause : Cause.values()) {
            double[] weights = new double[of(worlds, cause).size()];
            Arrays.fill(weights, 1);
            for (Seen one : seen) {
                outcomes.weigh(weights, one.asked().look(), predicted(cause, one.asked()), one.value());
            }
            double sum = Arrays.stream(weights).sum();
            double probability = weights.length == 0 ? 0 : of(priors, cause) * sum / weights.length;
            double share = sum;
            int[] live = IntStream.range(0, weights.length)
                    .filter(i -> weights[i] > NEGLIGIBLE * share)
                    .toArray();
            double[] left =
                    IntStream.of(live).mapToDouble(i -> weights[i] / share).toArray();
            total += probability;
            weighed.add(new Weighed(cause, probability, live, left));
        }
        double all = total;
        return weighed.stream()
                .map(w -> new Weighed(w.cause(), w.probability() / all, w.live(), w.weights()))
                .toList();
    }

    private double trueSpeed(Weighed weighed) {
        double mean = 0;
        List<World> drawn = of(worlds, weighed.cause());
        for (int i = 0; i < weighed.live().length; i++) {
            mean += weighed.weights()[i] * drawn.get(weighed.live()[i]).rpm();
        }
        return mean;
    }

    private Optional<NextTest> next(List<Seen> seen, Set<Look> impossible, List<Weighed> weighed) {
        Optional<NextTest> best = Optional.empty();
        for (Asked asked : looksLeft(seen)) {
            if (impossible.contains(asked.look())) {
                continue;
            }
            double bits = information(asked, weighed);
            double rate = bits / asked.look().minutes();
            if (bits >= LEAST_BITS
                    && best.filter(b -> b.bits() / b.minutes() >= rate).isEmpty()) {
                best = Optional.of(new NextTest(asked, bits, asked.look().minutes(), List.of(), List.of()));
            }
        }
        return best.map(b -> explained(b, weighed));
    }

    /** Mutual information of cause and outcome, bit. */
    private double information(Asked asked, List<Weighed> weighed) {
        List<double[]> spreads = new ArrayList<>();
        for (Weighed w : weighed) {
            spreads.add(Outcomes.spread(asked.look(), binned(w.cause(), asked), w.live(), w.weights()));
        }
        double bits = 0;
        for (int bin = 0; bin < spreads.getFirst().length; bin++) {
            double mixed = 0;
            for (int i = 0; i < weighed.size(); i++) {
                mixed += weighed.get(i).probability() * spreads.get(i)[bin];
            }
            for (int i = 0; i < weighed.size(); i++) {
                double one = spreads.get(i)[bin];
                if (one > 0 && weighed.get(i).probability() > 0) {
                    bits += weighed.get(i).probability() * one * Math.log(one / mixed) / Math.log(2);
                }
            }
        }
        return Math.max(0, bits);
    }

    private NextTest explained(NextTest test, List<Weighed> weighed) {
        List<Weighed> leading = weighed.stream()
                .filter(w -> w.probability() >= LEADING)
                .sorted(Comparator.comparingDouble(Weighed::probability).reversed())
                .toList();
        List<Prediction> said = new ArrayList<>();
        for (Weighed w : leading) {
            said.add(prediction(w, test.asked()));
        }
        List<Cause> apart = new ArrayList<>();
        for (Prediction one : said) {
            // told apart from at least one other in the lead: the middle halves of what they say do not meet
            if (said.stream().anyMatch(other -> one.middle() > other.high() || one.middle() < other.low())) {
                apart.add(one.cause());
            }
        }
        return new NextTest(test.asked(), test.bits(), test.minutes(), apart, said);
    }

    private Prediction prediction(Weighed weighed, Asked asked) {
        double[] predicted = predicted(weighed.cause(), asked);
        List<Integer> order = IntStream.range(0, weighed.live().length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> predicted[weighed.live()[i]]))
                .toList();
        double[] wanted = {0.05, 0.5, 0.95};
        double[] found = new double[wanted.length];
        double sum = 0;
        int next = 0;
        for (int i : order) {
            sum += weighed.weights()[i];
            while (next < wanted.length && sum >= wanted[next]) {
                found[next++] = predicted[weighed.live()[i]];
            }
        }
        while (next < wanted.length) {
            found[next++] = predicted[weighed.live()[order.getLast()]];
        }
        return new Prediction(weighed.cause(), found[0], found[1], found[2]);
    }

    private double[] predicted(Cause cause, Asked asked) {
        return of(predictions, cause)
                .computeIfAbsent(
                        asked,
                        a -> of(worlds, cause).stream()
                                .mapToDouble(w -> w.shows(a, expected))
                                .toArray());
    }

    private int[] binned(Cause cause, Asked asked) {
        return of(bins, cause).computeIfAbsent(asked, a -> outcomes.bins(a.look(), predicted(cause, a)));
    }

    private static <T> T of(Map<Cause, T> map, Cause cause) {
        return Objects.requireNonNull(map.get(cause), cause::key);
    }
}
