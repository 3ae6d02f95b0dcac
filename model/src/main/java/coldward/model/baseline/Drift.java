package coldward.model.baseline;

import java.util.Arrays;
import java.util.Optional;

/**
 * Does the speed stay? The Theil-Sen slope over the recording, and over each half.
 *
 * <p>From {@value #FROM} kept reports on, the slope is taken through {@value #BLOCKS} means of neighbouring reports. The
 * slope's 99 % interval is widened for the correlation of what is left beside the line. A change counts if it is larger
 * than the limit and the interval leaves out 0. A recording is still warming up if the first half's change counts and the
 * second half's is less than half as large; else it is not stationary if the whole's change counts. A straight line sees a
 * slow, steady move; it does not see one to and fro.
 *
 * @param slope rpm/h
 * @param low lower end of its 99 % interval, rpm/h
 * @param high upper end, rpm/h
 * @param change rpm, from one end of the recording to the other
 * @param limit rpm, the largest change that is allowed
 * @param firstHalf rpm, change in the first half
 * @param secondHalf rpm, change in the second half
 * @param statement what follows
 */
public record Drift(
        double slope,
        double low,
        double high,
        double change,
        double limit,
        double firstHalf,
        double secondHalf,
        Statement statement) {

    /** What the slopes say. */
    public enum Statement {
        /** No change that counts. */
        STATIONARY,
        /** It moved at first and has settled. */
        STILL_WARMING_UP,
        /** It moves. */
        NOT_STATIONARY
    }

    /** Change over the recording that is allowed, in deviations of the reports; common practice, no source. */
    public static final double LARGEST_CHANGE = 0.5;

    static final int BLOCKS = 200;
    static final int FROM = 2 * BLOCKS;

    private static final double CONFIDENCE = 0.99;
    private static final double SECONDS_PER_HOUR = 3600;
    private static final double MOST_ALIKE = 0.99;

    static Drift of(double[] shown, boolean[] kept, double interval, double limit) {
        double[] hours = new double[shown.length];
        double[] rpm = new double[shown.length];
        int count = 0;
        for (int i = 0; i < shown.length; i++) {
            if (kept[i]) {
                hours[count] = i * interval / SECONDS_PER_HOUR;
                rpm[count++] = shown[i];
            }
        }
        double length = shown.length * interval / SECONDS_PER_HOUR;
        int middle = count / 2;
        TheilSen all = line(hours, rpm, 0, count);
        TheilSen first = line(hours, rpm, 0, middle);
        TheilSen second = line(hours, rpm, middle, count);
        double before = first.slope() * length / 2;
        double after = second.slope() * length / 2;
        Statement statement = Statement.STATIONARY;
        if (counts(first, before, limit) && Math.abs(after) < Math.abs(before) / 2) {
            statement = Statement.STILL_WARMING_UP;
        } else if (counts(all, all.slope() * length, limit)) {
            statement = Statement.NOT_STATIONARY;
        }
        return new Drift(all.slope(), all.low(), all.high(), all.slope() * length, limit, before, after, statement);
    }

    /** The statement as a warning; empty where the speed stays. */
    public Optional<BaselineWarning> warning() {
        return switch (statement) {
            case STATIONARY -> Optional.empty();
            case STILL_WARMING_UP -> Optional.of(new BaselineWarning.StillWarmingUp(firstHalf, secondHalf, limit));
            case NOT_STATIONARY -> Optional.of(new BaselineWarning.NotStationary(change, limit));
        };
    }

    private static boolean counts(TheilSen line, double change, double limit) {
        return Math.abs(change) > limit && (line.low() > 0 || line.high() < 0);
    }

    private static TheilSen line(double[] hours, double[] rpm, int from, int to) {
        double[] x = thinned(hours, from, to);
        double[] y = thinned(rpm, from, to);
        TheilSen plain = TheilSen.fit(x, y, CONFIDENCE, 1);
        double[] beside = new double[x.length];
        boolean[] all = new boolean[x.length];
        for (int i = 0; i < x.length; i++) {
            beside[i] = y[i] - plain.slope() * x[i];
            all[i] = true;
        }
        double r = Math.clamp(Lag.of(beside, all).correlation(), 0, MOST_ALIKE);
        return TheilSen.fit(x, y, CONFIDENCE, Math.sqrt((1 + r) / (1 - r)));
    }

    private static double[] thinned(double[] values, int from, int to) {
        int count = to - from;
        if (count < FROM) {
            return Arrays.copyOfRange(values, from, to);
        }
        // means rather than medians: a counter's coarse steps would keep every median on the same step
        double[] means = new double[BLOCKS];
        for (int b = 0; b < BLOCKS; b++) {
            int start = from + (int) ((long) count * b / BLOCKS);
            int end = from + (int) ((long) count * (b + 1) / BLOCKS);
            means[b] = Arrays.stream(values, start, end).average().orElseThrow();
        }
        return means;
    }
}
