package coldward.model.check;

import coldward.model.blind.BlindSpot;
import coldward.model.blind.BlindSpots;
import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Reading.Tachometer;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.heat.Race;
import coldward.model.shop.ReadName;
import coldward.model.trip.Detection;
import coldward.model.trip.FailureMode;
import coldward.model.trip.Margin;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * The whole check of one printer.
 *
 * @param design heat, reading and trip
 * @param verdict what it comes to
 * @param margin of the printer as its sheet stands: 5 % quantile of the deadline minus 99 % quantile of the stop time
 * @param findings the dearest first
 * @param highestSafeAir K; the hottest surroundings in which the sheet's own response is still in time; empty if there is
 *     no trip, or none from -20 degC up
 * @param longestReportInterval s; the longest at which the margin stays above 0, with everything else as it is; empty
 *     where there is no trip, or no limit within ten minutes
 * @param withoutSignal where no speed is read: what could notice a stop, the best first; else empty
 * @param blindSpots what the printer's sensors would not notice
 */
public record Check(
        TripDesign design,
        Verdict verdict,
        Margin margin,
        List<CheckFinding> findings,
        OptionalDouble highestSafeAir,
        OptionalDouble longestReportInterval,
        List<Noticing> withoutSignal,
        List<BlindSpot> blindSpots) {

    /** What a check comes to. */
    public enum Verdict {
        READY("ready", "ready"),
        READY_WITH_CAUTIONS("ready-with-cautions", "ready with cautions"),
        NOT_SAFE("not-safe", "not safe");

        private final String word;
        private final String words;

        Verdict(String word, String words) {
            this.word = word;
            this.words = words;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }

        /** As a person says it. */
        public String words() {
            return words;
        }
    }

    private static final double LONGEST_INTERVAL = 600;
    private static final double SHORTEST_INTERVAL = 0.01;

    /** Of the longest report interval, share. */
    private static final double RESOLUTION = 0.005;

    public Check {
        findings = List.copyOf(findings);
        withoutSignal = List.copyOf(withoutSignal);
        blindSpots = List.copyOf(blindSpots);
    }

    /**
     * Checks.
     *
     * @param design of the printer, with draws where bands are wanted
     */
    public static Check of(TripDesign design) {
        Build build = design.build();
        boolean read = build.reading() instanceof Tachometer;
        List<Noticing> without = read || design.softWhileHealthy() ? List.of() : WithoutSignal.of(build);
        Margin margin = design.standing()
                .map(Judged::margin)
                .orElseGet(() -> firmWithoutFan(design) ? new Margin.Unlimited() : new Margin.NothingSaves());
        List<CheckFinding> findings = new Findings(design, margin, without, WiringFindings.of(build)).all();
        return new Check(
                design,
                verdict(findings),
                margin,
                findings,
                highestSafeAir(design),
                longestReportInterval(design),
                without,
                BlindSpots.of(build.reading(), read ? EnumSet.of(ReadName.SPEED) : Set.of()));
    }

    /** No speed is read, and none needs to be. */
    private static boolean firmWithoutFan(TripDesign design) {
        return design.build().reading() instanceof Reading.None
                && !design.softWhileHealthy()
                && new Race(design.build().hotEnd())
                                .deadline(design.build().response().actions())
                        instanceof coldward.model.heat.Deadline.Always;
    }

    private static Verdict verdict(List<CheckFinding> findings) {
        boolean error = findings.stream().anyMatch(f -> f.severity() == CheckFinding.Severity.ERROR);
        boolean caution = findings.stream().anyMatch(f -> f.severity() == CheckFinding.Severity.CAUTION);
        return error ? Verdict.NOT_SAFE : caution ? Verdict.READY_WITH_CAUTIONS : Verdict.READY;
    }

    private static OptionalDouble highestSafeAir(TripDesign design) {
        Optional<Judged> standing = design.standing();
        if (standing.isEmpty()
                || standing.get().finding() != Judged.Finding.NONE
                || !(standing.get().of(FailureMode.STOP).detection() instanceof Detection.Noticed noticed)) {
            return OptionalDouble.empty();
        }
        double stop = noticed.p99() + standing.get().of(FailureMode.STOP).response();
        Set<Action> actions = standing.get().response();
        return new Race(design.build().hotEnd()).highestSafeAir(actions, stop);
    }

    private static OptionalDouble longestReportInterval(TripDesign design) {
        if (!(design.build().reading() instanceof Tachometer tachometer)
                || design.standing().isEmpty()) {
            return OptionalDouble.empty();
        }
        double low = tachometer.reportInterval();
        if (!holds(design, low)) {
            low = SHORTEST_INTERVAL;
            if (!holds(design, low)) {
                return OptionalDouble.empty();
            }
        }
        double high = LONGEST_INTERVAL;
        if (low >= high || holds(design, high)) {
            return OptionalDouble.empty();
        }
        while (high / low > 1 + RESOLUTION) {
            double middle = Math.sqrt(low * high);
            if (holds(design, middle)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return OptionalDouble.of(low);
    }

    private static boolean holds(TripDesign design, double interval) {
        return design.marginAt(interval).saves();
    }
}
