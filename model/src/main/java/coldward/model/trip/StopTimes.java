package coldward.model.trip;

import static coldward.quantity.Checks.positive;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Response;
import coldward.model.build.Trip;
import coldward.model.reading.Readings;

/**
 * The stop time after a fan's supply fails at full speed, without noise.
 *
 * <p>The fan coasts after {@link Coast}. Every report is the mean speed over its window W; windows follow one another
 * without gap, and the failure falls anywhere within one with the same likelihood. The running mean over W falls steadily,
 * so there is one moment x after the failure at which it passes the trip speed; the first report that ends later than x
 * is low, the k - 1 that follow are too, and the k-th one's end is the detection: uniform from x + (k-1) W to x + k W.
 *
 * <p>Assumptions: the reading is honest where the fan coasts through the trip speed (a folded reading shows less, never
 * more, than the true speed, so the detection is then no later); its resolution is small beside the trip speed; the grace
 * is over. A poll's delay is part of the link latency, not of this.
 */
public final class StopTimes {

    private StopTimes() {}

    /**
     * For a build with its trip, from the rated speed.
     *
     * @param build the printer
     * @param trip its trip, from the sheet or chosen
     */
    public static StopTime of(Build build, Trip trip) {
        return of(build, trip, build.hotEnd().fan().ratedSpeed());
    }

    /**
     * For a build with its trip, from a given speed.
     *
     * @param build the printer
     * @param trip its trip
     * @param speed rpm of the healthy fan, above 0
     */
    public static StopTime of(Build build, Trip trip, double speed) {
        return of(build.reading(), new Coast(build.hotEnd().fan().coastDown()), trip, build.response(), speed);
    }

    /**
     * From the parts that matter.
     *
     * @param reading how the speed is read
     * @param coast how the fan slows down
     * @param trip trip speed and confirmations
     * @param response latencies of link and machine
     * @param speed rpm of the healthy fan, above 0
     */
    public static StopTime of(Reading reading, Coast coast, Trip trip, Response response, double speed) {
        positive("fan speed", speed, "rpm");
        return switch (reading) {
            case Reading.None() -> new StopTime.NeverNoticed();
            case Tachometer tachometer -> noticed(tachometer, coast, trip, response, speed);
        };
    }

    private static StopTime noticed(Tachometer reading, Coast coast, Trip trip, Response response, double speed) {
        double shown = Readings.of(reading, speed).shownRpm();
        if (shown < trip.speed()) {
            return new StopTime.AlwaysLow(trip.speed(), shown);
        }
        double share = trip.speed() / speed;
        double window = reading.reportInterval();
        double slow = coast.timeTo(share);
        // the mean over a window lags the speed itself; max guards the last bit where both are 0
        return new StopTime.Noticed(
                slow,
                Math.max(slow, coast.timeToMean(share, window)),
                window,
                trip.confirmations(),
                response.linkLatency(),
                response.machineLatency());
    }
}
