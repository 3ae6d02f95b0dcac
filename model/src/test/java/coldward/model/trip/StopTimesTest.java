package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Trip;
import coldward.model.reading.Readings;
import coldward.quantity.InputError;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class StopTimesTest {

    private static final Tachometer EVERY_SECOND = new Tachometer(2, 0.5, new Sampled(1e-3), 1);

    /** Reports played one by one, each the mean of many points of the coast; knows neither integral nor closed form. */
    static double played(double tau, double share, double window, int confirmations, double phase) {
        int points = 400;
        int low = 0;
        double end = phase;
        while (true) {
            double mean = 0;
            for (int i = 0; i < points; i++) {
                double t = end - window + window * (i + 0.5) / points;
                mean += (t <= 0 ? 1 : tau == 0 ? 0 : tau / (tau + t)) / points;
            }
            low = mean < share ? low + 1 : 0;
            if (low == confirmations) {
                return end;
            }
            end += window;
        }
    }

    @Test
    void agreesWithReportsPlayedOneByOne() {
        Random random = new Random(11);
        for (int i = 0; i < 150; i++) {
            double window = 0.1 + 3 * random.nextDouble();
            double tau = i % 5 == 0 ? 0 : window * 4 * random.nextDouble();
            double share = 0.1 + 0.88 * random.nextDouble();
            int k = 1 + random.nextInt(4);
            StopTime.Noticed noticed = noticed(
                    StopTimes.of(reading(window), new Coast(tau), new Trip(8000 * share, k, 0), Heron.RESPONSE, 8000));
            int phases = 200;
            double[] found = new double[phases];
            for (int p = 0; p < phases; p++) {
                found[p] = played(tau, share, window, k, window * (p + 0.5) / phases);
            }
            Arrays.sort(found);
            double step = window * (2.0 / phases + 1.0 / 400);
            assertThat(noticed.median().detection())
                    .as("W %s tau %s share %s k %d", window, tau, share, k)
                    .isCloseTo(found[phases / 2], within(step));
            assertThat(noticed.p99().detection()).isCloseTo(found[(int) (0.99 * phases)], within(step));
            assertThat(noticed.worst().detection()).isCloseTo(found[phases - 1], within(step));
            assertThat(noticed.at(0).detection()).isCloseTo(found[0], within(step));
        }
    }

    @Test
    void theBudgetAddsUp() {
        // tau 0.8 s, 8000 to 5200 rpm: 0.8 (8000/5200 - 1) = 0.4308 s of coast
        StopTime.Noticed noticed = noticed(StopTimes.of(Heron.with(EVERY_SECOND, 0.1), new Trip(5200, 3, 5)));
        StopTimeBudget worst = noticed.worst();
        assertThat(worst.coast()).isCloseTo(0.8 * (8000.0 / 5200 - 1), within(1e-12));
        assertThat(worst.confirmations()).isEqualTo(2);
        assertThat(worst.link()).isEqualTo(0.2);
        assertThat(worst.machine()).isEqualTo(2);
        assertThat(worst.coast() + worst.reading()).isCloseTo(noticed.lowFrom() + 1, within(1e-12));
        assertThat(worst.total()).isCloseTo(worst.detection() + 2.2, within(1e-12));
        assertThat(worst.total() - noticed.median().total()).isCloseTo(0.5, within(1e-12));
    }

    @Test
    void aBlockedRotorIsLowOnceTheWindowIs() {
        // the mean falls linearly: below 65 % after 0.35 windows
        StopTime.Noticed noticed =
                noticed(StopTimes.of(reading(2), new Coast(0), new Trip(5200, 1, 0), Heron.RESPONSE, 8000));
        assertThat(noticed.coast()).isZero();
        assertThat(noticed.lowFrom()).isCloseTo(0.7, within(1e-12));
        assertThat(noticed.worst().detection()).isCloseTo(2.7, within(1e-12));
    }

    @Test
    void theRunningMeanMeetsItsClosedForm() {
        Random random = new Random(12);
        for (int i = 0; i < 2000; i++) {
            double window = 0.05 + 10 * random.nextDouble();
            Coast coast = new Coast(i % 7 == 0 ? 0 : 20 * random.nextDouble() * random.nextDouble());
            double share = 0.01 + 0.98 * random.nextDouble();
            double x = coast.timeToMean(share, window);
            assertThat(coast.meanShare(x, window))
                    .as("tau %s W %s share %s", coast.tau(), window, share)
                    .isCloseTo(share, within(1e-9));
            assertThat(x).isGreaterThanOrEqualTo(coast.timeTo(share) * (1 - 1e-12));
        }
        assertThat(new Coast(0.8).share(0.8)).isEqualTo(0.5);
        assertThat(new Coast(0.8).share(-1)).isEqualTo(1);
        assertThat(new Coast(0).share(1e-9)).isZero();
        assertThat(new Coast(1).timeToMean(1, 3)).isZero();
    }

    @Test
    void noReadingNoticesNothing() {
        assertThat(StopTimes.of(Heron.with(new Reading.None(), 0.1), new Trip(5200, 3, 5)))
                .isEqualTo(new StopTime.NeverNoticed());
        assertThat(Readings.of(Heron.with(new Reading.None(), 0.1), 8000)).isEmpty();
        assertThat(Readings.of(Heron.with(EVERY_SECOND, 0.1), 8000)).contains(Readings.of(EVERY_SECOND, 8000));
    }

    @Test
    void aTripSpeedAboveTheFanIsAlwaysLow() {
        assertThat(StopTimes.of(Heron.with(EVERY_SECOND, 0.1), new Trip(8001, 3, 5)))
                .isEqualTo(new StopTime.AlwaysLow(8001, 8000));
        // exactly at the shown speed a healthy report is not below it
        assertThat(StopTimes.of(Heron.with(EVERY_SECOND, 0.1), new Trip(8000, 3, 5)))
                .isInstanceOf(StopTime.Noticed.class);
    }

    @Test
    void aFoldedReadingIsComparedAsShown() {
        // looked at every 3 ms, 8000 rpm is 266.7 Hz: 0.8 turns, shown as 66.7 Hz = 2000 rpm
        Tachometer slow = new Tachometer(2, 0.5, new Sampled(3e-3), 1);
        assertThat(StopTimes.of(Heron.with(slow, 0.1), new Trip(5200, 3, 5)))
                .isInstanceOfSatisfying(
                        StopTime.AlwaysLow.class,
                        low -> assertThat(low.shownSpeed()).isCloseTo(2000, within(1e-6)));
    }

    @Test
    void refusesAFanThatDoesNotTurn() {
        assertThatThrownBy(() -> StopTimes.of(Heron.with(EVERY_SECOND, 0.1), new Trip(5200, 3, 5), 0))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("fan speed is 0 rpm");
    }

    private static Tachometer reading(double window) {
        return new Tachometer(2, 0.5, new Edge(0, 0), window);
    }

    private static StopTime.Noticed noticed(StopTime stopTime) {
        assertThat(stopTime).isInstanceOf(StopTime.Noticed.class);
        return (StopTime.Noticed) stopTime;
    }
}
