package coldward.app.trip;

import coldward.app.history.BaselineSpell;
import coldward.app.history.SpeedCsv;
import coldward.app.race.DrawRunner;
import coldward.app.terminal.Terminal;
import coldward.figures.TripMapPicture;
import coldward.model.baseline.Baseline;
import coldward.model.baseline.BaselineWarning;
import coldward.model.baseline.Recording;
import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.design.DesignSettings;
import coldward.model.design.FailureDraws;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.design.TripMap;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.HealthyReports;
import coldward.model.verdict.Advice;
import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A whole design: the trip, the map around it and what would help.
 *
 * @param design the design, by drawn deadlines where there are draws
 * @param draws how many draws, 0 for none
 * @param seed of the draws
 * @param map empty where there is nothing to map
 * @param advice single changes that buy margin, the best first; empty where the answer is safe
 * @param cautions about what the answer rests on
 */
public record TripRun(
        TripDesign design, int draws, long seed, Optional<TripMap> map, List<Advice> advice, List<String> cautions) {

    /** Intervals that differ by less are the same. */
    private static final double SAME_INTERVAL = 0.05;

    public TripRun {
        advice = List.copyOf(advice);
        cautions = List.copyOf(cautions);
    }

    /**
     * Runs it.
     *
     * @param baseline recording of this printer's healthy fan, if any
     */
    public static TripRun of(
            Build build, Optional<Path> baseline, DesignSettings settings, int draws, long seed, Terminal terminal) {
        List<String> cautions = new ArrayList<>();
        TripDesign design = design(build, baseline, settings, draws, seed, cautions, terminal);
        return new TripRun(
                design,
                drawn(design, draws) ? draws : 0,
                seed,
                design.map(),
                design.safe() ? List.of() : design.changes(),
                cautions);
    }

    /**
     * The design alone, without map and changes.
     *
     * @param cautions where what the answer rests on is added
     */
    public static TripDesign design(
            Build build,
            Optional<Path> baseline,
            DesignSettings settings,
            int draws,
            long seed,
            List<String> cautions,
            Terminal terminal) {
        HealthyFan fan =
                baseline.map(file -> recorded(build, file, cautions)).orElseGet(() -> HealthyFan.ofSheet(build));
        TripDesign design = TripDesign.of(build, fan, settings);
        if (!drawn(design, draws)) {
            return design;
        }
        FailureDraws failures = design.draws(seed);
        return design.with(DrawRunner.run(failures::at, draws, terminal));
    }

    /** Whether draws are made: where there is no trip to judge they would show nothing. */
    public static boolean drawn(TripDesign design, int draws) {
        return draws > 0 && design.standing().isPresent();
    }

    /** The map as it is drawn. */
    public Optional<TripMapPicture> picture() {
        return map.map(m -> new TripMapPicture(
                design.build().printer(),
                TripSentences.verdict(design),
                m,
                design.recommended().map(Judged::trip),
                design.build().trip(),
                design.build().spuriousTripsPerThousandHours(),
                design.build().hoursPerYear()));
    }

    private static HealthyFan recorded(Build build, Path file, List<String> cautions) {
        BaselineSpell spell = new BaselineSpell(build.hotEnd().fan().runsAbove());
        SpeedCsv.read(file, spell);
        Recording recording = spell.found().recording();
        Baseline found = Baseline.of(recording);
        HealthyReports reports = found.healthy()
                .orElseThrow(() -> new InputError(
                        "baseline", "baseline " + file + " holds one and the same speed throughout: nothing scatters"));
        for (BaselineWarning warning : found.warnings()) {
            cautions.add("the recording " + words(warning) + "; coldward baseline says more");
        }
        if (build.reading() instanceof Tachometer tachometer
                && Math.abs(recording.interval() / tachometer.reportInterval() - 1) > SAME_INTERVAL) {
            cautions.add(
                    "the recording has a report every %s s but the sheet says %s s; scatter and correlation are those of the recording"
                            .formatted(
                                    TripSentences.number(recording.interval()),
                                    Checks.number(tachometer.reportInterval())));
        }
        return HealthyFan.ofRecording(reports);
    }

    private static String words(BaselineWarning warning) {
        return switch (warning) {
            case BaselineWarning.TooShort s -> "is too short to know the scatter";
            case BaselineWarning.StillWarmingUp s -> "is of a fan that is still warming up";
            case BaselineWarning.NotStationary s -> "drifts";
            case BaselineWarning.NoScatter s -> "does not scatter beyond its resolution";
            case BaselineWarning.ManyOutliers s -> "has so many outliers that the signal needs a look";
            case BaselineWarning.TooAlike s -> "drifts rather than scatters";
        };
    }
}
