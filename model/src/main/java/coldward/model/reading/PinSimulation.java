package coldward.model.reading;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Reading.Counter;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * A pin simulated edge by edge, pulse AND supply, and counted as each counter does it: the brute force behind the closed
 * forms, and the only answer where there is none. The pulse train and the supply begin at phases drawn from the seed; the
 * same seed gives the same count.
 */
public final class PinSimulation {

    /** More events than this are no simulation but a typing error. */
    private static final double MOST_EVENTS = 2e8;

    private final double rate;
    private final double duty;
    private final Optional<Chopping> chopping;
    private final long seed;

    private PinSimulation(double rate, double duty, Optional<Chopping> chopping, long seed) {
        this.rate = rate;
        this.duty = duty;
        this.chopping = chopping;
        this.seed = seed;
    }

    /**
     * What was counted.
     *
     * @param real counted pulses that go back to a pulse that rose
     * @param falseEdges counted pulses that only the supply's switching made
     * @param seconds over which was counted
     * @param rate counted pulses a second; of a period timer the mean of what it measured, Hz
     */
    public record Count(long real, long falseEdges, double seconds, double rate) {
        public Count {
            positive("seconds", seconds, "s");
            notNegative("rate", rate, "Hz");
        }
    }

    /**
     * A pin with a steady supply.
     *
     * @param rate true pulse rate, Hz, 0 or above
     * @param duty share of the period that is high, 0.01 to 0.99
     * @param seed of phases and jitter
     */
    public static PinSimulation of(double rate, double duty, long seed) {
        notNegative("pulse rate", rate, "Hz");
        within("duty", duty, 0.01, 0.99, "");
        return new PinSimulation(rate, duty, Optional.empty(), seed);
    }

    /** The same with a chopped supply. */
    public PinSimulation chopped(Chopping by) {
        return new PinSimulation(rate, duty, by.onShare() == 1 ? Optional.empty() : Optional.of(by), seed);
    }

    /**
     * Counts.
     *
     * @param counter what counts
     * @param jitter s by which a look or a time stamp may be early or late, uniform; at most half of a sampling interval
     * @param seconds how long, above 0
     */
    public Count count(Counter counter, double jitter, double seconds) {
        positive("seconds", seconds, "s");
        notNegative("jitter", jitter * 1e3, "ms");
        double events = seconds * (rate + chopping.map(Chopping::frequency).orElse(0.0));
        within("events", events, 0, MOST_EVENTS, "");
        SplittableRandom draws = new SplittableRandom(seed);
        double pulsePhase = draws.nextDouble();
        double supplyPhase = draws.nextDouble();
        return switch (counter) {
            case Sampled(double every) -> {
                within("jitter", jitter, 0, every / 2, "s");
                yield looked(every, jitter, seconds, pulsePhase, supplyPhase, draws);
            }
            case Edge edge -> new Walk(pulsePhase, supplyPhase, seconds).edges(edge);
            case PeriodTimer(double clock) -> new Walk(pulsePhase, supplyPhase, seconds).periods(clock, jitter, draws);
        };
    }

    private Count looked(
            double every, double jitter, double seconds, double pulse, double supply, SplittableRandom draws) {
        double chops = chopping.map(Chopping::frequency).orElse(0.0);
        double on = chopping.map(Chopping::onShare).orElse(1.0);
        long looks = (long) Math.floor(seconds / every);
        within("looks", (double) looks, 0, MOST_EVENTS, "");
        long real = 0;
        long wrong = 0;
        boolean wasHigh = true;
        double turnedBefore = pulse;
        for (long i = 0; i <= looks; i++) {
            double at = i * every + (jitter == 0 ? 0 : jitter * (2 * draws.nextDouble() - 1));
            double turned = pulse + rate * at;
            double chopped = supply + chops * at;
            boolean high = turned - Math.floor(turned) < duty && (on == 1 || chopped - Math.floor(chopped) < on);
            if (high && !wasHigh) {
                if (Math.floor(turned) > Math.floor(turnedBefore)) {
                    real++;
                } else {
                    wrong++;
                }
            }
            wasHigh = high;
            turnedBefore = turned;
        }
        double whole = Math.max(1, looks) * every;
        return new Count(real, wrong, whole, (real + wrong) / whole);
    }

    /** Goes from one change of the pin to the next. */
    private final class Walk {

        private final double pulsePhase;
        private final double supplyPhase;
        private final double end;
        private double at;
        private long pulseChange;
        private long supplyChange;
        private boolean high;
        private boolean byPulse;

        Walk(double pulsePhase, double supplyPhase, double end) {
            this.pulsePhase = pulsePhase;
            this.supplyPhase = supplyPhase;
            this.end = end;
            while (pulseTime(pulseChange) < 0) {
                pulseChange++;
            }
            while (supplyTime(supplyChange) < 0) {
                supplyChange++;
            }
            high = level();
        }

        /** Even changes are rises, odd ones falls. */
        private double pulseTime(long change) {
            return rate == 0
                    ? Double.POSITIVE_INFINITY
                    : (Math.floorDiv(change, 2L) + (change % 2 == 0 ? 0 : duty) - pulsePhase) / rate;
        }

        private double supplyTime(long change) {
            return chopping.map(c -> (Math.floorDiv(change, 2L) + (change % 2 == 0 ? 0 : c.onShare()) - supplyPhase)
                            / c.frequency())
                    .orElse(Double.POSITIVE_INFINITY);
        }

        /** The pin after the changes so far: after a rise the next change is a fall. */
        private boolean level() {
            boolean pulse = rate == 0 ? pulsePhase < duty : pulseChange % 2 == 1;
            boolean supply = chopping.isEmpty() || supplyChange % 2 == 1;
            return pulse && supply;
        }

        /** On to the next change of the pin's level; false when the time is over. */
        private boolean next() {
            while (true) {
                double pulse = pulseTime(pulseChange);
                double supply = supplyTime(supplyChange);
                at = Math.min(pulse, supply);
                if (at >= end) {
                    return false;
                }
                byPulse = pulse <= supply;
                if (byPulse) {
                    pulseChange++;
                } else {
                    supplyChange++;
                }
                if (level() != high) {
                    high = level();
                    return true;
                }
            }
        }

        Count edges(Edge counter) {
            long real = 0;
            long wrong = 0;
            double free = 0;
            boolean accepted = high;
            boolean more = next();
            while (more) {
                double changed = at;
                boolean level = high;
                boolean pulse = byPulse;
                more = next();
                double lasts = (more ? at : end) - changed;
                if (lasts >= counter.shortestLevel() && level != accepted) {
                    accepted = level;
                    if (level && changed >= free) {
                        real += pulse ? 1 : 0;
                        wrong += pulse ? 0 : 1;
                        free = changed + counter.lockOut();
                    }
                }
            }
            return new Count(real, wrong, end, (real + wrong) / end);
        }

        /** The mean of clock/ticks, weighted by time: all ticks between the first and the last edge. */
        Count periods(double clock, double jitter, SplittableRandom draws) {
            long real = 0;
            long wrong = 0;
            long first = 0;
            long last = 0;
            while (next()) {
                if (high) {
                    double late = jitter == 0 ? 0 : jitter * (2 * draws.nextDouble() - 1);
                    long tick = (long) Math.floor((at + late) * clock);
                    if (real + wrong == 0) {
                        first = tick;
                    } else if (tick <= last) {
                        // within one tick of the edge before: the timer cannot tell the two apart
                        continue;
                    }
                    last = tick;
                    real += byPulse ? 1 : 0;
                    wrong += byPulse ? 0 : 1;
                }
            }
            long edges = real + wrong;
            return new Count(real, wrong, end, edges < 2 ? 0 : (edges - 1) * clock / (last - first));
        }
    }
}
