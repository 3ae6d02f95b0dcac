package coldward.proof;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import coldward.model.cause.Cause;
import coldward.model.cause.CauseRanker;
import coldward.model.cause.CauseRanking;
import coldward.model.cause.Expected;
import coldward.model.cause.Look;
import coldward.model.cause.Seen;
import coldward.rig.Mishap;
import coldward.rig.WiredFan;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.Stream;

/**
 * The cause ranking against the rig: fans with something the matter, played change by change, looked at as a person would.
 * Weights, spreads and the physics of wires are the rig's own and not those of the ranking.
 */
final class CauseEvaluation {

    static final long SEED = 20_261_125;

    /** Never looked at while costs and likelihoods were chosen. */
    static final long HELD_OUT_SEED = 77_003;

    /** The pair cannot be told apart if under every look their outcomes share at least this much. */
    static final double ALIKE = 0.8;

    /** How often each mishap is drawn; not the ranking's prior weights. */
    private static final Map<Mishap.Kind, Integer> WEIGHTS = weights();

    /** Sheets: what is expected. */
    private static final List<Expected> SHEETS = List.of(
            new Expected(8000, 0.10, 24, new Tachometer(2, 0.5, new Sampled(1e-3), 1)),
            new Expected(9000, 0.10, 12, new Tachometer(2, 0.5, new Edge(1e-4, 0), 1)),
            new Expected(12_000, 0.15, 24, new Tachometer(2, 0.45, new PeriodTimer(1e6), 1)),
            new Expected(5000, 0.10, 5, new Tachometer(2, 0.5, new Sampled(2e-3), 2)));

    /** They hold on to what they predicted: one for all runs. */
    private static final List<CauseRanker> RANKERS =
            SHEETS.stream().map(CauseRanker::of).toList();

    /** All pairs, the most alike first; over the sheets the least fortunate one counts. */
    static final List<Pair> PAIRS = pairs();

    private CauseEvaluation() {}

    private static Map<Mishap.Kind, Integer> weights() {
        Map<Mishap.Kind, Integer> weights = new LinkedHashMap<>();
        for (Mishap.Kind kind : Mishap.Kind.values()) {
            weights.put(kind, 10);
        }
        weights.put(Mishap.Kind.AS_BUILT, 6);
        weights.put(Mishap.Kind.TWICE_COUNTED, 7);
        weights.put(Mishap.Kind.LOW_SPEED_ALARM, 8);
        return weights;
    }

    static Cause cause(Mishap.Kind kind) {
        return switch (kind) {
            case AS_BUILT -> Cause.READING_RIGHT;
            case OTHER_MAGNET -> Cause.WRONG_PULSES;
            case LATE_LOOKS -> Cause.FOLDING;
            case SWITCHED_SUPPLY -> Cause.CHOPPING;
            case TWICE_COUNTED -> Cause.BOTH_EDGES;
            case SAGGING_SUPPLY -> Cause.SUPPLY_LOW;
            case COVERED_INLET -> Cause.AIR_BLOCKED;
            case DRY_BEARING -> Cause.BEARING;
            case MOTOR_NOISE -> Cause.COUPLING;
            case HELD_ALARM -> Cause.LOCKED_LEVEL;
            case LOW_SPEED_ALARM -> Cause.LOW_SPEED_LEVEL;
            case STANDING -> Cause.FAN_STOPPED;
            case CUT_SIGNAL -> Cause.SIGNAL_OPEN;
        };
    }

    /** One case: which sheet, what is the matter, and the fan. */
    record Case(int sheet, Cause truth, WiredFan fan) {
        Expected expected() {
            return SHEETS.get(sheet);
        }
    }

    /** What is seen first. */
    enum Evidence {
        /** The number shown, nothing else. */
        ONE_NUMBER,
        /** Number, three commands, three intervals where the pin is sampled, and the plug pulled. */
        AS_FILED
    }

    /** How one case went: rankings before and after each proposed test. */
    record Course(Case of, List<CauseRanking> rankings) {
        int place(int tests) {
            return rankings.get(Math.min(tests, rankings.size() - 1)).place(of.truth());
        }

        Cause first(int tests) {
            return rankings.get(Math.min(tests, rankings.size() - 1))
                    .causes()
                    .getFirst()
                    .cause();
        }
    }

    static List<Course> run(long seed, int cases, Evidence evidence, int tests) {
        SplittableRandom random = new SplittableRandom(seed);
        List<Course> courses = new ArrayList<>();
        for (int i = 0; i < cases; i++) {
            Case one = draw(random);
            CauseRanker ranker = RANKERS.get(one.sheet());
            List<Seen> seen = new ArrayList<>(first(one, evidence));
            List<CauseRanking> rankings = new ArrayList<>();
            rankings.add(ranker.rank(seen));
            for (int t = 0; t < tests; t++) {
                Optional<CauseRanking.NextTest> next = rankings.getLast().nextTest();
                if (next.isEmpty()) {
                    break;
                }
                seen.add(look(one, next.get().asked()));
                rankings.add(ranker.rank(seen));
            }
            courses.add(new Course(one, rankings));
        }
        return courses;
    }

    private static Case draw(SplittableRandom random) {
        int sheet = random.nextInt(SHEETS.size());
        Expected expected = SHEETS.get(sheet);
        int total = WEIGHTS.values().stream().mapToInt(Integer::intValue).sum();
        int left = random.nextInt(total);
        Mishap.Kind kind = Mishap.Kind.AS_BUILT;
        for (Map.Entry<Mishap.Kind, Integer> one : WEIGHTS.entrySet()) {
            kind = one.getKey();
            left -= one.getValue();
            if (left < 0) {
                break;
            }
        }
        Tachometer reading = expected.reading();
        double usual = reading.counter() instanceof Sampled(double every) ? every : 0;
        double honest =
                Math.min(reading.duty(), 1 - reading.duty()) / (expected.ratedRpm() * reading.pulsesPerTurn() / 60);
        Mishap mishap = Mishap.drawn(kind, reading.pulsesPerTurn(), honest, usual, random.split());
        WiredFan fan = new WiredFan(expected.ratedRpm(), expected.ratedVolts(), reading, mishap, random.nextLong());
        return new Case(sheet, cause(kind), fan);
    }

    private static List<Seen> first(Case one, Evidence evidence) {
        List<Seen> seen = new ArrayList<>();
        seen.add(look(one, Seen.Asked.of(Look.SHOWN)));
        if (evidence == Evidence.AS_FILED) {
            for (double duty : new double[] {0.8, 0.6, 0.45}) {
                seen.add(look(one, new Seen.Asked(Look.AT_DUTY, duty)));
            }
            if (one.expected().reading().counter() instanceof Sampled(double every)) {
                for (double factor : new double[] {0.5, 0.25, 1.7}) {
                    seen.add(look(one, new Seen.Asked(Look.AT_INTERVAL, every * factor)));
                }
            }
            seen.add(look(one, Seen.Asked.of(Look.UNPLUGGED)));
        }
        return seen;
    }

    private static Seen look(Case one, Seen.Asked asked) {
        WiredFan fan = one.fan();
        WiredFan.Taking usual = WiredFan.Taking.USUAL;
        return switch (asked.look()) {
            case SHOWN -> new Seen(asked, fan.shows(usual));
            case AT_DUTY -> new Seen(asked, fan.shows(usual.commanded(asked.setting())));
            case AT_INTERVAL ->
                new Seen(
                        asked,
                        fan.shows(usual.looking(asked.setting()
                                / (one.expected().reading().counter() instanceof Sampled(double every) ? every : 1))));
            case UNPLUGGED -> new Seen(asked, fan.shows(usual.unplugged()));
            case MOTORS_STILL -> new Seen(asked, fan.shows(usual.still()));
            case FULL_POWER -> new Seen(asked, fan.shows(usual.held()));
            case OTHER_COUNTER -> new Seen(asked, fan.meter());
            case STROBE -> new Seen(asked, Math.max(0, fan.strobe()));
            case SUPPLY -> new Seen(asked, fan.voltmeter());
            case AIR -> Seen.of(Look.AIR, fan.air());
            case HAND -> Seen.of(Look.HAND, fan.byHand());
            case THIRD_WIRE -> Seen.of(Look.THIRD_WIRE, fan.thirdWire());
        };
    }

    /** How far a single look can tell a pair apart at best, before anything is seen. */
    record Pair(Cause one, Cause other, double alike, Look best) {}

    private static List<Pair> pairs() {
        List<Pair> pairs = new ArrayList<>();
        for (Cause one : Cause.values()) {
            for (Cause other : Cause.values()) {
                if (one.compareTo(other) < 0) {
                    RANKERS.stream()
                            .map(ranker -> best(ranker, one, other))
                            .max(Comparator.comparingDouble(Pair::alike))
                            .ifPresent(pairs::add);
                }
            }
        }
        pairs.sort(Comparator.comparingDouble(Pair::alike).reversed());
        return pairs;
    }

    private static Pair best(CauseRanker ranker, Cause one, Cause other) {
        List<Pair> found = new ArrayList<>();
        List<Seen.Asked> all = new ArrayList<>(ranker.looksLeft(List.of()));
        all.add(Seen.Asked.of(Look.SHOWN));
        for (Seen.Asked asked : all) {
            found.add(new Pair(one, other, ranker.overlap(one, other, asked), asked.look()));
        }
        return found.stream().min(Comparator.comparingDouble(Pair::alike)).orElseThrow();
    }

    /** Cases whose cause some single look tells apart from every other cause. */
    static List<Course> separable(List<Course> courses) {
        List<Cause> lost = PAIRS.stream()
                .filter(pair -> pair.alike() >= ALIKE)
                .flatMap(pair -> Stream.of(pair.one(), pair.other()))
                .toList();
        return courses.stream().filter(c -> !lost.contains(c.of().truth())).toList();
    }

    static double share(List<Course> courses, int tests, int place) {
        return courses.stream().filter(c -> c.place(tests) <= place).count() / (double) courses.size();
    }
}
