package coldward.model.verdict;

import coldward.model.build.Build;
import coldward.model.heat.FanFailure;
import coldward.model.heat.Race;
import java.util.Optional;
import java.util.PriorityQueue;

/**
 * The unsafe speed over draws of the uncertain inputs. Always over the same draws, whatever else is drawn, so that a trip
 * chosen from it is one and the same wherever it is asked for.
 */
public final class UnsafeSpeeds {

    /** How many draws. */
    public static final int DRAWS = 100;

    /** Their seed. */
    public static final long SEED = 1;

    /** The share of draws that lies at or below the quantile. */
    public static final double QUANTILE = 0.95;

    private UnsafeSpeeds() {}

    /**
     * The {@value #QUANTILE} quantile (nearest rank) of the unsafe speed over {@value #DRAWS} draws.
     *
     * @return share of rated speed, 0 (firm without a fan) to 1 (soft at full speed)
     */
    public static double quantile95(Build build) {
        Draws draws = new Draws(build, SEED, Optional.empty());
        int above = DRAWS - (int) Math.ceil(QUANTILE * DRAWS - 1e-9) + 1;
        // of the largest only as many as are needed; most draws are set aside by one look at the smallest of these
        PriorityQueue<Double> largest = new PriorityQueue<>();
        for (int i = 0; i < DRAWS; i++) {
            Optional<Race> race = draws.race(i, new FanFailure.Healthy());
            if (largest.size() < above) {
                largest.add(race.map(Race::unsafeSpeed).orElse(1.0));
            } else if (race.isEmpty() || race.get().softAtSpeed(largest.element())) {
                largest.add(race.map(Race::unsafeSpeed).orElse(1.0));
                largest.remove();
            }
        }
        return largest.element();
    }
}
