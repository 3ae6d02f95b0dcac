package coldward.model.trip;

import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Reading.Tachometer;
import coldward.model.reading.Readings;

/**
 * What is known of the healthy fan's reports. A recording knows this fan; a sheet knows its rating and tolerance only, and
 * then both ends of the tolerance count: the slowest trips for nothing first, the fastest is unsafe and noticed last.
 *
 * @param slowest reports that spurious trips are counted on
 * @param fastest reports that the detection of a failure starts from
 * @param source where they come from
 */
public record HealthyFan(HealthyReports slowest, HealthyReports fastest, Source source) {

    /** Where the reports come from. */
    public enum Source {
        /** The rated speed and tolerance of the sheet, with assumed scatter. */
        SHEET("sheet"),
        /** A recording of this fan. */
        BASELINE("baseline");

        private final String word;

        Source(String word) {
            this.word = word;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }
    }

    /** Scatter of a fan's own speed from report to report, share of its speed; common practice, no source. */
    public static final double ASSUMED_SCATTER = 0.01;

    /** Correlation of neighbouring reports; common practice, no source. */
    public static final double ASSUMED_CORRELATION = 0.5;

    /** Share of reports that read 0 on their own: one lost report in a thousand; common practice, no source. */
    public static final double ASSUMED_OUTLIER_RATE = 1e-3;

    /** Report interval where no speed is read, s; only so that there is a number for the resolution. */
    private static final double NO_INTERVAL = 1;

    /** From a recording of this very fan. */
    public static HealthyFan ofRecording(HealthyReports reports) {
        return new HealthyFan(reports, reports, Source.BASELINE);
    }

    /**
     * From the sheet: N (1 - tolerance) and N (1 + tolerance); the deviation is {@value #ASSUMED_SCATTER} N together with
     * that of counting whole pulses, q / sqrt(6) for a resolution q; correlation and outliers are assumed. Speeds are as
     * shown where the reading is honest, which {@code Readings} says.
     */
    public static HealthyFan ofSheet(Build build) {
        Fan fan = build.hotEnd().fan();
        double step = build.reading() instanceof Tachometer tachometer
                ? Readings.resolution(tachometer, fan.ratedSpeed())
                : 60 / NO_INTERVAL;
        double deviation = Math.hypot(ASSUMED_SCATTER * fan.ratedSpeed(), step / Math.sqrt(6));
        return new HealthyFan(
                sheet(fan.ratedSpeed() * (1 - fan.speedTolerance()), deviation),
                sheet(fan.ratedSpeed() * (1 + fan.speedTolerance()), deviation),
                Source.SHEET);
    }

    /**
     * The speed by which a share of this fan's full speed becomes an absolute one that is safe for every fan it may be:
     * rated speed x (1 + tolerance), or without tolerance for a recording.
     *
     * @param build the printer
     */
    public double fullSpeed(Build build) {
        double rated = build.hotEnd().fan().ratedSpeed();
        return source == Source.SHEET ? rated * (1 + build.hotEnd().fan().speedTolerance()) : rated;
    }

    /**
     * The same knowledge of a changed printer: from its sheet, or the recording's speeds in proportion to the rated ones.
     *
     * @param before the printer these reports belong to
     * @param after the changed one
     */
    public HealthyFan after(Build before, Build after) {
        if (source == Source.SHEET) {
            return ofSheet(after);
        }
        double ratio = after.hotEnd().fan().ratedSpeed() / before.hotEnd().fan().ratedSpeed();
        return ofRecording(new HealthyReports(
                slowest.mean() * ratio, slowest.deviation(), slowest.correlation(), slowest.outlierRate()));
    }

    private static HealthyReports sheet(double mean, double deviation) {
        return new HealthyReports(mean, deviation, ASSUMED_CORRELATION, ASSUMED_OUTLIER_RATE);
    }
}
