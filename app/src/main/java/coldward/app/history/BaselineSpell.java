package coldward.app.history;

import coldward.model.baseline.Recording;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.Reads;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;

/**
 * Finds the longest spell of a recording that a baseline may be taken from: the fan is asked at one duty, and no report
 * is missing. A spell ends where the duty changes, the fan is not asked, or the next report comes later than
 * {@value #GAP} intervals; the first {@value #SPIN_UP_S} s after a start are left out. Where neither duty nor nozzle is read,
 * the fan is taken to be asked always. Of a spell with more than {@value #MOST} reports the newest are used.
 */
public final class BaselineSpell implements Consumer<GuardEvent.Report> {

    /** Intervals without a report after which the next one belongs to another spell; common practice, no source. */
    public static final int GAP = 3;

    /** s that a started fan is given to reach its speed; common practice, no source. */
    public static final int SPIN_UP_S = 10;

    /** Reports used at most: six days at four a second. */
    public static final int MOST = 2_000_000;

    private static final double NS = 1e9;

    /** K; a nozzle above it asks for the fan where no duty is read. */
    private final double runsAbove;

    private long[] times = new long[1024];
    private double[] speeds = new double[1024];
    private int count;
    private long seen;
    private Reads held = Reads.NONE;
    private OptionalDouble duty = OptionalDouble.empty();
    private boolean everResting;
    private long from = Long.MIN_VALUE;
    private @Nullable Found best;

    /**
     * A spell that a baseline may be taken from.
     *
     * @param recording the spell's reports
     * @param from time of its first report, ns
     * @param of reports with a speed in the whole recording
     */
    public record Found(Recording recording, long from, long of) {}

    /**
     * Begins with no report.
     *
     * @param runsAbove K; a nozzle above it asks for the fan where no duty is read
     */
    public BaselineSpell(double runsAbove) {
        this.runsAbove = runsAbove;
    }

    @Override
    public void accept(GuardEvent.Report report) {
        held = report.reads().over(held);
        boolean shows = report.reads().has(ReadName.SPEED);
        seen += shows ? 1 : 0;
        OptionalDouble now = duty();
        if (now.isEmpty()) {
            end();
            everResting = true;
            duty = now;
            return;
        }
        if (duty.isEmpty() || duty.getAsDouble() != now.getAsDouble()) {
            boolean began = duty.isPresent() || everResting;
            end();
            from = began ? report.at() + (long) (SPIN_UP_S * NS) : Long.MIN_VALUE;
            duty = now;
        }
        if (shows && report.at() >= from) {
            add(report.at(), report.reads().get(ReadName.SPEED));
        }
    }

    /**
     * The longest spell so far.
     *
     * @throws InputError if none has the {@value Recording#LEAST_REPORTS} reports that a recording needs
     */
    public Found found() {
        end();
        Found found = best;
        if (found == null) {
            throw new InputError(
                    "reports",
                    "no spell with the fan asked and no report missing has " + Recording.LEAST_REPORTS + " reports, of "
                            + seen + " reports in all");
        }
        return new Found(found.recording(), found.from(), seen);
    }

    /** The duty that the fan is asked at, 1 where only that it is asked is known; empty where it is not asked. */
    private OptionalDouble duty() {
        OptionalDouble said = held.find(ReadName.DUTY);
        if (said.isPresent() && said.getAsDouble() > 0) {
            return said;
        }
        OptionalDouble nozzle = held.find(ReadName.NOZZLE);
        if (nozzle.isPresent() && nozzle.getAsDouble() > runsAbove) {
            return OptionalDouble.of(1);
        }
        return said.isPresent() || nozzle.isPresent() ? OptionalDouble.empty() : OptionalDouble.of(1);
    }

    private void add(long at, double speed) {
        if (count == 2 * MOST) {
            // only the newest are kept; moving them once in a while is cheaper than a ring
            System.arraycopy(times, MOST, times, 0, MOST);
            System.arraycopy(speeds, MOST, speeds, 0, MOST);
            count = MOST;
        }
        if (count == times.length) {
            times = Arrays.copyOf(times, 2 * count);
            speeds = Arrays.copyOf(speeds, 2 * count);
        }
        times[count] = at;
        speeds[count++] = speed;
    }

    private void end() {
        if (count >= Recording.LEAST_REPORTS) {
            long longest = longestStep();
            int begin = 0;
            for (int i = 1; i <= count; i++) {
                if (i == count || times[i] - times[i - 1] > longest) {
                    offer(begin, i);
                    begin = i;
                }
            }
        }
        count = 0;
    }

    /** The longest step that is none: of times written to the second, several reports share one. */
    private long longestStep() {
        long[] steps = new long[count - 1];
        for (int i = 1; i < count; i++) {
            steps[i - 1] = times[i] - times[i - 1];
        }
        Arrays.sort(steps);
        long middle = steps[steps.length / 2];
        long least = middle > 0
                ? 0
                : Arrays.stream(steps).filter(s -> s > 0).findFirst().orElse(0);
        return Math.max(GAP * middle, 2 * least);
    }

    private void offer(int begin, int end) {
        int start = Math.max(begin, end - MOST);
        int n = end - start;
        Optional<Found> before = Optional.ofNullable(best);
        long length = times[end - 1] - times[start];
        if (n < Recording.LEAST_REPORTS
                || length <= 0
                || before.map(b -> b.recording().reports().size() >= n).orElse(false)) {
            return;
        }
        double[] shown = Arrays.copyOfRange(speeds, start, end);
        List<Double> reports = DoubleStream.of(shown).boxed().toList();
        double interval = length / NS / (n - 1);
        best = new Found(new Recording(reports, interval, resolution(shown)), times[start], seen);
    }

    /** The smallest step between two different speeds; 0 if all are equal. */
    private static double resolution(double[] shown) {
        double[] sorted = shown.clone();
        Arrays.sort(sorted);
        double least = Double.POSITIVE_INFINITY;
        for (int i = 1; i < sorted.length; i++) {
            double step = sorted[i] - sorted[i - 1];
            if (step > 0) {
                least = Math.min(least, step);
            }
        }
        return Double.isInfinite(least) ? 0 : least;
    }
}
