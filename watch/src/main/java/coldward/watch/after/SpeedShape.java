package coldward.watch.after;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.watch.after.Likeliest.Cause;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * What the shape of a speed record says of the cause: how far the speed fell, and how long it took from 96 % to 10 % of
 * what it was. A coasting fan ({@code s = 1/(1 + t/tau)}) takes 9 tau for that, a blocked one or a lost signal no longer
 * than two reports; what takes more than three times the coast is a fade. The shares are this project's own.
 */
final class SpeedShape {

    private static final double HEALTHY = 0.96;
    private static final double STANDS = 0.1;
    private static final double COAST_TO_STANDS = 9;
    private static final double MUCH_LONGER = 3;

    /** K above the temperature from which on the fan turns. */
    private static final double NEARLY = 5;

    private SpeedShape() {}

    /** Speed of the healthy fan, rpm: the median before the fall; 0 where nothing was recorded before the trip. */
    static double healthy(List<Moment> moments) {
        List<Double> before = new ArrayList<>();
        for (Moment moment : moments) {
            if (moment.at() <= 0 && moment.speed().isPresent()) {
                before.add(moment.speed().getAsDouble());
            }
        }
        if (before.isEmpty()) {
            return 0;
        }
        // what is low already must not pull the median down
        double most = Collections.max(before);
        List<Double> turning =
                before.stream().filter(s -> s > most / 2).sorted().toList();
        return turning.get(turning.size() / 2);
    }

    static Likeliest of(Build build, List<Moment> moments) {
        double healthy = healthy(moments);
        double window = build.reading() instanceof Tachometer t ? t.reportInterval() : 0;
        double lastHealthy = Double.NaN;
        double stands = Double.NaN;
        double lowest = Double.POSITIVE_INFINITY;
        for (Moment moment : moments) {
            if (moment.at() > 0
                    && moment.nozzle().orElse(Double.POSITIVE_INFINITY)
                            < build.hotEnd().fan().runsAbove() + NEARLY) {
                // cold enough for the fan to be switched off: its number says nothing any more
                break;
            }
            if (moment.speed().isEmpty()) {
                continue;
            }
            double rpm = moment.speed().getAsDouble();
            lowest = Math.min(lowest, rpm);
            if (rpm >= HEALTHY * healthy && Double.isNaN(stands) && moment.at() <= 0) {
                lastHealthy = moment.at();
            }
            if (rpm <= STANDS * healthy && Double.isNaN(stands)) {
                stands = moment.at();
            }
        }
        if (healthy == 0 || Double.isNaN(lastHealthy)) {
            return new Likeliest(Cause.UNKNOWN, "no healthy speed is recorded before the trip");
        }
        double coast = COAST_TO_STANDS * build.hotEnd().fan().coastDown();
        if (Double.isNaN(stands)) {
            double fell = firstBelow(moments, healthy, lastHealthy, lowest + 0.05 * healthy) - lastHealthy;
            if (fell > MUCH_LONGER * coast + 3 * window) {
                return new Likeliest(
                        Cause.FADE,
                        "the speed fell for %.0f s to %.0f rpm, too long for a step".formatted(fell, lowest));
            }
            return new Likeliest(
                    Cause.SLOW, "the fan went on turning at %.0f %% of its speed".formatted(100 * lowest / healthy));
        }
        double took = stands - lastHealthy;
        if (took > MUCH_LONGER * coast + 3 * window) {
            return new Likeliest(Cause.FADE, "the speed fell to a stand over %.0f s".formatted(took));
        }
        // one report holds the fall itself, and it is seen up to a report late at either end
        if (took > 2.2 * window && coast > window) {
            return new Likeliest(Cause.STOP, "it ran down within %.1f s, as a fan without supply does".formatted(took));
        }
        return new Likeliest(Cause.BLOCKED, "it stood within %.1f s, sooner than a fan coasts".formatted(took));
    }

    private static double firstBelow(List<Moment> moments, double healthy, double from, double rpm) {
        for (Moment moment : moments) {
            if (moment.at() > from && moment.speed().orElse(healthy) <= rpm) {
                return moment.at();
            }
        }
        return from;
    }
}
