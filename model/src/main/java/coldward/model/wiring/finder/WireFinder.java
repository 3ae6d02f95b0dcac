package coldward.model.wiring.finder;

import coldward.model.wiring.WiredFan.ThirdWire;
import coldward.model.wiring.finder.FinderAnswer.NextTest;
import coldward.model.wiring.finder.FinderAnswer.Ranked;
import coldward.model.wiring.finder.Measurement.Fed;
import coldward.model.wiring.finder.Measurement.Ohms;
import coldward.model.wiring.finder.Measurement.Rotor;
import coldward.model.wiring.finder.Measurement.Third;
import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * Compares readings with what each of the 18 assignments (six orders of the wires, three kinds of third wire) predicts, by
 * Bayes' rule: Gaussian errors of {@value #VOLT_SHARE} of the reading and {@value #VOLT} V, {@value #DECADE} decades for ohms,
 * each reading with a chance of {@value #SLIP} of being a slip. What is unknown inside the fan (its resistance, the sense of
 * its levels) is averaged over.
 */
public final class WireFinder {

    static final double VOLT = 0.3;
    static final double VOLT_SHARE = 0.15;
    static final double DECADE = 0.5;
    static final double SLIP = 0.01;

    /** Ohm of running fans, from strong 5 V to small 24 V ones. */
    private static final double[] FAN_OHMS = {15, 30, 60, 120, 250, 500, 1000};

    /** Chance that a level or a held pulse stage is the other way round than usual (common practice, no source). */
    private static final double INVERTED_LEVEL = 0.2;

    private static final double HELD_EITHER = 0.5;

    /** V of the supply where nothing else is said. */
    public static final double USUAL_SUPPLY_V = 12;

    /** Ohm of a middling fan, for what a proposed test would show. */
    private static final double MIDDLING_FAN_OHM = 250;

    /** Ohm that proposed tests use. */
    private static final double TEST_OHM = 1000;

    private static final double TEST_PULL_UP_OHM = 10_000;

    private WireFinder() {}

    /**
     * What the readings say.
     *
     * @param wires the three wires, by any names
     * @param readings may be none: the answer then is what to measure first
     */
    public static FinderAnswer find(List<String> wires, List<Measurement> readings) {
        return find(wires, readings, USUAL_SUPPLY_V, Set.of());
    }

    /**
     * What the readings say, and what to measure next with the supply at hand. A test that was made is not proposed again: the
     * same reading twice is no second witness.
     *
     * @param wires the three wires, by any names
     * @param readings may be none: the answer then is what to measure first
     * @param supply V for proposed tests, 3 to 30: the fan's rated voltage
     * @param skipped words of tests that cannot be made
     */
    public static FinderAnswer find(
            List<String> wires, List<Measurement> readings, double supply, Set<String> skipped) {
        Checks.within("supply", supply, 3, 30, "V");
        if (wires.size() != 3 || Set.copyOf(wires).size() != 3) {
            throw new InputError("wires", "wires are " + wires + " but must be three different ones");
        }
        List<Hypothesis> all = hypotheses(wires);
        double[] logs = new double[all.size()];
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < logs.length; i++) {
            logs[i] = logLikelihood(all.get(i), readings);
            highest = Math.max(highest, logs[i]);
        }
        double sum = 0;
        for (double log : logs) {
            sum += Math.exp(log - highest);
        }
        List<Ranked> ranked = new ArrayList<>();
        for (int i = 0; i < logs.length; i++) {
            ranked.add(new Ranked(all.get(i), Math.exp(logs[i] - highest) / sum));
        }
        ranked.sort(Comparator.comparingDouble((Ranked r) -> -r.probability()));
        Hypothesis first = ranked.getFirst().hypothesis();
        double ofWires = ranked.stream()
                .filter(r -> r.hypothesis().sameWires(first))
                .mapToDouble(Ranked::probability)
                .sum();
        boolean wiresSettled = ofWires >= FinderAnswer.SETTLED;
        boolean settled = ranked.getFirst().probability() >= FinderAnswer.SETTLED;
        return new FinderAnswer(
                ranked,
                wiresSettled ? Optional.of(first) : Optional.empty(),
                settled ? Optional.of(first) : Optional.empty(),
                settled
                        ? Optional.empty()
                        : next(open(wires, first, wiresSettled, supply, readings, skipped), ranked, wiresSettled));
    }

    private static List<Hypothesis> hypotheses(List<String> wires) {
        List<Hypothesis> all = new ArrayList<>();
        for (String plus : wires) {
            for (String minus : wires) {
                for (String third : wires) {
                    if (plus.equals(minus) || third.equals(plus) || third.equals(minus)) {
                        continue;
                    }
                    for (ThirdWire tells : List.of(ThirdWire.PULSES, ThirdWire.LOCKED_ROTOR, ThirdWire.LOW_SPEED)) {
                        all.add(new Hypothesis(plus, minus, third, tells));
                    }
                }
            }
        }
        return all;
    }

    /** Averaged over what is unknown of the fan; one fan's unknowns are the same in all its readings. */
    private static double logLikelihood(Hypothesis hypothesis, List<Measurement> readings) {
        double sum = 0;
        for (double ohm : FAN_OHMS) {
            for (boolean inverted : new boolean[] {false, true}) {
                double share = hypothesis.tells() == ThirdWire.PULSES ? HELD_EITHER : INVERTED_LEVEL;
                double weight = (inverted ? share : 1 - share) / FAN_OHMS.length;
                double likelihood = weight;
                for (Measurement reading : readings) {
                    likelihood *= likelihood(reading, Predictor.reading(reading, hypothesis, ohm, inverted));
                }
                sum += likelihood;
            }
        }
        return Math.log(sum);
    }

    /** Up to a factor that is the same for all hypotheses. */
    private static double likelihood(Measurement reading, double predicted) {
        double deviations = deviations(reading, shown(reading), predicted);
        return (1 - SLIP) * Math.exp(-deviations * deviations / 2) + SLIP;
    }

    private static double shown(Measurement reading) {
        return switch (reading) {
            case Ohms m -> Math.min(m.ohm().orElse(Predictor.OVER_RANGE_OHM), Predictor.OVER_RANGE_OHM);
            case Fed m -> m.volts();
            case Third m -> m.volts();
        };
    }

    private static double deviations(Measurement kind, double one, double other) {
        if (kind instanceof Ohms) {
            return Math.log10(Math.max(one, 1) / Math.max(other, 1)) / DECADE;
        }
        return (one - other) / Math.hypot(VOLT, VOLT_SHARE * Math.max(Math.abs(one), Math.abs(other)));
    }

    /** Of all tests, the one whose predictions for the likeliest and its best rival lie furthest apart. */
    private static Optional<NextTest> next(List<Measurement> tests, List<Ranked> ranked, boolean wiresSettled) {
        Hypothesis first = ranked.getFirst().hypothesis();
        Hypothesis second = ranked.stream()
                .map(Ranked::hypothesis)
                .filter(h -> h.sameWires(first) == wiresSettled && !h.equals(first))
                .findFirst()
                .orElse(ranked.get(1).hypothesis());
        double furthest = 0;
        Optional<NextTest> best = Optional.empty();
        for (Measurement test : tests) {
            double apart = Double.POSITIVE_INFINITY;
            for (double ohm : FAN_OHMS) {
                for (boolean a : new boolean[] {false, true}) {
                    for (boolean b : new boolean[] {false, true}) {
                        apart = Math.min(
                                apart,
                                Math.abs(deviations(
                                        test,
                                        Predictor.reading(test, first, ohm, a),
                                        Predictor.reading(test, second, ohm, b))));
                    }
                }
            }
            if (apart > furthest) {
                furthest = apart;
                best = Optional.of(new NextTest(test, expected(test, first), expected(test, second), first, second));
            }
        }
        return best.or(() -> usual(tests, first, second));
    }

    /** Where the sense of a level may spoil every test, the one that is best with the usual sense. */
    private static Optional<NextTest> usual(List<Measurement> tests, Hypothesis first, Hypothesis second) {
        return tests.stream()
                .max(Comparator.comparingDouble(t -> Math.abs(deviations(
                        t,
                        Predictor.reading(t, first, MIDDLING_FAN_OHM, false),
                        Predictor.reading(t, second, MIDDLING_FAN_OHM, false)))))
                .map(t -> new NextTest(t, expected(t, first), expected(t, second), first, second));
    }

    private static String expected(Measurement test, Hypothesis hypothesis) {
        double value = Predictor.reading(test, hypothesis, MIDDLING_FAN_OHM, false);
        if (test instanceof Ohms) {
            return value >= Predictor.OVER_RANGE_OHM
                    ? "over range"
                    : "about " + Checks.number(Math.rint(value / 1000)) + " kohm";
        }
        return "about " + Checks.number(Math.rint(value * 10) / 10) + " V";
    }

    /** Tests not made yet and not skipped. */
    private static List<Measurement> open(
            List<String> wires,
            Hypothesis first,
            boolean wiresSettled,
            double supply,
            List<Measurement> readings,
            Set<String> skipped) {
        Set<String> done = new HashSet<>(skipped);
        readings.forEach(r -> done.add(r.words()));
        return tests(wires, first, wiresSettled, supply).stream()
                .filter(t -> !done.contains(t.words()))
                .toList();
    }

    /** The third wire is tested only with its neighbours settled: a wrong guess could harm the fan. */
    private static List<Measurement> tests(List<String> wires, Hypothesis first, boolean wiresSettled, double supply) {
        List<Measurement> tests = new ArrayList<>();
        if (wiresSettled) {
            for (Rotor rotor : Rotor.values()) {
                tests.add(third(first, rotor, supply));
            }
            return tests;
        }
        for (String one : wires) {
            for (String other : wires) {
                if (!one.equals(other)) {
                    tests.add(new Ohms(one, other, OptionalDouble.empty()));
                    wires.stream()
                            .filter(w -> !w.equals(other))
                            .forEach(at -> tests.add(new Fed(one, other, supply, TEST_OHM, at, 0)));
                }
            }
        }
        return tests;
    }

    private static Third third(Hypothesis h, Rotor rotor, double supply) {
        return new Third(h.plus(), h.minus(), h.third(), rotor.fed(supply), TEST_PULL_UP_OHM, rotor, 0);
    }

    /**
     * The test that tells the kinds of third wire apart: the mean level at the third wire with each kind and each state of the
     * rotor, with the levels the usual way round. The change from state to state counts, not which level is which.
     *
     * @param supply V, the fan's rated voltage
     */
    public static List<Level> levels(double supply) {
        List<Level> levels = new ArrayList<>();
        for (ThirdWire tells : List.of(ThirdWire.PULSES, ThirdWire.LOCKED_ROTOR, ThirdWire.LOW_SPEED)) {
            Hypothesis h = new Hypothesis("plus", "minus", "third", tells);
            for (Rotor rotor : Rotor.values()) {
                double volts = Predictor.reading(third(h, rotor, supply), h, MIDDLING_FAN_OHM, false);
                levels.add(new Level(tells, rotor, volts));
            }
        }
        return levels;
    }

    /**
     * A level at the third wire, pulled up to the supply.
     *
     * @param tells the kind of third wire
     * @param rotor what it does
     * @param volts V, mean
     */
    public record Level(ThirdWire tells, Rotor rotor, double volts) {}
}
