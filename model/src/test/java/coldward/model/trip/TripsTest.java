package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Reading;
import coldward.model.build.Trip;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TripsTest {

    @Test
    void liesHalfWayBetweenUnsafeAndHealthy() {
        // 0.22 x 8000 x 1.1 = 1936 rpm; 8000 x 0.9 = 7200 rpm; half-way 4568 rpm
        TripChoice choice = Trips.usual(Heron.with(new Reading.None(), 0.1), 0.22);
        assertThat(choice).isInstanceOfSatisfying(TripChoice.Provisional.class, p -> {
            assertThat(p.trip()).isEqualTo(new Trip(4570, 3, 5));
            assertThat(p.unsafeBelow()).isCloseTo(1936, within(1e-9));
            assertThat(p.healthyAbove()).isCloseTo(7200, within(1e-9));
        });
    }

    @Test
    void saysWhereThereIsNoRoom() {
        // u (1 + tol) = 0.9 x 1.12 is above 1 - tol = 0.88
        assertThat(Trips.usual(Heron.with(new Reading.None(), 0.12), 0.9)).isInstanceOf(TripChoice.NoRoom.class);
        assertThat(Trips.usual(Heron.with(new Reading.None(), 0), 1)).isInstanceOf(TripChoice.NoRoom.class);
    }

    @Test
    void neverLeavesTheRoom() {
        Random random = new Random(8);
        int provisional = 0;
        for (int i = 0; i < 5000; i++) {
            double tolerance = 0.3 * random.nextDouble();
            double share =
                    i % 2 == 0 ? random.nextDouble() : (1 - tolerance) / (1 + tolerance) - 1e-4 * random.nextDouble();
            if (Trips.usual(Heron.with(new Reading.None(), tolerance), share)
                    instanceof TripChoice.Provisional(Trip trip, double low, double high)) {
                assertThat(trip.speed()).isStrictlyBetween(low, high);
                provisional++;
            }
        }
        assertThat(provisional).isGreaterThan(3000);
    }
}
