package coldward.rig;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.SplittableRandom;

/** What is the matter with a simulated fan, its wires or its counter, so that the number shown is not what it seems. */
public sealed interface Mishap {

    /** Nothing: all as on the sheet. */
    record AsBuilt() implements Mishap {}

    /**
     * A fan with another magnet ring.
     *
     * @param pulses per turn
     */
    record OtherMagnet(int pulses) implements Mishap {
        public OtherMagnet {
            within("pulses", pulses, 1, 12);
        }
    }

    /**
     * The pin is looked at, and less often than thought.
     *
     * @param every s between two looks at the usual setting
     */
    record LateLooks(double every) implements Mishap {
        public LateLooks {
            positive("every", every * 1e3, "ms");
        }
    }

    /**
     * The fan's supply is switched to slow it.
     *
     * @param frequency Hz
     * @param onShare usual share of the time that it is on
     * @param pulledUp true if the pin is high while the supply is off, false if low
     */
    record SwitchedSupply(double frequency, double onShare, boolean pulledUp) implements Mishap {
        public SwitchedSupply {
            positive("frequency", frequency, "Hz");
            within("on share", onShare, 0.01, 1, "");
        }
    }

    /** Rises and falls are both counted. */
    record TwiceCounted() implements Mishap {}

    /**
     * Too little voltage arrives.
     *
     * @param share of the rated one
     */
    record SaggingSupply(double share) implements Mishap {
        public SaggingSupply {
            within("share", share, 0, 1, "");
        }
    }

    /**
     * Something covers the inlet or fills the fins.
     *
     * @param air share that still comes through
     * @param speed share of the free speed
     */
    record CoveredInlet(double air, double speed) implements Mishap {
        public CoveredInlet {
            within("air", air, 0, 1, "");
            within("speed", speed, 0.5, 1.5, "");
        }
    }

    /**
     * The bearing has run dry.
     *
     * @param speed share of the free speed
     */
    record DryBearing(double speed) implements Mishap {
        public DryBearing {
            within("speed", speed, 0, 1, "");
        }
    }

    /**
     * The motors' currents reach the signal wire.
     *
     * @param rate disturbances a second while a motor runs
     * @param turns whether the fan itself turns
     */
    record MotorNoise(double rate, boolean turns) implements Mishap {
        public MotorNoise {
            notNegative("rate", rate, "Hz");
        }
    }

    /**
     * The third wire is an alarm.
     *
     * @param lowSpeed it answers to a low speed, otherwise only to a held rotor
     */
    record AlarmWire(boolean lowSpeed) implements Mishap {}

    /**
     * The rotor stands.
     *
     * @param powered its supply is there
     * @param held something holds it
     */
    record Standing(boolean powered, boolean held) implements Mishap {}

    /** The signal wire is cut between fan and counter. */
    record CutSignal() implements Mishap {}

    /** Kinds that can be drawn. */
    enum Kind {
        AS_BUILT,
        OTHER_MAGNET,
        LATE_LOOKS,
        SWITCHED_SUPPLY,
        TWICE_COUNTED,
        SAGGING_SUPPLY,
        COVERED_INLET,
        DRY_BEARING,
        MOTOR_NOISE,
        HELD_ALARM,
        LOW_SPEED_ALARM,
        STANDING,
        CUT_SIGNAL
    }

    /**
     * One of a kind with drawn numbers; common practice, no source, and the rig's own.
     *
     * @param kind which
     * @param setPulses pulses per turn that the counter is set to
     * @param honestEvery the longest s between two looks that misses nothing of this fan
     * @param usualEvery the s between two looks that are meant, 0 for a counter that does not look
     * @param random to draw from
     */
    static Mishap drawn(Kind kind, int setPulses, double honestEvery, double usualEvery, SplittableRandom random) {
        return switch (kind) {
            case AS_BUILT -> new AsBuilt();
            case OTHER_MAGNET -> {
                int[] rings = {1, 2, 2, 3, 4, 6};
                int ring = rings[random.nextInt(rings.length)];
                while (ring == setPulses) {
                    ring = rings[random.nextInt(rings.length)];
                }
                yield new OtherMagnet(ring);
            }
            case LATE_LOOKS -> new LateLooks(Math.max(usualEvery, honestEvery * (1.15 + 4.5 * random.nextDouble())));
            case SWITCHED_SUPPLY ->
                new SwitchedSupply(
                        15 * Math.pow(1000, random.nextDouble()),
                        0.35 + 0.5 * random.nextDouble(),
                        random.nextDouble() < 0.3);
            case TWICE_COUNTED -> new TwiceCounted();
            case SAGGING_SUPPLY -> new SaggingSupply(0.45 + 0.4 * Math.sqrt(random.nextDouble()));
            case COVERED_INLET ->
                new CoveredInlet(0.45 * random.nextDouble(), 1 + 0.04 * (random.nextDouble() * 3 - 1));
            case DRY_BEARING -> new DryBearing(0.6 + 0.32 * random.nextDouble());
            case MOTOR_NOISE -> new MotorNoise(30 * Math.pow(80, random.nextDouble()), random.nextDouble() < 0.5);
            case HELD_ALARM -> new AlarmWire(false);
            case LOW_SPEED_ALARM -> new AlarmWire(true);
            case STANDING -> {
                boolean powered = random.nextDouble() < 0.6;
                yield new Standing(powered, powered && random.nextDouble() < 0.7);
            }
            case CUT_SIGNAL -> new CutSignal();
        };
    }
}
