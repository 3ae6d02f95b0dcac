package coldward.model.design;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Trip;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.HealthyReports;
import coldward.model.trip.Runs;
import coldward.model.trip.SpuriousRate;
import coldward.model.trip.SpuriousTrips;
import coldward.model.trip.Trips;
import coldward.quantity.OwnBug;
import java.util.HashMap;
import java.util.Map;

/** What spurious trips say, remembered: a map and a search for changes ask the same again and again. One thread. */
final class SpuriousTable {

    /** Below so many deviations the Gaussian's share of the low reports is under 2e-19. */
    private static final double FAR = 9;

    /** Where it is this much smaller than the outliers' it changes no digit that is shown. */
    private static final double HIDDEN = 1e-6;

    /** Upper bound of the Gaussian's tail beyond {@link #FAR}. */
    private static final double TAIL = 2e-19;

    private static final double THOUSAND_HOURS = 1000 * 3600.0;

    private record Key(HealthyReports reports, double interval, double limitOrSpeed, int confirmations) {}

    private final Map<Key, Double> highest = new HashMap<>();
    private final Map<Key, SpuriousRate> rates = new HashMap<>();

    double highest(Build build, HealthyFan fan, int k) {
        Tachometer reading = reading(build);
        Key key = new Key(fan.slowest(), reading.reportInterval(), build.spuriousTripsPerThousandHours(), k);
        return highest.computeIfAbsent(key, x -> Trips.highest(build, reading, fan, k));
    }

    SpuriousRate rate(Build build, HealthyFan fan, Trip trip) {
        double interval = reading(build).reportInterval();
        HealthyReports reports = fan.slowest();
        int k = trip.confirmations();
        double far = reports.mean() - FAR * reports.deviation();
        if (trip.speed() < far && far > 0 && reports.correlation() >= 0) {
            double outliers = Math.pow(reports.outlierRate(), k);
            // every way of k low reports with a Gaussian one among them is rarer than one Gaussian low report
            if (Math.scalb(TAIL, k) < HIDDEN * outliers) {
                return new SpuriousRate.Known(THOUSAND_HOURS / (Runs.expected(reports.outlierRate(), k) * interval));
            }
            SpuriousRate bound = known(reports, interval, far, k);
            return new SpuriousRate.AtMost(bound.perThousandHours());
        }
        return known(reports, interval, trip.speed(), k);
    }

    private SpuriousRate known(HealthyReports reports, double interval, double speed, int k) {
        return rates.computeIfAbsent(
                new Key(reports, interval, speed, k), x -> SpuriousTrips.rate(reports, speed, k, interval));
    }

    private static Tachometer reading(Build build) {
        if (build.reading() instanceof Tachometer tachometer) {
            return tachometer;
        }
        throw new OwnBug("spurious trips were asked for where no speed is read");
    }
}
