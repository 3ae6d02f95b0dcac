package coldward.figures;

import static coldward.quantity.Checks.notBlank;

import coldward.model.baseline.Baseline;
import coldward.model.baseline.Recording;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What a baseline figure shows.
 *
 * @param name whose recording it is
 * @param verdict one or two sentences
 * @param recording the reports
 * @param baseline what they say
 * @param outliers places of the outliers, from 0
 */
public record BaselinePicture(
        String name, String verdict, Recording recording, Baseline baseline, List<Integer> outliers) {

    /** Deviations to either side of the mean within which a healthy fan's reports lie, but for 3 in 1000 of a Gaussian. */
    public static final double BAND = 3;

    /** Part of a recording: the smallest, mean and greatest of its reports without the outliers. */
    record Column(double seconds, double low, double mean, double high) {}

    public BaselinePicture {
        notBlank("name", name);
        outliers = List.copyOf(outliers);
    }

    /** Of a recording. */
    public static BaselinePicture of(String name, String verdict, Recording recording, Baseline baseline) {
        return new BaselinePicture(name, verdict, recording, baseline, Baseline.outliers(recording));
    }

    /** The reports in at most so many parts of equal length; parts with nothing but outliers are left out. */
    List<Column> columns(int most) {
        List<Double> reports = recording.reports();
        int n = Math.min(most, reports.size());
        Set<Integer> out = new HashSet<>(outliers);
        List<Column> columns = new java.util.ArrayList<>(n);
        for (int c = 0; c < n; c++) {
            int from = (int) ((long) c * reports.size() / n);
            int to = (int) ((long) (c + 1) * reports.size() / n);
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            double sum = 0;
            int count = 0;
            for (int i = from; i < to; i++) {
                if (!out.contains(i)) {
                    double rpm = reports.get(i);
                    low = Math.min(low, rpm);
                    high = Math.max(high, rpm);
                    sum += rpm;
                    count++;
                }
            }
            if (count > 0) {
                columns.add(new Column((from + to - 1) / 2.0 * recording.interval(), low, sum / count, high));
            }
        }
        return columns;
    }

    double bandLow() {
        return baseline.mean() - BAND * baseline.deviation();
    }

    double bandHigh() {
        return baseline.mean() + BAND * baseline.deviation();
    }

    /** The drift line at a time, rpm: through the mean at the middle of the recording. */
    double drift(double seconds) {
        return baseline.mean() + baseline.drift().slope() * (seconds - recording.length() / 2) / 3600;
    }

    /** The speeds shown, from and to, with some room; outliers stand apart. */
    double[] range() {
        double low = Math.min(bandLow(), Math.min(drift(0), drift(recording.length())));
        double high = Math.max(bandHigh(), Math.max(drift(0), drift(recording.length())));
        for (Column column : columns(400)) {
            low = Math.min(low, column.low());
            high = Math.max(high, column.high());
        }
        double room = Math.max(0.08 * (high - low), 1);
        return new double[] {Math.max(0, low - room), high + room};
    }

    /** What the time axis counts in: seconds, minutes or hours, and how many seconds one of them has. */
    String timeUnit() {
        return recording.length() > 3 * 3600 ? "h" : recording.length() > 300 ? "min" : "s";
    }

    double perUnit() {
        return switch (timeUnit()) {
            case "h" -> 3600;
            case "min" -> 60;
            default -> 1;
        };
    }

    String description() {
        return "%s: %d reports over %.0f s. Mean %.0f rpm, deviation %.1f rpm, healthy band %.0f to %.0f rpm, %d outliers, drift %.1f rpm/h. %s"
                .formatted(
                        name,
                        recording.reports().size(),
                        recording.length(),
                        baseline.mean(),
                        baseline.deviation(),
                        bandLow(),
                        bandHigh(),
                        outliers.size(),
                        baseline.drift().slope(),
                        verdict);
    }
}
