package coldward.watch.drill;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Response;
import coldward.model.build.Trip;
import coldward.model.trip.Coast;
import java.util.Arrays;
import java.util.Optional;

/**
 * When the model expects the trip and the safe state of a drill, s after the failure.
 *
 * <p>The reports are means over their interval W and the failure falls anywhere within one; the k-th low one ends at
 * {@code x + (k - 1 + u) W}, u uniform, where x is when a running mean over W passes the trip speed
 * ({@link coldward.model.trip.StopTimes}). The watch sees it at its next look, {@code v P} later, v uniform, P the time
 * between two looks; that is the trip. An action takes its latency L on the sheet and the request's own way a, which is
 * anywhere up to what the sheet's link latency leaves beside P; its effect is seen at the first look after that,
 * {@code ceil((a + L)/P) P} after the trip; the safe state is the last of them. Where no job feeds, hold has its effect
 * already and is seen at the first look. Quantiles are over u, v and a.
 *
 * <p>Assumptions: the fan turns steadily before; with a lowered supply it is slow at once; noise of the reading is small
 * beside the fall (0.4 % of the speed moves the trip by about 10 ms); the way of an answer is short beside P.
 *
 * @param trip when the watch trips
 * @param safe when the response is confirmed: the stop time as a drill measures it
 * @param latest the same with every phase at its worst: one drill in a hundred is honestly later than the 99 %, none later
 *     than this
 */
public record DrillForecast(Band trip, Band safe, double latest) {

    private static final int PHASES = 200;
    private static final int LOOKS = 20;
    private static final int WAYS = 5;
    private static final double LOW = 0.01;
    private static final double HIGH = 0.99;

    /**
     * Quantiles of a time.
     *
     * @param low 1 %, s
     * @param median 50 %, s
     * @param high 99 %, s
     */
    public record Band(double low, double median, double high) {
        public Band {
            notNegative("1 % quantile", low, "s");
            notNegative("median after the 1 % quantile", median - low, "s");
            notNegative("99 % quantile after the median", high - median, "s");
        }

        /** Whether a time is in it, s, give or take. */
        public boolean holds(double seconds, double tolerance) {
            return seconds >= low - tolerance && seconds <= high + tolerance;
        }

        private static Band of(double[] times) {
            Arrays.sort(times);
            return new Band(at(times, LOW), at(times, 0.5), at(times, HIGH));
        }

        private static double at(double[] sorted, double quantile) {
            return sorted[(int) Math.round(quantile * (sorted.length - 1))];
        }
    }

    /**
     * The forecast of a drill.
     *
     * @param kind how the fan fails
     * @param build the printer
     * @param trip its trip
     * @param healthy rpm that the fan shows before, above 0
     * @param lowered of a lowered supply: the speed it leads to as a share of the healthy one, 0 to 1; else without
     *     meaning
     * @param working a job feeds
     * @param look P, s between two looks of the watch at the machine; 0 where the machine speaks by itself
     * @return empty where nothing would trip: no signal, or the speed stays at or above the trip speed
     */
    public static Optional<DrillForecast> of(
            DrillKind kind, Build build, Trip trip, double healthy, double lowered, boolean working, double look) {
        positive("speed before the drill", healthy, "rpm");
        within("share of the speed", lowered, 0, 1, "");
        notNegative("time between two looks", look, "s");
        double share = trip.speed() / healthy;
        if (!(build.reading() instanceof Tachometer reading) || share > 1) {
            return Optional.empty();
        }
        double window = reading.reportInterval();
        double lowFrom = switch (kind) {
            case PULL -> new Coast(build.hotEnd().fan().coastDown()).timeToMean(share, window);
            case STALL, CUT_SIGNAL -> new Coast(0).timeToMean(share, window);
            case LOW_SUPPLY -> lowered < share ? window * (1 - share) / (1 - lowered) : Double.POSITIVE_INFINITY;
        };
        if (Double.isInfinite(lowFrom)) {
            return Optional.empty();
        }
        double[] trips = new double[PHASES * LOOKS];
        double[] safes = new double[PHASES * LOOKS * WAYS];
        double spare = Math.max(0, build.response().linkLatency() - look);
        int n = 0;
        int m = 0;
        for (int u = 0; u < PHASES; u++) {
            double seen = lowFrom + (trip.confirmations() - 1 + (u + 0.5) / PHASES) * window;
            for (int v = 0; v < LOOKS; v++) {
                double tripped = seen + (v + 0.5) / LOOKS * look;
                trips[n++] = tripped;
                for (int a = 0; a < WAYS; a++) {
                    safes[m++] = tripped + confirmed(build.response(), working, (a + 0.5) / WAYS * spare, look);
                }
            }
        }
        return Optional.of(new DrillForecast(
                Band.of(trips),
                Band.of(safes),
                lowFrom + trip.confirmations() * window + look + confirmed(build.response(), working, spare, look)));
    }

    /** s from the trip until the last action is seen; power-off comes after the others and does not count beside them. */
    private static double confirmed(Response response, boolean working, double way, double look) {
        boolean onlyPower = response.actions().stream().allMatch(a -> a == Action.POWER_OFF);
        double last = 0;
        for (Action action : response.actions()) {
            if (action != Action.POWER_OFF || onlyPower) {
                boolean there = action == Action.HOLD && !working;
                double effect = there ? 0 : way + response.latencyOf(action);
                // the look that trips was before the request, so the first one that can show an effect is the next
                double looks = look > 0 ? Math.max(1, Math.ceil(effect / look)) : 0;
                last = Math.max(last, look > 0 ? looks * look : effect);
            }
        }
        return last;
    }
}
