package coldward.model.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.quantity.InputError;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SlowLossTest {

    /** Against the sum itself, run over Gaussian values; the mean of 20,000 waits within five standard errors. */
    @ParameterizedTest
    @CsvSource({"0.5, 4, 0", "0.5, 4, 1", "0.25, 6, 0.5", "2, 1, 0", "1, 2.5, -0.2"})
    void theExpectedWaitIsThatOfTheSum(double reference, double limit, double shift) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(17);
        int waits = 20_000;
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < waits; i++) {
            long n = 0;
            for (double s = 0; s <= limit; n++) {
                s = Math.max(0, s + random.nextGaussian() + shift - reference);
            }
            sum += n;
            squares += (double) n * n;
        }
        double mean = sum / waits;
        double error = Math.sqrt((squares / waits - mean * mean) / waits);
        assertThat(new RunningSum(reference, limit).expected(shift)).isCloseTo(mean, within(5 * error));
    }

    @ParameterizedTest
    @CsvSource({"0.25, 1e3", "0.5, 930.887", "0.5, 1e6", "2, 1e7", "1, 1e8"})
    void theLimitErrsAsOftenAsWished(double reference, double values) {
        RunningSum sum = RunningSum.erringOnceIn(reference, values);
        assertThat(sum.expected(0)).isCloseTo(values, within(1e-4 * values));
    }

    @Test
    void moreScatterTakesLonger() {
        double before = 0;
        for (double deviation : new double[] {20, 40, 80, 160}) {
            Baseline baseline = Baseline.of(new Recording(Drawn.reports(4000, 8000, deviation, 0.5, 0, 0, 3), 0.25, 0));
            SlowLoss loss = SlowLoss.of(baseline, 0.25, 4000 * 3600.0).orElseThrow();
            assertThat(loss.loss()).isCloseTo(baseline.mean() / 100, within(1e-9));
            assertThat(loss.seconds()).isGreaterThanOrEqualTo(before);
            before = loss.seconds();
        }
    }

    @Test
    void refusesWhatIsNoSum() {
        assertThatThrownBy(() -> new RunningSum(0, 4))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("above 0");
        assertThatThrownBy(() -> new RunningSum(0.5, 61))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("60");
    }
}
