package coldward.app.command;

import static coldward.app.terminal.Json.celsius;

import coldward.app.race.RaceRun;
import coldward.app.race.Sentences;
import coldward.app.terminal.Terminal;
import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Origin;
import coldward.model.build.Response;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.heat.Standing;
import coldward.model.trip.Margin;
import coldward.model.verdict.Advice;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.Uncertainty;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;

/** The race as a person reads it. */
final class RaceText {

    private static final int LABEL = 31;
    private static final int COLUMN = 25;

    private RaceText() {}

    static void print(RaceRun run, Terminal terminal) {
        Assessment assessment = run.assessment();
        terminal.folded(Sentences.verdict(assessment, run.uncertainty()), "");
        terminal.line();
        row(terminal, "", Regime.PRINTING.word(), Regime.HOT_IDLE.word());
        Standing printing = standing(assessment, Regime.PRINTING);
        Standing idle = standing(assessment, Regime.HOT_IDLE);
        row(terminal, "heat into the neck", watts(printing.heatFlow()), watts(idle.heatFlow()));
        row(terminal, "throat", degrees(printing.throat()), degrees(idle.throat()));
        row(terminal, "sink", degrees(printing.sink()), degrees(idle.sink()));
        row(terminal, "filament at the throat", degrees(printing.filamentAtThroat()), degrees(idle.filamentAtThroat()));
        row(terminal, "softened depth", depth(printing.softenedDepth()), depth(idle.softenedDepth()));
        row(terminal, "heater power", watts(printing.heaterPower()), watts(idle.heaterPower()));
        printing.airFlow().ifPresent(q -> row(terminal, "air from the fan", "%.2f l/s".formatted(1e3 * q), ""));
        printing.sinkConductance().ifPresent(ua -> row(terminal, "sink to air, fan on", "%.3f W/K".formatted(ua), ""));
        if (!assessment.deadlines().isEmpty()) {
            deadlines(run, terminal);
        }
        terminal.line();
        facts(run, terminal);
        for (Advice advice : run.advice()) {
            terminal.folded("would help: " + advice(advice), "  ");
        }
        boolean sought = assessment.outcome() instanceof Assessment.Outcome.SoftWhileHealthy
                || assessment.outcome() instanceof Assessment.Outcome.NoTripSpeed
                || assessment.outcome() instanceof Assessment.Outcome.Raced;
        if (sought && run.advice().isEmpty() && !Sentences.safe(assessment, run.uncertainty())) {
            terminal.folded(
                    "no single change helps of those looked at (faster reports, block-fan, cooler nozzle or air, faster fan, another neck); coldward choose tries combinations",
                    "  ");
        }
        for (String warning : assessment.warnings()) {
            terminal.folded("note: " + warning, "  ");
        }
        terminal.line();
    }

    private static void deadlines(RaceRun run, Terminal terminal) {
        Assessment assessment = run.assessment();
        terminal.line();
        terminal.line("In time until, seconds after the fan stops");
        for (Set<Action> response : Race.RESPONSES) {
            row(
                    terminal,
                    Response.words(response),
                    deadline(run, Regime.PRINTING, response),
                    deadline(run, Regime.HOT_IDLE, response));
        }
        row(
                terminal,
                "nothing done: softens after",
                softens(assessment, Regime.PRINTING),
                softens(assessment, Regime.HOT_IDLE));
    }

    private static void facts(RaceRun run, Terminal terminal) {
        Assessment assessment = run.assessment();
        Build build = assessment.build();
        terminal.folded(
                "unsafe below %.0f rpm (%.0f %% of rated speed)"
                        .formatted(
                                assessment.unsafeSpeed() * build.hotEnd().fan().ratedSpeed(),
                                100 * assessment.unsafeSpeed()),
                "  ");
        assessment
                .trip()
                .ifPresent(trip -> terminal.folded(
                        "trip at %.0f rpm, %d confirmations%s"
                                .formatted(
                                        trip.speed(),
                                        trip.confirmations(),
                                        assessment.provisionalTrip()
                                                ? " (not on the sheet; recommended, see coldward trip)"
                                                : ""),
                        "  "));
        if (assessment.highestSafeAir().isPresent()) {
            terminal.folded(
                    "holds %s up to air of %.0f degC with %s"
                            .formatted(
                                    build.hotEnd().plastic().name(),
                                    Math.floor(
                                            celsius(assessment.highestSafeAir().getAsDouble())),
                                    Response.words(assessment.recommended())),
                    "  ");
        }
        run.uncertainty().filter(u -> !assessment.deadlines().isEmpty()).ifPresent(u -> {
            StringBuilder widest = new StringBuilder();
            for (Uncertainty.Widener widener : u.widest()) {
                widest.append(widest.isEmpty() ? "" : ", ")
                        .append(widener.input().words())
                        .append(" (%.0f %%)".formatted(100 * widener.share()));
            }
            terminal.folded(
                    "bands: 5 / 50 / 95 %% of %d draws, seed %d; widened most by %s"
                            .formatted(u.draws(), run.seed(), widest.isEmpty() ? "no input" : widest),
                    "  ");
        });
        long notGiven = build.origins().values().stream()
                .filter(o -> o.kind() == Origin.Kind.CLASS || o.kind() == Origin.Kind.DEFAULT)
                .count();
        terminal.folded(
                "%d of %d inputs were not given but come from classes or defaults (coldward sheet show --full lists them)"
                        .formatted(notGiven, build.origins().size()),
                "  ");
    }

    private static String advice(Advice advice) {
        String then = advice.margin() instanceof Margin.Seconds(double s) && s < 0
                ? "still " + advice.margin().words()
                : advice.margin().words();
        return advice.change() + ": in time " + words(advice.deadline()) + ", " + then;
    }

    static String words(Deadline deadline) {
        return deadline instanceof Deadline.Until(double s) ? "until " + Sentences.until(s) + " s" : deadline.word();
    }

    private static String deadline(RaceRun run, Regime regime, Set<Action> response) {
        if (run.uncertainty().isPresent()) {
            Uncertainty.Band band = run.uncertainty().get().bandOf(regime, response);
            return brief(band.p05()) + " / " + brief(band.p50()) + " / " + brief(band.p95());
        }
        return run.assessment().deadline(regime, response).map(RaceText::brief).orElse("");
    }

    /** A deadline in a table's cell. */
    static String brief(Deadline deadline) {
        return deadline instanceof Deadline.Until(double s) ? Sentences.until(s) : deadline.word();
    }

    private static String softens(Assessment assessment, Regime regime) {
        OptionalDouble after = assessment.softens().getOrDefault(regime, OptionalDouble.of(0));
        return after.isPresent() ? Sentences.number(after.getAsDouble()) : "not within 1800";
    }

    private static Standing standing(Assessment assessment, Regime regime) {
        Standing standing = assessment.standing().get(regime);
        if (standing == null) {
            throw new coldward.quantity.OwnBug("no steady state for " + regime);
        }
        return standing;
    }

    private static void row(Terminal terminal, String label, String first, String second) {
        String line =
                String.format(Locale.ROOT, "%-" + LABEL + "s%" + COLUMN + "s%" + COLUMN + "s", label, first, second);
        terminal.line(line.stripTrailing());
    }

    private static String watts(double value) {
        return "%.2f W".formatted(value);
    }

    private static String degrees(double kelvin) {
        return "%.1f degC".formatted(celsius(kelvin));
    }

    private static String depth(double metres) {
        return "%.2f mm".formatted(1e3 * metres);
    }
}
