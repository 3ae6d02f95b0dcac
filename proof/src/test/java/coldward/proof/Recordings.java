package coldward.proof;

import java.util.Locale;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;

/** Recordings of a fan for tests, as CSV. */
final class Recordings {

    private Recordings() {}

    /** Four reports a second of a healthy fan: 8000 rpm, deviation 40 rpm, correlation 0.5, in steps. */
    static String healthy(int reports, double step) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(11);
        StringBuilder text = new StringBuilder("time_s,speed_rpm\n");
        double x = 0;
        for (int i = 0; i < reports; i++) {
            x = 0.5 * x + Math.sqrt(0.75) * 40 * random.nextGaussian();
            text.append(String.format(Locale.ROOT, "%.2f,%.0f%n", i * 0.25, Math.rint((8000 + x) / step) * step));
        }
        return text.toString();
    }
}
