package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Reading.Counter;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;

/**
 * What counters show of a three-wire fan whose supply is chopped. The pin is high while the pulse is high and the supply
 * is on (share c of the time, F times a second); d is the pulse's duty, f its rate. Averaged over both phases, f and F not
 * in a ratio of small whole numbers:
 *
 * <p>edges: real ones f c (a pulse that rises while the supply is on), false ones F d (a supply that rises while the pulse
 * is high); sampled: {@code (1/T) (c d - (c - m(F T, c)) (d - m(f T, d)))} with m(x, d) = min(a, 1-a, d, 1-d), a =
 * frac(x), the share of phases in which a look finds high and the next low. Where an input is pulled up while the supply
 * is off, the pin is the inverse of such a signal with duty 1-d and counts the same edges. A counter with a filter or a
 * lock-out has no closed form: {@link PinSimulation} counts for it, one second with fixed phases. Assumes that the fan's
 * speed does not follow the single on-times.
 */
public final class ChoppedPulses {

    /** How long a counter without closed form is simulated, s. */
    private static final double SIMULATED_SECONDS = 1;

    private static final long SEED = 1;

    private ChoppedPulses() {}

    /**
     * Edges a second on the pin.
     *
     * @param real rising pulses while the supply is on, Hz
     * @param falseEdges edges that the chopping makes itself, Hz
     * @param hidden rising pulses while the supply is off, Hz
     */
    public record Edges(double real, double falseEdges, double hidden) {
        public Edges {
            notNegative("real edges", real, "Hz");
            notNegative("false edges", falseEdges, "Hz");
            notNegative("hidden edges", hidden, "Hz");
        }
    }

    /**
     * A reading with the supply held on: for a whole report ("full power during a reading"), or just as long as it takes
     * to see some whole periods.
     *
     * @param seconds for which the supply is held on
     * @param meanOnShare share of the time that the supply is then on, over a report interval
     */
    public record HeldOn(double seconds, double meanOnShare) {
        public HeldOn {
            positive("held on", seconds, "s");
            within("mean on_share", meanOnShare, 0, 1, "");
        }
    }

    /**
     * Edges of an unfiltered input.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param chopping of the supply; with full power there are no false edges
     */
    public static Edges edges(double rate, double duty, Chopping chopping) {
        check(rate, duty);
        double on = chopping.onShare();
        return new Edges(rate * on, on == 1 ? 0 : chopping.frequency() * duty, rate * (1 - on));
    }

    /**
     * The pulse rate shown, averaged over phases.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param counter what counts
     * @param chopping of the supply
     * @return Hz; above {@code rate} where the chopping's own edges are counted
     */
    public static double shownRate(double rate, double duty, Counter counter, Chopping chopping) {
        check(rate, duty);
        return switch (counter) {
            case Sampled(double every) -> {
                double on = chopping.onShare();
                double pulse = SampledPulses.turnover(rate * every, duty);
                double supply = on == 1 ? 0 : SampledPulses.turnover(chopping.frequency() * every, on);
                yield Math.max(0, on * duty - (on - supply) * (duty - pulse)) / every;
            }
            case Edge(double shortest, double lockOut)
            when shortest == 0 && lockOut == 0 -> total(rate, duty, chopping);
            case Edge edge ->
                PinSimulation.of(rate, duty, SEED)
                        .chopped(chopping)
                        .count(edge, 0, SIMULATED_SECONDS)
                        .rate();
            case PeriodTimer(double clock) -> Math.min(clock, total(rate, duty, chopping));
        };
    }

    /**
     * A stretched read: while the supply is held on for (n + 1)/f, n whole pulse periods are seen whatever the phase.
     *
     * @param slowestRate the slowest pulse rate to be read, Hz, above 0
     * @param periods whole periods to see, 1 or more; a turn's worth evens out unequal pulses
     * @param chopping otherwise
     * @param reportInterval s between two readings
     */
    public static HeldOn stretched(double slowestRate, int periods, Chopping chopping, double reportInterval) {
        positive("slowest pulse rate", slowestRate, "Hz");
        within("periods", periods, 1, 1000);
        positive("report interval", reportInterval, "s");
        double seconds = (periods + 1) / slowestRate;
        double held = Math.min(1, seconds / reportInterval);
        return new HeldOn(seconds, held + (1 - held) * chopping.onShare());
    }

    private static double total(double rate, double duty, Chopping chopping) {
        Edges edges = edges(rate, duty, chopping);
        return edges.real() + edges.falseEdges();
    }

    private static void check(double rate, double duty) {
        notNegative("pulse rate", rate, "Hz");
        within("duty", duty, 0.01, 0.99, "");
    }
}
