package coldward.model.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.SciPyScript;
import coldward.model.build.Reading;
import coldward.model.build.Trip;
import coldward.model.heat.FanFailure;
import coldward.model.trip.Detection.Accuracy;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class DetectionTest {

    private static final int FAILURES = 60_000;

    /** One failure to look at, with its name for the oracle. */
    record Case(String name, HealthyReports reports, FanFailure failure, double speed, int k, double window) {
        Detection.Noticed noticed(Accuracy accuracy) {
            return (Detection.Noticed) Detection.of(reports, failure, speed, k, window, accuracy);
        }

        String line() {
            String kind = switch (failure) {
                case FanFailure.Stop(double tau) -> "stop " + tau;
                case FanFailure.Slow(double f) -> "slow " + f;
                case FanFailure.Fade(double d) -> "fade " + d;
                case FanFailure.Healthy() -> "slow 1";
            };
            return "%s %s %s %s %s %s %s %d %s"
                    .formatted(
                            name,
                            reports.mean(),
                            reports.deviation(),
                            reports.correlation(),
                            reports.outlierRate(),
                            kind,
                            speed,
                            k,
                            window);
        }
    }

    static List<Case> cases() {
        return List.of(
                new Case("stop", new HealthyReports(8000, 80, 0.5, 1e-3), new FanFailure.Stop(0.8), 5400, 3, 1),
                new Case("noisy", new HealthyReports(8000, 700, 0.8, 0.02), new FanFailure.Stop(2), 6000, 2, 0.5),
                new Case("alternating", new HealthyReports(8000, 300, -0.4, 0), new FanFailure.Stop(0.8), 6500, 4, 1),
                new Case("slow", new HealthyReports(8000, 250, 0.3, 0), new FanFailure.Slow(0.7), 5700, 3, 1),
                new Case("fade", new HealthyReports(8000, 250, 0.6, 1e-3), new FanFailure.Fade(60), 5400, 3, 1),
                new Case("lost", new HealthyReports(8000, 80, 0, 0.01), new FanFailure.Stop(0), 5400, 2, 2));
    }

    /** Sampled failures: as many as said lie below the quantiles, to 3 standard errors and the phases' resolution. */
    @ParameterizedTest
    @MethodSource("cases")
    void agreesWithSampledFailures(Case one) {
        Detection.Noticed found = one.noticed(Accuracy.FINE);
        SplittableRandom random = new SplittableRandom(11);
        int median = 0;
        int most = 0;
        for (int i = 0; i < FAILURES; i++) {
            double t = sampled(one, random);
            median += t <= found.p50() ? 1 : 0;
            most += t <= found.p99() ? 1 : 0;
        }
        assertThat((double) median / FAILURES).isCloseTo(0.5, within(3 * 0.5 / Math.sqrt(FAILURES) + 2e-3));
        assertThat((double) most / FAILURES).isCloseTo(0.99, within(3 * 0.0995 / Math.sqrt(FAILURES) + 1e-3));
    }

    private static double sampled(Case one, SplittableRandom random) {
        HealthyReports reports = one.reports();
        WindowMean mean = new WindowMean(one.failure(), one.window());
        double r = reports.correlation();
        double phase = one.window() * random.nextDouble();
        double z = random.nextGaussian();
        int run = 0;
        for (int n = 0; ; n++) {
            double end = phase + n * one.window();
            double shown = random.nextDouble() < reports.outlierRate()
                    ? 0
                    : reports.mean() * mean.share(end) + reports.deviation() * z;
            run = shown < one.speed() ? run + 1 : 0;
            if (run == one.k()) {
                return end;
            }
            z = r * z + Math.sqrt(1 - r * r) * random.nextGaussian();
        }
    }

    /** Written a second time with NumPy and SciPy, on cells and by another rule over the phase. */
    @Test
    void agreesWithSciPy(@TempDir Path directory) throws IOException, InterruptedException {
        Path lines = Files.write(
                directory.resolve("cases"), cases().stream().map(Case::line).toList());
        Map<String, Double> oracle = SciPyScript.run("detection.py", 120, directory, lines);
        for (Case one : cases()) {
            Detection.Noticed found = one.noticed(Accuracy.FINE);
            // its phases are a hundredth of a window apart
            double tolerance = 0.012 * one.window();
            assertThat(found.p50())
                    .as(one.name())
                    .isCloseTo(Objects.requireNonNull(oracle.get(one.name() + "_p50")), within(tolerance));
            assertThat(found.p99())
                    .as(one.name())
                    .isCloseTo(Objects.requireNonNull(oracle.get(one.name() + "_p99")), within(tolerance));
        }
    }

    @ParameterizedTest
    @MethodSource("cases")
    void coarseIsNearFine(Case one) {
        assertThat(one.noticed(Accuracy.COARSE).p99())
                .isCloseTo(one.noticed(Accuracy.FINE).p99(), within(0.04 * one.window()));
    }

    /** Without scatter it is the closed form: the phase uniform, the worst one the end of the last window. */
    @Test
    void withoutScatterItIsTheClosedForm() {
        Reading.Tachometer edges = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);
        StopTime.Noticed closed =
                (StopTime.Noticed) StopTimes.of(edges, new Coast(0.8), new Trip(5400, 3, 5), Heron.RESPONSE, 8000);
        Detection.Noticed found = (Detection.Noticed)
                Detection.of(new HealthyReports(8000, 1, 0, 0), new FanFailure.Stop(0.8), 5400, 3, 1, Accuracy.FINE);
        assertThat(found.worst().orElseThrow()).isCloseTo(closed.worst().detection(), within(1e-9));
        assertThat(found.p99()).isCloseTo(closed.p99().detection(), within(5e-3));
        assertThat(found.p50()).isCloseTo(closed.median().detection(), within(5e-3));
    }

    /** Below, strictly: a fan that is shown at the trip speed itself is not low. */
    @Test
    void theTripSpeedItselfIsNotLow() {
        WindowMean half = new WindowMean(new FanFailure.Slow(0.5), 1);
        assertThat(half.timeBelow(0.5)).isEmpty();
        assertThat(half.timeBelow(Math.nextUp(0.5))).isNotEmpty();
        assertThat(Detection.of(
                        new HealthyReports(8000, 10, 0, 0), new FanFailure.Slow(0.6), 4000, 3, 1, Accuracy.FINE))
                .isInstanceOf(Detection.NotNoticed.class);
    }

    @Test
    void meansAreIntegrals() {
        for (FanFailure failure : List.of(
                new FanFailure.Stop(0.8), new FanFailure.Stop(0), new FanFailure.Slow(0.3), new FanFailure.Fade(7))) {
            WindowMean mean = new WindowMean(failure, 2);
            for (double end = 0.3; end < 12; end += 0.7) {
                double sum = 0;
                int steps = 20_000;
                for (int i = 0; i < steps; i++) {
                    double t = end - 2 + 2 * (i + 0.5) / steps;
                    sum += (t < 0 ? 1 : failure.speed(t)) / steps;
                }
                assertThat(mean.share(end)).as("%s at %s", failure, end).isCloseTo(sum, within(1e-4));
            }
        }
    }

    /** A higher trip speed notices sooner and trips for nothing more often; more confirmations the other way round. */
    @Test
    void higherIsSoonerAndMoreOftenSpurious() {
        HealthyReports reports = new HealthyReports(8000, 120, 0.5, 1e-3);
        double before = Double.POSITIVE_INFINITY;
        double rate = 0;
        for (double speed = 3000; speed <= 7800; speed += 400) {
            Detection.Noticed found =
                    (Detection.Noticed) Detection.of(reports, new FanFailure.Stop(0.8), speed, 3, 1, Accuracy.FINE);
            assertThat(found.p99()).isLessThanOrEqualTo(before + 5e-3);
            before = found.p99();
            double spurious = SpuriousTrips.first(reports, speed, 3).rate(1).perThousandHours();
            assertThat(spurious).isGreaterThanOrEqualTo(rate * (1 - 1e-12));
            rate = spurious;
        }
        double slower = 0;
        for (int k = 1; k <= 6; k++) {
            Detection.Noticed found =
                    (Detection.Noticed) Detection.of(reports, new FanFailure.Stop(0.8), 5000, k, 1, Accuracy.FINE);
            assertThat(found.p99()).isGreaterThan(slower);
            assertThat(found.worst()).isNotEqualTo(OptionalDouble.empty());
            slower = found.p99();
        }
    }
}
