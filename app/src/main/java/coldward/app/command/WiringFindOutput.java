package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.model.wiring.finder.FinderAnswer;
import coldward.model.wiring.finder.FinderAnswer.NextTest;
import coldward.model.wiring.finder.FinderAnswer.Ranked;
import coldward.model.wiring.finder.Hypothesis;
import coldward.model.wiring.finder.Measurement;
import coldward.model.wiring.finder.Measurement.Rotor;
import coldward.model.wiring.finder.WireFinder;
import coldward.model.wiring.finder.WireFinder.Level;
import coldward.quantity.Checks;
import coldward.quantity.Dimension;
import coldward.quantity.Units;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Which wire is which, as text and as JSON. */
final class WiringFindOutput {

    /** Below this an assignment is not worth a line. */
    private static final double WORTH_SHOWING = 0.01;

    private static final int MOST_SHOWN = 5;

    private WiringFindOutput() {}

    static void print(FinderAnswer answer, List<Measurement> seen, double supply, Terminal terminal) {
        body(answer, seen, supply, terminal);
        terminal.line();
        cautions(terminal);
    }

    static void cautions(Terminal terminal) {
        terminal.line("CAUTION");
        WiringWords.CAUTIONS.forEach(c -> terminal.folded("  " + c, "  "));
    }

    /** All but the cautions. */
    static void body(FinderAnswer answer, List<Measurement> seen, double supply, Terminal terminal) {
        TextOptions options = new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour());
        terminal.folded(verdict(answer, seen.size()), "");
        terminal.line();
        terminal.out().print(ranking(answer).text(options));
        terminal.line();
        answer.next().ifPresent(n -> {
            terminal.line("NEXT");
            terminal.folded("  " + sentence(n.test().words()) + ".", "  ");
            terminal.folded("  " + n.ifFirst() + " if " + n.first().words() + ";", "    ");
            terminal.folded("  " + n.ifSecond() + " if " + n.second().words() + ".", "    ");
            terminal.line();
        });
        terminal.line("WHAT THE THIRD WIRE TELLS");
        terminal.folded(
                "  The test, once plus and minus are settled: the fan on its rated %s, 10 kohm from plus to the third wire, volts"
                                .formatted(volts(supply))
                        + " from the third wire to minus. Which state changes the level counts, not which level is high.",
                "  ");
        terminal.out().print(kinds(supply).text(options));
        terminal.out().flush();
    }

    private static TextTable ranking(FinderAnswer answer) {
        List<List<String>> rows = new ArrayList<>();
        for (Ranked r : answer.ranked()) {
            if (rows.isEmpty() || (rows.size() < MOST_SHOWN && r.probability() >= WORTH_SHOWING)) {
                Hypothesis h = r.hypothesis();
                rows.add(List.of(h.plus(), h.minus(), h.third(), h.tells().word(), percent(r.probability())));
            }
        }
        return new TextTable(
                List.of(
                        TextTable.Column.words("supply"),
                        TextTable.Column.words("return"),
                        TextTable.Column.words("third"),
                        TextTable.Column.words("tells"),
                        TextTable.Column.numbers("chance")),
                rows);
    }

    private static TextTable kinds(double supply) {
        List<Level> levels = WireFinder.levels(supply);
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < levels.size(); i += Rotor.values().length) {
            List<String> row = new ArrayList<>(List.of(levels.get(i).tells().word()));
            levels.subList(i, i + Rotor.values().length).forEach(l -> row.add(volts(l.volts())));
            rows.add(row);
        }
        List<TextTable.Column> columns = new ArrayList<>(List.of(TextTable.Column.words("third wire")));
        for (Rotor rotor : Rotor.values()) {
            columns.add(TextTable.Column.numbers(
                    switch (rotor) {
                        case FREE -> "free";
                        case HELD -> "held";
                        case SLOW -> "slow, on " + volts(rotor.fed(supply));
                    }));
        }
        return new TextTable(columns, rows);
    }

    private static String verdict(FinderAnswer answer, int readings) {
        String from = " (from %d reading%s)".formatted(readings, readings == 1 ? "" : "s");
        if (answer.tells().isPresent()) {
            return "Settled: %s; the third tells %s%s."
                    .formatted(wires(answer), answer.tells().get().tells().word(), from);
        }
        String rest =
                answer.next().isPresent() ? "" : " No test is left: repeat the readings, one of them may be a slip.";
        return answer.wires().isPresent()
                ? "Not settled: %s; what the third tells is open%s.%s".formatted(wires(answer), from, rest)
                : "Not settled: no order of the wires is %s likely%s. Do not connect the fan yet.%s"
                        .formatted(percent(FinderAnswer.SETTLED), from, rest);
    }

    /** The settled wires in words. */
    static String wires(FinderAnswer answer) {
        return answer.wires()
                .map(h -> "supply is %s, return is %s, the third is %s".formatted(h.plus(), h.minus(), h.third()))
                .orElse("the wires are not settled");
    }

    static String sentence(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /** Never a round 100 %: readings can slip. */
    private static String percent(double share) {
        return share > 0.999 ? "over 99.9 %" : Checks.number(Math.rint(share * 1000) / 10) + " %";
    }

    private static String volts(double volts) {
        return Units.format(Dimension.VOLTAGE, volts, 3);
    }

    static ObjectNode json(FinderAnswer answer, List<Measurement> seen, double supply) {
        ObjectNode node = Json.object();
        node.put("settled", answer.tells().isPresent());
        node.put("wires_settled", answer.wires().isPresent());
        node.put("readings", seen.size());
        answer.wires().ifPresent(h -> {
            ObjectNode wires = node.putObject("wires");
            wires.put("supply", h.plus());
            wires.put("return", h.minus());
            wires.put("third", h.third());
        });
        answer.tells().ifPresent(h -> node.put("third_tells", h.tells().word()));
        ArrayNode ranked = node.putArray("ranked");
        for (Ranked r : answer.ranked()) {
            ObjectNode row = ranked.addObject();
            assignment(row, r.hypothesis());
            put(row, "probability", r.probability());
        }
        answer.next().ifPresent(n -> next(node.putObject("next"), n));
        ArrayNode levels = node.putArray("third_levels");
        for (Level l : WireFinder.levels(supply)) {
            ObjectNode row = levels.addObject();
            row.put("tells", l.tells().word());
            row.put("rotor", l.rotor().name().toLowerCase(Locale.ROOT));
            put(row, "supply_V", l.rotor().fed(supply));
            put(row, "level_V", l.volts());
        }
        ArrayNode cautions = node.putArray("cautions");
        WiringWords.CAUTIONS.forEach(cautions::add);
        return node;
    }

    private static void next(ObjectNode node, NextTest next) {
        node.put("test", sentence(next.test().words()));
        node.put("if_first", next.ifFirst());
        node.put("if_second", next.ifSecond());
        assignment(node.putObject("first"), next.first());
        assignment(node.putObject("second"), next.second());
    }

    private static void assignment(ObjectNode node, Hypothesis h) {
        node.put("supply", h.plus());
        node.put("return", h.minus());
        node.put("third", h.third());
        node.put("tells", h.tells().word());
    }
}
