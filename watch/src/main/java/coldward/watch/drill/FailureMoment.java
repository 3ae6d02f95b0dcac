package coldward.watch.drill;

import static coldward.quantity.Checks.notNegative;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.trip.Coast;
import java.util.Locale;
import java.util.Optional;

/**
 * When a fan failed.
 *
 * @param at ns of the ticker
 * @param uncertain s, either way
 * @param by how it is known
 */
public record FailureMoment(long at, double uncertain, By by) {

    private static final double NS = 1e9;

    /** A share of the healthy speed within which a report counts as healthy; noise and drift stay well inside. */
    static final double HEALTHY = 0.04;

    /** How it is known. */
    public enum By {
        /** A person pressed a key in the same moment. */
        KEY(0.3),
        /** The rig was asked to fail it. */
        RIG(0.05);

        private final double uncertain;

        By(double uncertain) {
            this.uncertain = uncertain;
        }

        /** s, either way; two hands of one person at once, or one request on one computer (own choice). */
        public double uncertain() {
            return uncertain;
        }

        /** The word in records. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** The one of this word, if there is one. */
        public static Optional<By> of(String word) {
            for (By by : values()) {
                if (by.word().equals(word)) {
                    return Optional.of(by);
                }
            }
            return Optional.empty();
        }
    }

    public FailureMoment {
        notNegative("uncertainty of the failure's moment", uncertain, "s");
    }

    /** As told. */
    static FailureMoment told(long at, By by) {
        return new FailureMoment(at, by.uncertain(), by);
    }

    /**
     * How long before it was seen the fan failed, from the fall of its own number: a report is the mean over its interval
     * W, so the first one that fell to a share m of the healthy speed says how much of the interval the fan had failed for.
     * With the coast law for a pulled plug; at once to nothing for a held blade and a cut wire; at once to the lowered
     * speed for a low supply.
     *
     * @param kind how the fan failed
     * @param build the printer
     * @param first the first fallen report, share of the healthy speed
     * @param settled the speed it led to, share of the healthy speed
     * @param look s between two looks: half of it is how old a report is when it is seen, on average
     * @return s from the failure until that report was seen; empty where the report says nothing: not fallen, or the whole
     *     interval was after the failure
     */
    static Optional<Double> beforeSeen(DrillKind kind, Build build, double first, double settled, double look) {
        if (!(build.reading() instanceof Tachometer reading) || first >= 1 - HEALTHY || first <= 0) {
            return Optional.empty();
        }
        double window = reading.reportInterval();
        double into = switch (kind) {
            case PULL -> new Coast(build.hotEnd().fan().coastDown()).timeToMean(first, window);
            case STALL, CUT_SIGNAL -> window * (1 - first);
            case LOW_SUPPLY -> settled < 1 - HEALTHY ? window * (1 - first) / (1 - settled) : window;
        };
        // only a coasting fan is still telling when the whole interval was after the failure
        return into >= window && kind != DrillKind.PULL ? Optional.empty() : Optional.of(into + look / 2);
    }

    /** s from this moment to a later one. */
    double until(long later) {
        return (later - at) / NS;
    }
}
