package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Reading.Tachometer;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TripsTest {

    private static final Tachometer EDGES = new Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);

    private static TripChoice chosen(double tolerance, double share) {
        Build build = Heron.with(EDGES, tolerance);
        return Trips.recommended(build, HealthyFan.ofSheet(build), share);
    }

    @Test
    void liesHalfWayBetweenUnsafeAndSpurious() {
        assertThat(chosen(0.1, 0.22)).isInstanceOfSatisfying(TripChoice.Chosen.class, c -> {
            // 0.22 x 8000 x 1.1
            assertThat(c.unsafeBelow()).isCloseTo(1936, within(1e-9));
            assertThat(c.spuriousAbove()).isBetween(6700.0, 7200.0);
            assertThat(c.trip().speed())
                    .isCloseTo((c.unsafeBelow() + c.spuriousAbove()) / 2, within(5.0))
                    .isEqualTo(10 * Math.rint(c.trip().speed() / 10));
            // one report in a thousand is lost: two in a row in 14.4 million a year are too many, three are not
            assertThat(c.trip().confirmations()).isEqualTo(3);
        });
    }

    /** Without correlation and outliers S_high is a Gaussian quantile; Feller's number for k = 1 is 1/p. */
    @Test
    void takesTheFewestConfirmations() {
        Build build = Heron.with(EDGES, 0);
        HealthyFan quiet = HealthyFan.ofRecording(new HealthyReports(8000, 60, 0, 0));
        assertThat(Trips.recommended(build, quiet, 0.9)).isInstanceOfSatisfying(TripChoice.Chosen.class, c -> {
            assertThat(c.trip().confirmations()).isEqualTo(1);
            // 1 in 14.4 million: 5.27 deviations, from tables of the normal law
            assertThat(c.spuriousAbove()).isCloseTo(8000 - 5.27 * 60, within(1.0));
        });
        // 7740 is above the S_high of one confirmation and below that of two
        assertThat(Trips.recommended(build, quiet, 7740.0 / 8000))
                .isInstanceOfSatisfying(
                        TripChoice.Chosen.class,
                        c -> assertThat(c.trip().confirmations()).isEqualTo(2));
    }

    @Test
    void ofARecordingTheToleranceIsNotTaken() {
        Build build = Heron.with(EDGES, 0.1);
        HealthyFan known = HealthyFan.ofRecording(new HealthyReports(8000, 60, 0, 0));
        assertThat(((TripChoice.Chosen) Trips.recommended(build, known, 0.5)).unsafeBelow())
                .isCloseTo(4000, within(1e-9));
    }

    @Test
    void saysWhereThereIsNoRoom() {
        assertThat(chosen(0.12, 0.9)).isInstanceOf(TripChoice.NoRoom.class);
        assertThat(chosen(0, 1)).isInstanceOf(TripChoice.NoRoom.class);
        Build unread = Heron.with(new Reading.None(), 0.1);
        assertThat(Trips.recommended(unread, HealthyFan.ofSheet(unread), 0.2)).isInstanceOf(TripChoice.NoReading.class);
    }

    @Test
    void neverLeavesTheRoom() {
        Random random = new Random(8);
        int found = 0;
        for (int i = 0; i < 24; i++) {
            if (chosen(0.3 * random.nextDouble(), random.nextDouble()) instanceof TripChoice.Chosen c) {
                assertThat(c.trip().speed()).isBetween(c.unsafeBelow(), c.spuriousAbove());
                found++;
            }
        }
        assertThat(found).isGreaterThan(9);
    }
}
