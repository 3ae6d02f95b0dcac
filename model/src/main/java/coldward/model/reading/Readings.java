package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;

/**
 * From a fan's speed to the speed shown. Pulse frequency f = N p/60 (N rpm, p pulses per turn).
 *
 * <p>Resolution: a counter of pulses adds whole pulses over a report interval W, so that neighbouring reports differ by
 * 60/(p W); a period timer measures whole ticks of its clock c, so that they differ by N f/c. A period timer is taken to be
 * honest until a period is shorter than one tick, above which it shows c.
 */
public final class Readings {

    private Readings() {}

    /**
     * Pulse frequency f = N p/60.
     *
     * @param rpm N, 0 or above
     * @param pulsesPerTurn p, 1 to 12
     * @return Hz
     */
    public static double pulseRate(double rpm, int pulsesPerTurn) {
        notNegative("speed", rpm, "rpm");
        within("pulses_per_turn", pulsesPerTurn, 1, 12);
        return rpm * pulsesPerTurn / 60;
    }

    /**
     * What the counter of a build makes of a true speed.
     *
     * @param build the printer
     * @param trueRpm rpm, 0 or above
     * @return empty if no speed is read
     */
    public static Optional<ReadingResult> of(Build build, double trueRpm) {
        return switch (build.reading()) {
            case Reading.None() -> Optional.empty();
            case Tachometer tachometer -> Optional.of(of(tachometer, trueRpm));
        };
    }

    /**
     * What a counter makes of a true speed.
     *
     * @param reading pulses per turn, duty, counter, report interval
     * @param trueRpm rpm, 0 or above
     */
    public static ReadingResult of(Tachometer reading, double trueRpm) {
        notNegative("true speed", trueRpm, "rpm");
        double toRpm = 60.0 / reading.pulsesPerTurn();
        double rate = pulseRate(trueRpm, reading.pulsesPerTurn());
        double shown = shownRate(reading, rate);
        OptionalDouble highest = highestHonestRate(reading);
        boolean honest = highest.isEmpty() || rate <= highest.getAsDouble();
        OptionalDouble longest = reading.counter() instanceof Sampled && rate > 0
                ? OptionalDouble.of(SampledPulses.longestHonestInterval(rate, reading.duty()))
                : OptionalDouble.empty();
        return new ReadingResult(
                trueRpm,
                honest ? trueRpm : shown * toRpm,
                honest,
                highest.isPresent() ? OptionalDouble.of(highest.getAsDouble() * toRpm) : highest,
                longest,
                resolution(reading, trueRpm));
    }

    /**
     * What a counter makes of a true speed where looks are early or late, or the supply is chopped. Jitter moves the time
     * stamps of a period timer to and fro without changing their mean and does not concern a counter of edges; it shows in
     * {@link #scatter}. A chopped supply is never honest: pulses are missing, the chopping's own edges are counted. With
     * both, a sampled reading is taken without its jitter.
     *
     * @param reading pulses per turn, duty, counter, report interval
     * @param trueRpm rpm, 0 or above
     * @param conditions jitter (for a sampled counter at most half of its interval) and supply
     */
    public static ReadingResult of(Tachometer reading, double trueRpm, Conditions conditions) {
        ReadingResult plain = of(reading, trueRpm);
        double rate = pulseRate(trueRpm, reading.pulsesPerTurn());
        double toRpm = 60.0 / reading.pulsesPerTurn();
        if (conditions.chopping().filter(c -> c.onShare() < 1).isPresent()) {
            double shown = ChoppedPulses.shownRate(
                    rate,
                    reading.duty(),
                    reading.counter(),
                    conditions.chopping().get());
            return new ReadingResult(
                    trueRpm,
                    shown * toRpm,
                    false,
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    plain.resolutionRpm());
        }
        if (!(reading.counter() instanceof Sampled(double every)) || conditions.jitter() == 0) {
            return plain;
        }
        double jitter = conditions.jitter();
        double highest = SampledPulses.highestHonestRate(every, reading.duty(), jitter);
        boolean honest = rate <= highest;
        double longest = plain.longestHonestInterval().orElse(0) - 2 * jitter;
        return new ReadingResult(
                trueRpm,
                honest ? trueRpm : SampledPulses.shownRate(rate, every, reading.duty(), jitter) * toRpm,
                honest,
                OptionalDouble.of(highest * toRpm),
                longest > 0 ? OptionalDouble.of(longest) : OptionalDouble.empty(),
                plain.resolutionRpm());
    }

    /**
     * How far a single measurement may lie from the mean because of jitter, rpm: a period timer's one period is off by up
     * to 2j, N f 2j; a counter over a report W gains or loses at most the pulse that its ends cut, which is its resolution.
     *
     * @param reading the reading
     * @param trueRpm rpm, 0 or above
     * @param jitter s
     */
    public static double scatter(Tachometer reading, double trueRpm, double jitter) {
        notNegative("jitter", jitter * 1e3, "ms");
        return reading.counter() instanceof PeriodTimer
                ? trueRpm * pulseRate(trueRpm, reading.pulsesPerTurn()) * 2 * jitter
                : resolution(reading, trueRpm);
    }

    /**
     * The step between two neighbouring reports, rpm.
     *
     * @param reading pulses per turn, counter, report interval
     * @param trueRpm rpm, 0 or above; matters to a period timer only
     */
    public static double resolution(Tachometer reading, double trueRpm) {
        notNegative("true speed", trueRpm, "rpm");
        int pulses = reading.pulsesPerTurn();
        return switch (reading.counter()) {
            case Sampled s -> 60 / (pulses * reading.reportInterval());
            case Edge e -> 60 / (pulses * reading.reportInterval());
            case PeriodTimer(double clock) -> trueRpm * pulseRate(trueRpm, pulses) / clock;
        };
    }

    /**
     * Shown against true speed: evenly spaced points, and one at every corner where a sampled reading changes direction,
     * so that folds stay sharp when drawn.
     *
     * @param reading the reading
     * @param upToRpm the highest true speed, rpm, above 0
     * @param points how many evenly spaced, 2 to 100,000
     */
    public static ShownCurve curve(Tachometer reading, double upToRpm, int points) {
        return curve(reading, Conditions.PLAIN, upToRpm, points);
    }

    /**
     * The same with jitter or a chopped supply.
     *
     * @param reading the reading
     * @param conditions jitter and supply
     * @param upToRpm the highest true speed, rpm, above 0
     * @param points how many evenly spaced, 2 to 100,000
     */
    public static ShownCurve curve(Tachometer reading, Conditions conditions, double upToRpm, int points) {
        positive("highest speed", upToRpm, "rpm");
        within("points", points, 2, 100_000);
        TreeSet<Double> speeds = new TreeSet<>();
        for (int i = 0; i < points; i++) {
            speeds.add(upToRpm * i / (points - 1));
        }
        if (reading.counter() instanceof Sampled(double every)) {
            double toRpm = 60.0 / reading.pulsesPerTurn();
            double least = Math.min(reading.duty(), 1 - reading.duty());
            // beyond as many folds as points there is nothing to see in a drawing
            int folds = (int) Math.min(points, Math.ceil(upToRpm / toRpm * every));
            for (int fold = 0; fold <= folds; fold++) {
                for (double corner : new double[] {fold, fold + least, fold + 1 - least}) {
                    double rpm = corner / every * toRpm;
                    if (rpm <= upToRpm) {
                        speeds.add(rpm);
                    }
                }
            }
        }
        List<ShownCurve.Point> curve = new ArrayList<>();
        for (double rpm : speeds) {
            curve.add(new ShownCurve.Point(rpm, of(reading, rpm, conditions).shownRpm()));
        }
        return new ShownCurve(curve);
    }

    private static double shownRate(Tachometer reading, double rate) {
        return switch (reading.counter()) {
            case Sampled(double every) -> SampledPulses.shownRate(rate, every, reading.duty());
            case Edge edge -> EdgePulses.shownRate(rate, reading.duty(), edge);
            case PeriodTimer(double clock) -> Math.min(rate, clock);
        };
    }

    private static OptionalDouble highestHonestRate(Tachometer reading) {
        return switch (reading.counter()) {
            case Sampled(double every) -> OptionalDouble.of(SampledPulses.highestHonestRate(every, reading.duty()));
            case Edge edge -> EdgePulses.highestHonestRate(reading.duty(), edge);
            case PeriodTimer(double clock) -> OptionalDouble.of(clock);
        };
    }
}
