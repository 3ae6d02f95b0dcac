package coldward.figures;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;

import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTimeBudget;
import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What the race figure shows.
 *
 * @param printer its name
 * @param plastic its name
 * @param state what the printer does when the fan fails, for example {@code printing}
 * @param softensAt softening temperature, degC
 * @param series one curve per response; may be empty
 * @param verdict one sentence
 * @param stop where the stop time goes, or why there is none
 * @param deadline of the chosen response
 * @param margin of the chosen response; empty where the printer cannot run at all
 */
public record RacePicture(
        String printer,
        String plastic,
        String state,
        double softensAt,
        List<Series> series,
        String verdict,
        Stop stop,
        Deadline deadline,
        Optional<Margin> margin) {

    /** The stop time. */
    public sealed interface Stop {}

    /**
     * It is known.
     *
     * @param budget its parts, s
     */
    public record Known(StopTimeBudget budget) implements Stop {}

    /**
     * There is none.
     *
     * @param why in words, for example {@code no speed is read: nothing notices a stopped fan}
     */
    public record Missing(String why) implements Stop {
        public Missing {
            notBlank("why", why);
        }
    }

    /**
     * One moment of a curve.
     *
     * @param seconds s since the failure, 0 or above
     * @param celsius filament where the cold side begins, degC
     * @param low 5 % quantile, degC, at most {@code high}
     * @param high 95 % quantile, degC
     */
    public record Sample(double seconds, double celsius, double low, double high) {
        public Sample {
            notNegative("seconds", seconds, "s");
            finite("filament temperature", celsius);
            finite("lower edge of the band", low);
            finite("upper edge of the band", high);
            if (low > high) {
                throw new InputError(
                        "band",
                        "band's lower edge is %.1f degC but must not be above the upper one (%.1f degC)"
                                .formatted(low, high));
            }
        }
    }

    /**
     * The filament's temperature under one response.
     *
     * @param label the response as on a sheet, for example {@code [hold, heater-off]}
     * @param chosen true for the response the stop time and deadline belong to
     * @param samples by rising time, at least two
     * @param banded true if the samples carry a 5-95 % band
     */
    public record Series(String label, boolean chosen, List<Sample> samples, boolean banded) {
        public Series {
            notBlank("label", label);
            samples = List.copyOf(samples);
            if (samples.size() < 2) {
                throw new InputError("samples", "samples of " + label + " are fewer than 2 but a curve needs 2");
            }
            for (int i = 1; i < samples.size(); i++) {
                if (!(samples.get(i).seconds() > samples.get(i - 1).seconds())) {
                    throw new InputError(
                            "seconds", "seconds of " + label + " must rise; entry " + (i + 1) + " does not");
                }
            }
        }

        /**
         * A curve without a band.
         *
         * @param label the response
         * @param chosen true for the response the figure is about
         * @param seconds s since the failure, rising
         * @param celsius degC, one for each of {@code seconds}
         */
        public static Series of(String label, boolean chosen, double[] seconds, double[] celsius) {
            return new Series(label, chosen, samples(seconds, celsius, celsius, celsius), false);
        }

        /**
         * A curve with its 5-95 % band.
         *
         * @param label the response
         * @param chosen true for the response the figure is about
         * @param seconds s since the failure, rising
         * @param celsius degC, one for each of {@code seconds}
         * @param low 5 % quantile, degC, likewise
         * @param high 95 % quantile, degC, likewise
         */
        public static Series banded(
                String label, boolean chosen, double[] seconds, double[] celsius, double[] low, double[] high) {
            return new Series(label, chosen, samples(seconds, celsius, low, high), true);
        }

        private static List<Sample> samples(double[] seconds, double[] celsius, double[] low, double[] high) {
            if (celsius.length != seconds.length || low.length != seconds.length || high.length != seconds.length) {
                throw new InputError(
                        "samples",
                        "samples differ in number: %d seconds, %d temperatures, %d lower and %d upper edges"
                                .formatted(seconds.length, celsius.length, low.length, high.length));
            }
            List<Sample> samples = new ArrayList<>();
            for (int i = 0; i < seconds.length; i++) {
                samples.add(new Sample(seconds[i], celsius[i], low[i], high[i]));
            }
            return samples;
        }
    }

    public RacePicture {
        notBlank("printer", printer);
        notBlank("plastic", plastic);
        notBlank("state", state);
        finite("softening temperature", softensAt);
        notBlank("verdict", verdict);
        series = List.copyOf(series);
    }

    private static void finite(String name, double celsius) {
        Checks.within(name, celsius, -273.15, 5000, "degC");
    }
}
