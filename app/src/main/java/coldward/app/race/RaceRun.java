package coldward.app.race;

import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.RacePicture;
import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Response;
import coldward.model.heat.Curve;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.trip.StopTime;
import coldward.model.verdict.Advice;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.Assessment.Outcome;
import coldward.model.verdict.Draws;
import coldward.model.verdict.Uncertainty;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * A whole race: the assessment, the draws if any, and the picture of both.
 *
 * @param assessment nominal
 * @param uncertainty over the draws
 * @param seed of the draws
 * @param picture for terminal and SVG; empty where there is no race to draw
 * @param advice single changes that help, cheapest first; empty where the answer is safe
 */
public record RaceRun(
        Assessment assessment,
        Optional<Uncertainty> uncertainty,
        long seed,
        Optional<RacePicture> picture,
        List<Advice> advice) {

    private static final double SHORTEST_AXIS = 30;
    private static final double LONGEST_AXIS = 900;

    /**
     * Runs the race of a build.
     *
     * @param draws how many draws; 0 for none
     */
    public static RaceRun of(Build build, int draws, long seed, Terminal terminal) {
        Assessment assessment = Assessment.of(build);
        boolean raced = !(assessment.outcome() instanceof Outcome.SoftWhileHealthy);
        Optional<Draws.CurveWish> wish = raced ? Optional.of(wish(assessment)) : Optional.empty();
        List<Draws.Draw> drawn =
                draws == 0 ? List.of() : DrawRunner.run(new Draws(build, seed, wish)::at, draws, terminal);
        Optional<Uncertainty> uncertainty = draws == 0
                ? Optional.empty()
                : Optional.of(Uncertainty.of(drawn, build.response().actions()));
        return new RaceRun(
                assessment,
                uncertainty,
                seed,
                wish.map(w -> picture(assessment, uncertainty, drawn, w)),
                Sentences.safe(assessment, uncertainty) ? List.of() : assessment.changes());
    }

    private static Draws.CurveWish wish(Assessment assessment) {
        Build build = assessment.build();
        Set<Set<Action>> responses = new LinkedHashSet<>();
        responses.add(Set.of());
        responses.add(Race.RESPONSES.get(0));
        responses.add(Race.RESPONSES.get(2));
        responses.add(Race.RESPONSES.get(3));
        responses.add(build.response().actions());
        OptionalDouble stop = Assessment.stopSeconds(
                build, assessment.trip(), build.response().actions());
        double at = stop.orElse(0);
        Regime regime = assessment.worse();
        OptionalDouble softens = assessment.softens().getOrDefault(regime, OptionalDouble.empty());
        double longest = Math.max(at, softens.orElse(LONGEST_AXIS / 2));
        if (assessment.deadline(regime, build.response().actions()).orElse(Deadline.never())
                instanceof Deadline.Until(double seconds)) {
            longest = Math.max(longest, seconds);
        }
        return new Draws.CurveWish(
                regime, List.copyOf(responses), at, Math.clamp(1.6 * longest, SHORTEST_AXIS, LONGEST_AXIS));
    }

    private static RacePicture picture(
            Assessment assessment, Optional<Uncertainty> uncertainty, List<Draws.Draw> drawn, Draws.CurveWish wish) {
        Build build = assessment.build();
        Race race = new Race(build.hotEnd());
        List<Draws.Draw> curved =
                drawn.stream().filter(d -> !d.curves().isEmpty()).toList();
        List<RacePicture.Series> series = new ArrayList<>();
        Set<Action> own = build.response().actions();
        for (int r = 0; r < wish.responses().size(); r++) {
            Set<Action> response = wish.responses().get(r);
            Curve curve = race.curve(wish.regime(), response, wish.responseAt(), wish.end());
            String label = response.isEmpty() ? "nothing done" : Response.words(response);
            double[] seconds = curve.seconds();
            double[] celsius = Arrays.stream(curve.kelvin()).map(Json::celsius).toArray();
            double[] rising = distinct(seconds);
            if (rising.length < seconds.length) {
                celsius = Arrays.stream(rising)
                        .map(t -> Json.celsius(curve.at(t)))
                        .toArray();
                seconds = rising;
            }
            if (curved.isEmpty()) {
                series.add(RacePicture.Series.of(label, response.equals(own), seconds, celsius));
            } else {
                series.add(banded(label, response.equals(own), seconds, celsius, curved, r));
            }
        }
        Deadline deadline = uncertainty
                .map(u -> u.worse(own).p05())
                .orElseGet(() -> assessment.deadline(assessment.worse(), own).orElseGet(() -> race.deadline(own)));
        RacePicture.Stop stop =
                assessment.stopTime().isPresent() && assessment.stopTime().get() instanceof StopTime.Noticed noticed
                        ? new RacePicture.Known(noticed.p99())
                        : new RacePicture.Missing(missing(assessment.outcome()));
        return new RacePicture(
                build.printer(),
                build.hotEnd().plastic().name(),
                wish.regime().word(),
                Json.celsius(build.hotEnd().plastic().softensAt()),
                series,
                Sentences.verdict(assessment, uncertainty)
                        + " The limit is a softened depth of %s mm above the neck."
                                .formatted(Sentences.number(1e3 * build.hotEnd().softenedDepthLimit())),
                stop,
                deadline,
                Sentences.margin(assessment, uncertainty));
    }

    private static String missing(Outcome outcome) {
        return outcome instanceof Outcome.Unprotected
                ? "no speed is read: nothing notices a stopped fan"
                : "no usable trip speed";
    }

    private static double[] distinct(double[] seconds) {
        return Arrays.stream(seconds).distinct().toArray();
    }

    private static RacePicture.Series banded(
            String label, boolean chosen, double[] seconds, double[] celsius, List<Draws.Draw> drawn, int response) {
        double[] low = new double[seconds.length];
        double[] high = new double[seconds.length];
        for (int i = 0; i < seconds.length; i++) {
            double t = seconds[i];
            List<Double> sorted = drawn.stream()
                    .map(d -> Json.celsius(d.curves().get(response).at(t)))
                    .sorted()
                    .toList();
            low[i] = Uncertainty.nearestRank(sorted, 0.05);
            high[i] = Uncertainty.nearestRank(sorted, 0.95);
        }
        return RacePicture.Series.banded(label, chosen, seconds, celsius, low, high);
    }
}
