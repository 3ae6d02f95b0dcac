package coldward.figures;

import coldward.figures.RacePicture.Sample;
import coldward.figures.RacePicture.Series;
import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTimeBudget;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What a race figure shows, before it is decided how: the same for SVG and text. Values in s and degC.
 *
 * @param picture where it comes from
 * @param end the last second shown
 * @param low the lowest temperature of the axis, degC
 * @param high the highest
 * @param series cut off at {@code end}
 * @param segments of the stop time, those of no length left out
 */
record RaceScene(
        RacePicture picture, double end, double low, double high, List<Series> series, List<Segment> segments) {

    /** Room beyond the later of stop time and deadline, and beyond a peak. */
    private static final double ROOM = 1.25;

    /** How many times as long as the race the axis may be: more, and the bar could not be seen. */
    private static final double MOST = 4;

    /** How many times as long it is where no curve has a peak to show. */
    private static final double USUAL = 2;

    /** Room above and below the curves, K. */
    private static final double LEAST_ROOM = 6;

    /** One part of the stop time, s since the failure. */
    record Segment(String word, double from, double to) {}

    static RaceScene of(RacePicture picture) {
        List<Segment> segments =
                picture.stop() instanceof RacePicture.Known(StopTimeBudget budget) ? segments(budget) : List.of();
        double race = segments.isEmpty() ? 0 : segments.getLast().to();
        if (picture.deadline() instanceof Deadline.Until(double seconds)) {
            race = Math.max(race, seconds);
        }
        double end = end(picture, race);
        List<Series> cut = picture.series().stream()
                .filter(one -> one.samples().getFirst().seconds() < end)
                .map(one -> new Series(one.label(), one.chosen(), cut(one.samples(), end), one.banded()))
                .toList();
        double low = picture.softensAt();
        double high = picture.softensAt();
        for (Sample sample : cut.stream().flatMap(s -> s.samples().stream()).toList()) {
            low = Math.min(low, Math.min(sample.low(), sample.celsius()));
            high = Math.max(high, Math.max(sample.high(), sample.celsius()));
        }
        double room = Math.max(LEAST_ROOM, (high - low) * 0.08);
        return new RaceScene(picture, end, low - room, high + room, cut, segments);
    }

    private static List<Segment> segments(StopTimeBudget budget) {
        List<Segment> segments = new ArrayList<>();
        String[] words = {"coast", "reading", "confirmations", "link", "machine"};
        double[] lengths = {budget.coast(), budget.reading(), budget.confirmations(), budget.link(), budget.machine()};
        double at = 0;
        for (int i = 0; i < words.length; i++) {
            if (lengths[i] > 0) {
                segments.add(new Segment(words[i], at, at + lengths[i]));
                at += lengths[i];
            }
        }
        return segments;
    }

    /**
     * Long enough for the race and for the peaks of the curves that have one, but not so long that the race cannot be seen; and always until
     * the chosen curve first softens.
     */
    private static double end(RacePicture picture, double race) {
        double data = 0;
        double peak = 0;
        double softens = 0;
        for (Series one : picture.series()) {
            List<Sample> samples = one.samples();
            data = Math.max(data, samples.getLast().seconds());
            double top = samples.stream().mapToDouble(Sample::celsius).max().orElse(0);
            if (samples.getLast().celsius() < top - 0.5) {
                peak = Math.max(peak, first(samples, top - 0.05));
            }
            if (one.chosen()) {
                softens = Math.max(softens, first(samples, picture.softensAt()));
            }
        }
        if (race == 0) {
            return data > 0 ? data : 1;
        }
        double least = Math.max(ROOM * race, ROOM * softens);
        double wanted = Math.clamp(Math.max(ROOM * peak, USUAL * race), least, Math.max(least, MOST * race));
        return Math.min(wanted, Math.max(data, ROOM * race));
    }

    /** When a curve first reaches a temperature, s; 0 if it does not. */
    private static double first(List<Sample> samples, double celsius) {
        return samples.stream()
                .filter(s -> s.celsius() >= celsius)
                .mapToDouble(Sample::seconds)
                .findFirst()
                .orElse(0);
    }

    private static List<Sample> cut(List<Sample> samples, double end) {
        List<Sample> cut = new ArrayList<>();
        for (Sample sample : samples) {
            if (sample.seconds() <= end) {
                cut.add(sample);
                continue;
            }
            Sample last = cut.getLast();
            double share = (end - last.seconds()) / (sample.seconds() - last.seconds());
            if (share > 0) {
                cut.add(new Sample(
                        end,
                        between(last.celsius(), sample.celsius(), share),
                        between(last.low(), sample.low(), share),
                        between(last.high(), sample.high(), share)));
            }
            break;
        }
        return cut;
    }

    private static double between(double a, double b, double share) {
        return a + share * (b - a);
    }

    /** The stop time, s; empty if there is none. */
    Optional<Double> stopTime() {
        return picture.stop() instanceof RacePicture.Known(StopTimeBudget budget)
                ? Optional.of(budget.total())
                : Optional.empty();
    }

    /** Where the deadline's post stands, s; empty if it is beyond every axis. */
    Optional<Double> post() {
        return switch (picture.deadline()) {
            case Deadline.Never() -> Optional.of(0.0);
            case Deadline.Until(double seconds) -> Optional.of(seconds);
            case Deadline.Always() -> Optional.empty();
        };
    }

    /** The deadline in a word or a number with its unit. */
    String deadlineWords() {
        return picture.deadline() instanceof Deadline.Until until
                ? until.words().substring("until ".length())
                : picture.deadline().words();
    }

    /** The margin, written out. */
    String marginWords() {
        return picture.margin().map(Margin::words).orElse("no margin");
    }

    /** The state colour of the margin. */
    Tone marginTone() {
        if (picture.margin().isEmpty()) {
            return Tone.ABNORMAL;
        }
        return switch (picture.margin().get()) {
            case Margin.NothingSaves() -> Tone.DANGER;
            case Margin.Seconds(double seconds) -> seconds < 0 ? Tone.DANGER : Tone.NORMAL;
            case Margin.Unlimited() -> Tone.NORMAL;
        };
    }

    /** What the figure is called. */
    String title() {
        return picture.printer() + ", " + picture.plastic() + ", fan fails while " + picture.state();
    }

    /** The facts of the figure in words, for those who do not see it. */
    String description() {
        StringBuilder out = new StringBuilder(picture.verdict());
        out.append(" Softening temperature ")
                .append(Checks.number(picture.softensAt()))
                .append(" °C.");
        for (Series one : series) {
            Sample top = one.samples().stream()
                    .reduce((a, b) -> b.celsius() > a.celsius() ? b : a)
                    .orElseThrow();
            out.append(' ').append(one.label()).append(one.chosen() ? ", chosen," : "");
            out.append(" at most ").append(Math.round(top.celsius())).append(" °C at ");
            out.append(seconds(top.seconds())).append('.');
        }
        String parts = segments.stream()
                .map(s -> s.word() + " " + seconds(s.to() - s.from()))
                .reduce((a, b) -> a + ", " + b)
                .orElse("");
        out.append(stopTime()
                .map(total -> " Stop time " + seconds(total) + (parts.isEmpty() ? "." : ": " + parts + "."))
                .orElseGet(() -> picture.stop() instanceof RacePicture.Missing(String why)
                        ? " No stop time: " + why + "."
                        : ""));
        out.append(" Deadline ")
                .append(deadlineWords())
                .append(". Margin: ")
                .append(marginWords())
                .append('.');
        return out.toString();
    }

    /** A duration with its unit: two decimals below 1 s, one below 10 s, else whole seconds. */
    static String seconds(double seconds) {
        double step = Stream.of(1.0, 10.0)
                        .filter(limit -> seconds < limit)
                        .findFirst()
                        .orElse(100.0)
                / 100;
        double shown = Math.rint(seconds / step) * step;
        return Checks.number(Math.rint(shown * 100) / 100) + " s";
    }
}
