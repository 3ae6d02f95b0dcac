package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Trip;
import java.util.function.IntToDoubleFunction;

/** Chooses a trip. A fixed share of the rated speed is wrong for a generous and for a tight hot end alike. */
public final class Trips {

    /** Forgiveness for a starting fan where nothing else is known, s; makers' data sheets: full speed within 5 s. */
    public static final double USUAL_GRACE = 5;

    /** Most confirmations looked at; beyond them the correlation, not the count, decides. Common practice, no source. */
    public static final int MOST_CONFIRMATIONS = 10;

    /** Trip speeds are multiples of this, rpm. */
    private static final double STEP = 10;

    private Trips() {}

    /**
     * The trip that follows from heat and reports: S_low = u N (1 + tolerance), S_high(k) the largest trip speed within the
     * sheet's limit of spurious trips; the fewest confirmations k with S_high(k) at or above S_low, and S half-way, to the
     * nearest 10 rpm if that lies between them.
     *
     * @param build the printer; its own trip, if any, is not looked at, but for its grace
     * @param fan the healthy fan's reports
     * @param unsafeShare u, the unsafe speed to be safe by, as a share of the rated speed N, 0 or above
     */
    public static TripChoice recommended(Build build, HealthyFan fan, double unsafeShare) {
        return switch (build.reading()) {
            case Reading.None() -> new TripChoice.NoReading();
            case Tachometer tachometer -> recommended(build, fan, unsafeShare, k -> highest(build, tachometer, fan, k));
        };
    }

    /**
     * The same with S_high given, for who asks often.
     *
     * @param highest S_high(k), rpm, as {@link #highest} gives it
     */
    public static TripChoice recommended(Build build, HealthyFan fan, double unsafeShare, IntToDoubleFunction highest) {
        double low = notNegative("unsafe speed share", unsafeShare, "") * fan.fullSpeed(build);
        double high = 0;
        for (int k = 1; k <= MOST_CONFIRMATIONS; k++) {
            high = highest.applyAsDouble(k);
            if (high >= low && high > 0) {
                double grace = build.trip().map(Trip::grace).orElse(USUAL_GRACE);
                return new TripChoice.Chosen(new Trip(halfWay(low, high), k, grace), low, high);
            }
            if (low > fan.slowest().mean()) {
                break;
            }
        }
        return new TripChoice.NoRoom(low, high);
    }

    /**
     * S_high(k): the largest trip speed within the sheet's limit of spurious trips, rpm; at most the mean of the healthy
     * fan's reports, 0 if outliers alone trip too often.
     */
    public static double highest(Build build, Tachometer reading, HealthyFan fan, int confirmations) {
        HealthyReports reports = fan.slowest();
        double limit = build.spuriousTripsPerThousandHours();
        double outliers = reports.outlierRate();
        // outliers alone are independent: Feller's number spares the chain where they decide
        if (outliers > 0 && Runs.expected(outliers, confirmations) * reading.reportInterval() * limit < 1000 * 3600.0) {
            return 0;
        }
        return switch (SpuriousTrips.largestSpeed(reports, confirmations, reading.reportInterval(), limit)) {
            case SpuriousLimit.Largest largest -> Math.min(largest.speed(), reports.mean());
            case SpuriousLimit.NoSpeed none -> 0;
            case SpuriousLimit.AnySpeed any -> reports.mean();
        };
    }

    private static double halfWay(double low, double high) {
        double middle = (low + high) / 2;
        double rounded = Math.rint(middle / STEP) * STEP;
        return rounded >= low && rounded <= high && rounded > 0 ? rounded : middle;
    }
}
