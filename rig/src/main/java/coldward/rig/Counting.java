package coldward.rig;

import coldward.model.build.Reading.Counter;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;

/**
 * A tachometer signal seen through its counter, over one report after another. With f = N p/60 the signal's frequency
 * (N rpm, p pulses per turn) and d the share of its period that is high:
 *
 * <ul>
 *   <li>sampled every T: pulses are shown at g = min(a, 1-a, d, 1-d)/T with a = frac(f T), the mean over phase of a
 *       rotation by a; true while f T is at most min(d, 1-d), then flat, then folding back;
 *   <li>every edge: at f; none at all once the shorter level is below the input's shortest; every ceil(f L)-th edge
 *       with a lock-out L;
 *   <li>period timer: a whole number of clock ticks for the mean period of the report.
 * </ul>
 *
 * Counters count whole pulses; what is left of a pulse at a report's end goes into the next report.
 */
final class Counting {

    private static final double SECONDS_PER_MINUTE = 60;

    private final Tachometer tachometer;
    private double pulses;
    private double elapsed;

    Counting(Tachometer tachometer) {
        this.tachometer = tachometer;
    }

    /** Pulses per second that the counter sees of a signal of this frequency, Hz. */
    static double seenRate(Tachometer tachometer, double frequency) {
        return seenRate(tachometer.counter(), tachometer.duty(), frequency);
    }

    private static double seenRate(Counter counter, double duty, double frequency) {
        double shorter = Math.min(duty, 1 - duty);
        return switch (counter) {
            case Sampled sampled -> {
                double rotation = frequency * sampled.every();
                double part = rotation - Math.floor(rotation);
                yield Math.min(Math.min(part, 1 - part), shorter) / sampled.every();
            }
            case Edge edge -> {
                if (frequency <= 0 || shorter / frequency < edge.shortestLevel()) {
                    yield 0;
                }
                // an edge exactly at the end of a lock-out counts; the small step keeps rounding from skipping it
                double skipped = Math.ceil(frequency * edge.lockOut() - 1e-9);
                yield frequency / Math.max(1, skipped);
            }
            case PeriodTimer timer -> frequency;
        };
    }

    /** The fan turns for a time, s, at a mean speed, rpm; a cut signal is a speed of 0. */
    void turn(double seconds, double speed) {
        double frequency = speed * tachometer.pulsesPerTurn() / SECONDS_PER_MINUTE;
        pulses += seenRate(tachometer, frequency) * seconds;
        elapsed += seconds;
    }

    /** Ends a report. @return the speed it shows, rpm; 0 if no time has passed since the last one */
    double report() {
        if (elapsed <= 0) {
            return 0;
        }
        double rate;
        if (tachometer.counter() instanceof PeriodTimer timer) {
            double mean = pulses / elapsed;
            double ticks = mean > 0 ? Math.max(1, Math.rint(timer.clock() / mean)) : 0;
            // no edge within a whole report: the timer has nothing to measure
            rate = pulses < 0.5 ? 0 : timer.clock() / ticks;
            pulses = 0;
        } else {
            // a sum of many small shares may end a hair below the whole pulse that it means
            double whole = Math.floor(pulses + 1e-6);
            pulses = Math.max(0, pulses - whole);
            rate = whole / elapsed;
        }
        elapsed = 0;
        return rate * SECONDS_PER_MINUTE / tachometer.pulsesPerTurn();
    }

    double pulses() {
        return pulses;
    }

    double elapsed() {
        return elapsed;
    }

    void restore(double leftPulses, double leftSeconds) {
        pulses = leftPulses;
        elapsed = leftSeconds;
    }
}
