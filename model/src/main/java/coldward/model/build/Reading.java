package coldward.model.build;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/** How the fan's speed is reported. */
public sealed interface Reading {

    /** No speed is reported: nothing notices a stopped fan. */
    record None() implements Reading {}

    /**
     * A tachometer signal, counted.
     *
     * @param pulsesPerTurn pulses in one revolution, 1 to 12
     * @param duty share of the pulse period that is high, 0.01 to 0.99
     * @param counter what makes a number of the pulses
     * @param reportInterval s between two reports; each is the mean over its interval
     */
    record Tachometer(int pulsesPerTurn, double duty, Counter counter, double reportInterval) implements Reading {
        public Tachometer {
            within("reading pulses_per_turn", pulsesPerTurn, 1, 12);
            within("reading duty", duty, 0.01, 0.99, "");
            within("reading report_interval", reportInterval, 0.01, 600, "s");
        }
    }

    /** What makes a number of the pulses. */
    sealed interface Counter permits Sampled, Edge, PeriodTimer {}

    /**
     * The pin is looked at every so often; a low followed by a high counts one pulse.
     *
     * @param every s between two looks
     */
    record Sampled(double every) implements Counter {
        public Sampled {
            positive("reading sampled_every", every * 1e3, "ms");
        }
    }

    /**
     * Every rising edge counts.
     *
     * @param shortestLevel s; a level shorter than this is not seen (minimum pulse or stable-time filter), 0 if none
     * @param lockOut s after an edge during which further edges are ignored, 0 if none
     */
    record Edge(double shortestLevel, double lockOut) implements Counter {
        public Edge {
            within("reading shortest_level", shortestLevel, 0, 1, "s");
            within("reading lock_out", lockOut, 0, 1, "s");
        }
    }

    /**
     * The time between two rising edges is measured.
     *
     * @param clock Hz of the timer
     */
    record PeriodTimer(double clock) implements Counter {
        public PeriodTimer {
            positive("reading clock", clock, "Hz");
        }
    }
}
