package coldward.proof.fast;

import coldward.model.build.Build;
import coldward.model.design.FailureDraws;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.heat.Deadline;
import coldward.model.heat.Factors;
import coldward.model.heat.FanFailure;
import coldward.model.heat.HeatSettings;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.trip.FailureMode;
import coldward.model.verdict.Draws;
import coldward.rig.Failure;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/** Failures by the thousand: every sheet, every mode, both regimes, at random moments within a report. */
final class FastFailures {

    /**
     * A printer with the trip that is recommended for it.
     *
     * @param build with the response that is recommended, and its trip left open
     * @param judged what the design says of both
     * @param unsafeShare 95 % quantile of the unsafe speed that the design is for, share of rated speed
     */
    record Guarded(Build build, Judged judged, double unsafeShare) {

        /** The deadline that the design counts on after a failure of this kind. */
        Deadline deadline(FailureRound.Mode mode) {
            return judged.of(FailureMode.valueOf(mode.name())).deadline().p05();
        }
    }

    /**
     * A printer as it is designed.
     *
     * @param draws of its uncertainty, for the 5 % quantile of its deadlines; 0: nominal
     */
    static Guarded guarded(Build build, int draws) {
        TripDesign design = TripDesign.of(build);
        if (draws > 0) {
            FailureDraws failures = design.draws(DESIGN_SEED);
            design = design.with(
                    IntStream.range(0, draws).parallel().mapToObj(failures::at).toList());
        }
        Judged judged =
                design.recommended().orElseThrow(() -> new AssertionError("there is no trip for " + build.printer()));
        if (!judged.safe()) {
            throw new AssertionError(build.printer() + " is not predicted safe: "
                    + judged.margin().words());
        }
        double ratedAndFaster = design.fan().fullSpeed(build);
        return new Guarded(
                build.withResponse(build.response().withActions(judged.response())),
                judged,
                design.lowestTripSpeed() / ratedAndFaster);
    }

    /**
     * Counts of one mode.
     *
     * @param failures how many
     * @param tripped how many of them tripped; a fan that slows to above the trip speed has no need to
     * @param missed ended soft, or a lost signal that was not noticed
     * @param slowest detection of all, s
     * @param deepest softened depth as a share of its limit, of all
     */
    record Count(int failures, int tripped, int missed, double slowest, double deepest) {
        private static final Count NONE = new Count(0, 0, 0, 0, 0);

        Count with(FailureRound round) {
            boolean signal = round.mode() == FailureRound.Mode.SIGNAL_LOST;
            return new Count(
                    failures + 1,
                    tripped + (round.detected().isPresent() ? 1 : 0),
                    missed + (round.saved() ? 0 : 1),
                    Math.max(slowest, round.detected().orElse(0)),
                    signal ? deepest : Math.max(deepest, round.deepest() / round.limit()));
        }
    }

    /**
     * What came of all of them.
     *
     * @param counts per mode
     * @param misses each with an explanation
     * @param unexplained those of them that the design should have saved
     */
    record Outcome(Map<FailureRound.Mode, Count> counts, List<String> misses, List<String> unexplained) {
        Count count(FailureRound.Mode mode) {
            return counts.getOrDefault(mode, Count.NONE);
        }

        int failures() {
            return counts.values().stream().mapToInt(Count::failures).sum();
        }

        String table() {
            StringBuilder table =
                    new StringBuilder("mode           failures  tripped  missed  slowest trip  deepest/limit\n");
            counts.forEach((mode, count) -> table.append("%-14s %8d %8d %7d %10.2f s %14.2f%n"
                    .formatted(
                            mode.name().toLowerCase(Locale.ROOT).replace('_', '-'),
                            count.failures(),
                            count.tripped(),
                            count.missed(),
                            count.slowest(),
                            count.deepest())));
            return table.toString();
        }
    }

    private static final long DESIGN_SEED = 5;

    private FastFailures() {}

    /**
     * Runs them.
     *
     * @param rounds per sheet and mode
     * @param drawn whether each machine differs from its sheet as a draw of the sheet's uncertainty does
     */
    static Outcome run(List<Guarded> sheets, int rounds, boolean drawn, long seed) {
        List<FailureRound.Mode> modes = List.of(FailureRound.Mode.values());
        List<Case> cases = new ArrayList<>();
        for (int s = 0; s < sheets.size(); s++) {
            for (FailureRound.Mode mode : modes) {
                for (int r = 0; r < rounds; r++) {
                    cases.add(new Case(
                            sheets.get(s), mode, r, seed + 1_000_003L * s + 7919L * modes.indexOf(mode) + 31L * r));
                }
            }
        }
        List<Result> results = cases.parallelStream()
                .map(c -> c.run(drawn))
                .flatMap(Optional::stream)
                .toList();
        Map<FailureRound.Mode, Count> counts = new EnumMap<>(FailureRound.Mode.class);
        List<String> misses = new ArrayList<>();
        List<String> unexplained = new ArrayList<>();
        for (Result result : results) {
            counts.merge(
                    result.round().mode(),
                    Count.NONE.with(result.round()),
                    (before, ignored) -> before.with(result.round()));
            if (!result.round().saved()) {
                misses.add(result.explanation().words());
                if (!result.explanation().beyondTheDesign()) {
                    unexplained.add(result.explanation().words());
                }
            }
        }
        return new Outcome(counts, misses, unexplained);
    }

    private record Result(FailureRound round, Explanation explanation) {}

    /**
     * Why a machine was lost.
     *
     * @param words what happened to which machine
     * @param beyondTheDesign its own deadline is below the 5 % quantile that the design is for, or its own unsafe speed
     *     above the 95 % quantile
     */
    private record Explanation(String words, boolean beyondTheDesign) {
        private static final Explanation NONE = new Explanation("", true);
    }

    private record Case(Guarded guarded, FailureRound.Mode mode, int number, long seed) {

        /** Empty where the machine as drawn is soft while its fan is healthy: no failure to wait for. */
        Optional<Result> run(boolean drawn) {
            Build build = guarded.build();
            SplittableRandom random = new SplittableRandom(seed);
            Regime regime = number % 2 == 0 ? Regime.PRINTING : Regime.HOT_IDLE;
            Factors factors = drawn ? new Draws(build, seed, Optional.empty()).factors(number) : Factors.NONE;
            if (drawn && race(factors, new FanFailure.Stop(0)).softWhileHealthy()) {
                return Optional.empty();
            }
            FailureRound round = FailureRound.run(build, guarded.judged().trip(), factors, mode, regime, random);
            return Optional.of(new Result(round, round.saved() ? Explanation.NONE : explain(round, factors)));
        }

        private Race race(Factors factors, FanFailure failure) {
            return new Race(guarded.build().hotEnd(), factors, failure, HeatSettings.USUAL);
        }

        private FanFailure failure(Failure failure) {
            return switch (failure) {
                case Failure.Stop stop ->
                    new FanFailure.Stop(guarded.build().hotEnd().fan().coastDown());
                case Failure.Slow slow -> new FanFailure.Slow(slow.fraction());
                case Failure.Fade fade -> new FanFailure.Fade(fade.seconds());
                case Failure.OfSignal signal -> new FanFailure.Healthy();
            };
        }

        private Explanation explain(FailureRound round, Factors factors) {
            Build build = guarded.build();
            Race race = race(factors, failure(round.failure()));
            Deadline own = race.deadline(round.regime(), build.response().actions());
            double unsafe = race.unsafeSpeed(round.regime());
            boolean late = own.compareTo(guarded.deadline(round.mode())) < 0;
            boolean blind = unsafe > guarded.unsafeShare();
            return new Explanation(
                    "%s: %s while %s, tripped after %s s, %.2f of %.2f mm; its own unsafe speed is %.3f of rated speed (designed for %.3f), its own deadline %s (designed for %s)"
                            .formatted(
                                    build.printer(),
                                    round.failure(),
                                    round.regime().word(),
                                    round.detected().isPresent()
                                            ? "%.2f".formatted(round.detected().getAsDouble())
                                            : "no",
                                    1e3 * round.deepest(),
                                    1e3 * round.limit(),
                                    unsafe,
                                    guarded.unsafeShare(),
                                    own,
                                    guarded.deadline(round.mode())),
                    late || blind);
        }
    }
}
