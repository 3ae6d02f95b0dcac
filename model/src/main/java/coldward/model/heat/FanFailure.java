package coldward.model.heat;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

/** How the fan's speed goes after it has failed at t = 0, as a share of what it was. */
public sealed interface FanFailure {

    /** Speed at a time after the failure, s; share of the speed before. */
    double speed(double seconds);

    /**
     * The supply is gone and the fan coasts, {@code 1/(1 + t/tau)}; a blocked rotor stands at once.
     *
     * @param tau s until half speed, 0 for a blocked rotor
     */
    record Stop(double tau) implements FanFailure {
        public Stop {
            notNegative("coast_down", tau, "s");
        }

        @Override
        public double speed(double seconds) {
            return tau == 0 ? 0 : tau / (tau + seconds);
        }
    }

    /**
     * It turns at a fraction at once.
     *
     * @param fraction 0 to 1
     */
    record Slow(double fraction) implements FanFailure {
        public Slow {
            within("fraction", fraction, 0, 1, "");
        }

        @Override
        public double speed(double seconds) {
            return fraction;
        }
    }

    /**
     * It slows linearly to a stand.
     *
     * @param duration s until it stands
     */
    record Fade(double duration) implements FanFailure {
        public Fade {
            positive("fade duration", duration, "s");
        }

        @Override
        public double speed(double seconds) {
            return Math.max(0, 1 - seconds / duration);
        }
    }

    /** It does not fail. */
    record Healthy() implements FanFailure {
        @Override
        public double speed(double seconds) {
            return 1;
        }
    }
}
