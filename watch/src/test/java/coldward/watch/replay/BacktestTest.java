package coldward.watch.replay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import coldward.watch.guard.Guard;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.GuardSettings;
import coldward.watch.guard.Reads;
import coldward.watch.guard.TripCause;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BacktestTest {

    private static final long QUARTER = 250_000_000L;

    private static Backtest backtest(double speed, int confirmations) {
        return new Backtest(new Guard(new GuardSettings(
                speed,
                confirmations,
                0,
                QUARTER / 2,
                323.15,
                Says.ALWAYS,
                5_000_000_000L,
                OptionalLong.empty(),
                8,
                false,
                0)));
    }

    private static void feed(Backtest backtest, long from, double... speeds) {
        for (int i = 0; i < speeds.length; i++) {
            backtest.accept(new GuardEvent.Report(from + i * QUARTER, Reads.ofSpeed(speeds[i])));
        }
    }

    @Test
    void listsTripsNearTripsAndTheTimeInDoubt() {
        Backtest backtest = backtest(5600, 3);
        // two rows end short: one report, two reports (a near-trip); then a failure of 5 reports, seen once
        feed(
                backtest, 0, 8000, 8000, 5000, 8000, 5599, 4000, 8000, 8000, 0, 0, 0, 0, 0, 8000, 8000, 8000, 8000, 100,
                8000);
        Backtest.Outcome outcome = backtest.outcome();
        assertThat(outcome.reports()).isEqualTo(19);
        assertThat(outcome.length()).isCloseTo(18 * 0.25, within(1e-9));
        assertThat(outcome.tripCount()).isEqualTo(1);
        assertThat(outcome.trips())
                .containsExactly(
                        new Backtest.Happening(10 * QUARTER, 8 * QUARTER, 0, Optional.of(TripCause.LOW_SPEED)));
        assertThat(outcome.nearTrips())
                .containsExactly(new Backtest.Happening(6 * QUARTER, 4 * QUARTER, 4000, Optional.empty()));
        assertThat(outcome.rows()).containsExactly(2L, 1L);
        assertThat(outcome.doubtedSpells()).isEqualTo(4);
        // 1 + 2 + 2 + 1 quarters of a second
        assertThat(outcome.doubted()).isCloseTo(1.5, within(1e-9));
    }

    @Test
    void theTripSpeedItselfIsNotLow() {
        Backtest backtest = backtest(5600, 1);
        feed(backtest, 0, 5600, 5600, 5600);
        assertThat(backtest.outcome().tripCount()).isZero();
        feed(backtest, 3 * QUARTER, Math.nextDown(5600.0));
        assertThat(backtest.outcome().tripCount()).isEqualTo(1);
    }

    @Test
    void aSilenceIsSeenAndAFanNotAskedIsNotJudged() {
        Backtest backtest = backtest(5600, 2);
        feed(backtest, 0, 8000, 8000, 8000);
        feed(backtest, 60_000_000_000L, 8000, 8000);
        for (int i = 0; i < 8; i++) {
            backtest.accept(new GuardEvent.Report(
                    61_000_000_000L + i * QUARTER,
                    new Reads.Builder()
                            .with(ReadName.SPEED, 0)
                            .with(ReadName.DUTY, 0)
                            .build()));
        }
        Backtest.Outcome outcome = backtest.outcome();
        assertThat(outcome.unheardSpells()).isEqualTo(1);
        // from 5 s after the report at 0.5 s until the one at 60 s
        assertThat(outcome.unheard()).isCloseTo(54.5, within(1e-9));
        assertThat(outcome.tripCount()).isZero();
    }

    /** Without grace and silence the guard is nothing but a count of low reports in a row. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 5})
    void countsAsANaiveCountDoes(int confirmations) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(confirmations);
        Backtest backtest = backtest(5600, confirmations);
        long trips = 0;
        long near = 0;
        int row = 0;
        int goods = 0;
        boolean tripped = false;
        for (int i = 0; i < 200_000; i++) {
            double speed = random.nextDouble() < 0.3 ? 5000 : 8000;
            backtest.accept(new GuardEvent.Report(i * QUARTER, Reads.ofSpeed(speed)));
            boolean low = speed < 5600;
            if (tripped) {
                goods = low ? 0 : goods + 1;
                tripped = goods < confirmations;
                row = 0;
            } else if (low) {
                row++;
                if (row == confirmations) {
                    trips++;
                    tripped = true;
                    goods = 0;
                    row = 0;
                }
            } else {
                near += row == confirmations - 1 && row > 0 ? 1 : 0;
                row = 0;
            }
        }
        assertThat(backtest.outcome().tripCount()).isEqualTo(trips).isPositive();
        assertThat(backtest.outcome().nearTripCount()).isEqualTo(near);
    }
}
