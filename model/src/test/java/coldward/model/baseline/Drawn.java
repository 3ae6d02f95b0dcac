package coldward.model.baseline;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;

/** Seeded AR(1) reports with outliers and drift. */
final class Drawn {

    private Drawn() {}

    static List<Double> reports(
            int count, double mean, double sigma, double r, double outliers, double drift, long seed) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        List<Double> reports = new ArrayList<>(count);
        double z = random.nextGaussian();
        for (int i = 0; i < count; i++) {
            boolean outlier = random.nextDouble() < outliers;
            reports.add(outlier ? 0 : mean + sigma * z + drift * i / count);
            z = r * z + Math.sqrt(1 - r * r) * random.nextGaussian();
        }
        return reports;
    }
}
