package coldward.rig;

import coldward.model.heat.FanFailure;
import coldward.quantity.InputError;
import java.util.List;
import java.util.Optional;

/** What can be broken on a simulated printer. A fan and its signal fail apart, so both may be broken at once. */
public sealed interface Failure {

    /** The word in commands and records. */
    String word();

    /** Failures of the fan itself. */
    sealed interface OfFan extends Failure {}

    /** Failures of what is told about it; the fan is fine. */
    sealed interface OfSignal extends Failure {}

    /** The supply is lost and the fan coasts down; a blocked rotor ({@code coast_down: 0 s}) stands at once. */
    record Stop() implements OfFan {
        @Override
        public String word() {
            return "stop";
        }
    }

    /**
     * It turns at a fraction of its speed at once.
     *
     * @param fraction 0 to 1
     */
    record Slow(double fraction) implements OfFan {
        public Slow {
            new FanFailure.Slow(fraction);
        }

        @Override
        public String word() {
            return "slow";
        }
    }

    /**
     * It slows linearly to a stand.
     *
     * @param seconds until it stands, s, above 0
     */
    record Fade(double seconds) implements OfFan {
        public Fade {
            new FanFailure.Fade(seconds);
        }

        @Override
        public String word() {
            return "fade";
        }
    }

    /** The signal wire is cut: no pulses arrive. */
    record CutSignal() implements OfSignal {
        @Override
        public String word() {
            return "cut-signal";
        }
    }

    /** The shown number stays what it was, with new report numbers, whatever the fan does. */
    record StuckReading() implements OfSignal {
        @Override
        public String word() {
            return "stuck-reading";
        }
    }

    /** Every word, in the order in which they are listed to people. */
    List<String> WORDS = List.of("stop", "slow", "fade", "cut-signal", "stuck-reading");

    /**
     * The failure of a word.
     *
     * @param fraction for {@code slow}, 0 to 1
     * @param fadeSeconds for {@code fade}, s, above 0
     * @return empty if there is none of this word
     * @throws InputError if the number that this failure needs is out of range
     */
    static Optional<Failure> of(String word, double fraction, double fadeSeconds) {
        return switch (word) {
            case "stop" -> Optional.of(new Stop());
            case "slow" -> Optional.of(new Slow(fraction));
            case "fade" -> Optional.of(new Fade(fadeSeconds));
            case "cut-signal" -> Optional.of(new CutSignal());
            case "stuck-reading" -> Optional.of(new StuckReading());
            default -> Optional.empty();
        };
    }
}
