package coldward.app.command;

import coldward.app.race.Sentences;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.figures.TextTable.Column;
import coldward.model.blind.BlindSpot;
import coldward.model.build.Build;
import coldward.model.check.Check;
import coldward.model.check.CheckFinding;
import coldward.model.check.Cost;
import coldward.model.check.Noticing;
import coldward.model.trip.Margin;
import java.util.ArrayList;
import java.util.List;

/** A whole check as a person reads it. */
final class CheckText {

    private CheckText() {}

    static void print(Check check, int draws, List<String> cautions, Terminal terminal) {
        terminal.folded(verdict(check), "");
        terminal.line();
        limits(check, draws, terminal);
        findings(check, terminal);
        if (!check.withoutSignal().isEmpty()) {
            withoutSignal(check.withoutSignal(), terminal);
        }
        terminal.line("Its sensors would not notice:");
        for (BlindSpot spot : check.blindSpots()) {
            terminal.folded("- " + spot.sentence(), "  ");
        }
        for (String caution : cautions) {
            terminal.folded("caution: " + caution, "  ");
        }
        terminal.line();
        terminal.folded(
                "A fan trip is not fire protection and no certified safety device; the machine's own protection against overheating has to work without it.",
                "");
    }

    /** The verdict as one or two sentences. */
    static String verdict(Check check) {
        Build build = check.design().build();
        String margin = switch (check.margin()) {
            case Margin.NothingSaves nothing -> "nothing saves it when its fan fails";
            case Margin.Unlimited unlimited -> "it has no need to be stopped when its fan fails";
            case Margin.Seconds seconds -> seconds.words() + " when its fan fails";
        };
        String air = check.highestSafeAir().isPresent()
                ? " It holds %s up to %s with %s."
                        .formatted(
                                build.hotEnd().plastic().name(),
                                room(check.highestSafeAir().getAsDouble()),
                                "the sheet's own response")
                : "";
        return "%s is %s: %s.%s".formatted(build.printer(), check.verdict().words(), margin, air);
    }

    private static String room(double kelvin) {
        return "a %s degC room".formatted(Sentences.number(Math.floor(Json.celsius(kelvin))));
    }

    private static void limits(Check check, int draws, Terminal terminal) {
        check.longestReportInterval()
                .ifPresent(s -> terminal.folded(
                        "reports may come as rarely as every %s s, with everything else as it is".formatted(seconds(s)),
                        "  "));
        terminal.folded(
                draws > 0
                        ? "deadlines: 5 %% quantile of %d draws".formatted(draws)
                        : "deadlines: nominal; --draws 200 judges by the 5 % quantile",
                "  ");
        terminal.line();
    }

    private static String seconds(double value) {
        return value >= 10 ? Sentences.number(Math.floor(value)) : "%.1f".formatted(Math.floor(10 * value) / 10);
    }

    private static void findings(Check check, Terminal terminal) {
        if (check.findings().isEmpty()) {
            terminal.line("Nothing speaks against it.");
            terminal.line();
            return;
        }
        for (CheckFinding finding : check.findings()) {
            terminal.folded(
                    "%s, %s%s: %s"
                            .formatted(
                                    finding.severity().word(),
                                    finding.subject().word(),
                                    cost(finding.cost()),
                                    finding.what()),
                    "  ");
            terminal.fold("-> " + finding.mend(), "   ").forEach(line -> terminal.line("  " + line));
        }
        terminal.line();
    }

    private static String cost(Cost cost) {
        return switch (cost) {
            case Cost.Everything everything -> ", costs everything";
            case Cost.Deadline deadline -> ", costs a margin without limit";
            case Cost.Seconds(double s) -> ", costs %s s".formatted(seconds(s));
            case Cost.None none -> "";
        };
    }

    private static void withoutSignal(List<Noticing> ways, Terminal terminal) {
        List<List<String>> rows = new ArrayList<>();
        for (Noticing way : ways) {
            rows.add(List.of(
                    way.way().word().replace('-', ' '),
                    way.noticedAfter().isPresent() ? seconds(way.noticedAfter().getAsDouble()) + " s" : "never",
                    way.margin().words()));
        }
        terminal.line("What could notice a stopped fan:");
        terminal.line(new TextTable(
                        List.of(Column.words("by"), Column.numbers("noticed after"), Column.words("margin")), rows)
                .text(new TextOptions(Math.clamp(terminal.width(), 40, 400), !terminal.unicode(), terminal.colour()))
                .stripTrailing());
        for (Noticing way : ways) {
            terminal.folded(way.way().word().replace('-', ' ') + ": " + way.words(), "  ");
        }
        terminal.line();
    }
}
