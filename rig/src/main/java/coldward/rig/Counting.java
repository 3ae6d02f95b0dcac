package coldward.rig;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import coldward.model.reading.EdgePulses;
import coldward.model.reading.Readings;
import coldward.model.reading.SampledPulses;

/**
 * A tachometer signal seen through its counter, over one report after another: the rates are those of
 * {@link SampledPulses} and {@link EdgePulses}; a period timer gives a whole number of clock ticks for the mean period of
 * the report. Counters count whole pulses; what is left of a pulse at a report's end goes into the next report.
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
        return switch (tachometer.counter()) {
            case Sampled(double every) -> SampledPulses.shownRate(frequency, every, tachometer.duty());
            case Edge edge -> EdgePulses.shownRate(frequency, tachometer.duty(), edge);
            case PeriodTimer timer -> frequency;
        };
    }

    /** The fan turns for a time, s, at a mean speed, rpm; a cut signal is a speed of 0. */
    void turn(double seconds, double speed) {
        double frequency = Readings.pulseRate(speed, tachometer.pulsesPerTurn());
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
