package coldward.app.command;

import coldward.app.race.Sentences;
import coldward.app.terminal.Terminal;
import coldward.app.trip.TripRun;
import coldward.app.trip.TripSentences;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.figures.TextTable.Column;
import coldward.model.build.Build;
import coldward.model.build.Response;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.trip.Detection;
import coldward.model.trip.Margin;
import coldward.model.verdict.Advice;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A trip's design as a person reads it. */
final class TripText {

    private TripText() {}

    static void print(TripRun run, Terminal terminal) {
        TripDesign design = run.design();
        Build build = design.build();
        terminal.folded(TripSentences.verdict(design), "");
        terminal.line();
        boolean own = design.standing().isPresent() && !design.standing().equals(design.recommended());
        if (design.recommended().isPresent() || own) {
            settings(design, own ? design.standing() : Optional.empty(), terminal);
        }
        design.recommended().ifPresent(j -> modes("Recommended", j, terminal));
        if (own) {
            modes(
                    build.trip().isPresent() ? "As the sheet stands" : "With the sheet's response",
                    design.standing().orElseThrow(),
                    terminal);
        }
        terminal.folded("what binds: " + TripSentences.binding(design), "  ");
        if (!design.softWhileHealthy()) {
            terminal.folded(
                    "heat asks for %.0f rpm or more (95 of 100 draws; nominal %.0f rpm)"
                            .formatted(design.lowestTripSpeed(), design.unsafeSpeed()),
                    "  ");
        }
        terminal.folded(TripSentences.source(design), "  ");
        terminal.folded(
                run.draws() > 0
                        ? "deadlines: 5 %% quantile of %d draws, seed %d".formatted(run.draws(), run.seed())
                        : "deadlines: nominal; --draws 200 judges by the 5 % quantile",
                "  ");
        for (Advice advice : run.advice()) {
            terminal.folded("would help" + (run.draws() > 0 ? " (nominal): " : ": ") + advice(advice), "  ");
        }
        if (run.advice().isEmpty() && !design.safe()) {
            terminal.folded("no single change of those looked at helps; coldward choose tries combinations", "  ");
        }
        for (String caution : run.cautions()) {
            terminal.folded("caution: " + caution, "  ");
        }
        terminal.line();
    }

    private static void settings(TripDesign design, Optional<Judged> own, Terminal terminal) {
        List<Column> columns = new ArrayList<>(List.of(Column.words("")));
        List<Judged> judged = new ArrayList<>();
        design.recommended().ifPresent(j -> {
            columns.add(Column.words("recommended"));
            judged.add(j);
        });
        own.ifPresent(j -> {
            columns.add(Column.words(
                    design.build().trip().isPresent() ? "as the sheet stands" : "with the sheet's response"));
            judged.add(j);
        });
        List<List<String>> rows = new ArrayList<>();
        row(rows, judged, "trip speed", j -> "%.0f rpm".formatted(j.trip().speed()));
        row(rows, judged, "confirmations", j -> Integer.toString(j.trip().confirmations()));
        row(rows, judged, "response", j -> Response.words(j.response()));
        row(rows, judged, "spurious", j -> TripSentences.rate(j.spurious(), design.build()));
        row(
                rows,
                judged,
                "margin",
                j -> j.finding() == Judged.Finding.NONE ? j.margin().words() : finding(j.finding()));
        terminal.line(new TextTable(columns, rows).text(options(terminal)).stripTrailing());
        terminal.line();
    }

    private static String finding(Judged.Finding finding) {
        return switch (finding) {
            case NONE -> "";
            case BELOW_UNSAFE -> "none: trips below the unsafe speed";
            case TRIPS_AT_ONCE -> "none: trips a healthy fan";
            case SIGNAL_LOSS_UNNOTICED -> "none: a lost signal goes unnoticed";
        };
    }

    private interface Cell {
        String of(Judged judged);
    }

    private static void row(List<List<String>> rows, List<Judged> judged, String label, Cell cell) {
        List<String> row = new ArrayList<>(List.of(label));
        judged.forEach(j -> row.add(cell.of(j)));
        rows.add(row);
    }

    private static void modes(String title, Judged judged, Terminal terminal) {
        List<Column> columns = List.of(
                Column.words(title + ", s"),
                Column.numbers("noticed p50"),
                Column.numbers("p99"),
                Column.numbers("stopped p99"),
                Column.numbers("in time until"),
                Column.words("margin"));
        List<List<String>> rows = new ArrayList<>();
        for (Judged.ModeBudget mode : judged.modes()) {
            boolean noticed = mode.detection() instanceof Detection.Noticed;
            double p50 = mode.detection() instanceof Detection.Noticed n ? n.p50() : 0;
            double p99 = mode.detection() instanceof Detection.Noticed n ? n.p99() : 0;
            rows.add(List.of(
                    mode.mode().words(),
                    noticed ? Sentences.number(p50) : "not",
                    noticed ? Sentences.number(p99) : "",
                    noticed ? Sentences.number(p99 + mode.response()) : "",
                    mode.mode().warms() ? RaceText.brief(mode.deadline().p05()) : "-",
                    mode.mode().warms() ? mode.margin().words() : "the fan is fine"));
        }
        terminal.line(new TextTable(columns, rows).text(options(terminal)).stripTrailing());
        terminal.line();
    }

    private static String advice(Advice advice) {
        String then = advice.margin() instanceof Margin.Seconds(double s) && s < 0
                ? "still " + advice.margin().words()
                : advice.margin().words();
        return advice.change() + ": in time " + RaceText.words(advice.deadline()) + ", " + then;
    }

    private static TextOptions options(Terminal terminal) {
        return new TextOptions(Math.clamp(terminal.width(), 40, 400), !terminal.unicode(), terminal.colour());
    }
}
