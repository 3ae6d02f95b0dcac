package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.figures.TextTable.Column;
import coldward.model.cause.Cause;
import coldward.model.cause.CauseRanking;
import coldward.model.cause.CauseRanking.NextTest;
import coldward.model.cause.CauseRanking.Prediction;
import coldward.model.cause.CauseRanking.Ranked;
import coldward.model.cause.Look;
import coldward.model.cause.Seen;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A ranking of causes as a person and as a program reads it. */
final class CausesOutput {

    /** Enough to act on. */
    private static final double SURE = 0.5;

    /** Less probable ones are only counted. */
    private static final double SHOWN = 0.005;

    private CausesOutput() {}

    /** Whether the reading is most probably right. */
    static boolean right(CauseRanking ranking) {
        Ranked first = ranking.causes().getFirst();
        return first.cause() == Cause.READING_RIGHT && first.probability() >= SURE;
    }

    static void print(CauseRanking ranking, Terminal terminal) {
        Ranked first = ranking.causes().getFirst();
        terminal.folded(
                "%s: %s (%s)."
                        .formatted(
                                first.probability() >= 0.9
                                        ? "Almost certainly"
                                        : first.probability() >= SURE ? "Probably" : "Not clear yet; most likely",
                                first.cause().words(),
                                percent(first.probability())),
                "");
        terminal.line();
        List<List<String>> rows = new ArrayList<>();
        for (Ranked one : ranking.causes()) {
            if (one.probability() >= SHOWN) {
                rows.add(List.of(
                        percent(one.probability()),
                        "%.0f".formatted(one.predictsRpm()),
                        one.cause().key(),
                        one.cause().words()));
            }
        }
        TextOptions options = new TextOptions(terminal.width(), !terminal.unicode(), false);
        terminal.line(new TextTable(
                        List.of(
                                Column.numbers("prob."),
                                Column.numbers("true rpm"),
                                Column.words("cause"),
                                Column.words("that is")),
                        rows)
                .text(options)
                .stripTrailing());
        terminal.line();
        ranking.nextTest()
                .ifPresentOrElse(
                        test -> print(test, terminal, options),
                        () -> terminal.folded("No further look would say much. Act on the first cause.", ""));
    }

    private static void print(NextTest test, Terminal terminal, TextOptions options) {
        terminal.folded(
                "Next: %s (about %.0f min; option --%s). It will be:"
                        .formatted(
                                question(test.asked()),
                                test.minutes(),
                                option(test.asked().look())),
                "");
        List<List<String>> rows = new ArrayList<>();
        for (Prediction one : test.predictions()) {
            rows.add(
                    List.of(words(test.asked().look(), one), "if " + one.cause().words()));
        }
        terminal.line(new TextTable(List.of(Column.words("seen"), Column.words("cause")), rows)
                .text(options)
                .stripTrailing());
    }

    /** A look as one asks for it. */
    static String question(Seen.Asked asked) {
        return asked.look().words()
                + switch (asked.look()) {
                    case AT_DUTY -> " %s %%".formatted(Checks.number(Math.rint(asked.setting() * 1000) / 10));
                    case AT_INTERVAL -> " %s ms".formatted(Checks.number(Math.rint(asked.setting() * 1e6) / 1e3));
                    default -> "";
                };
    }

    private static String option(Look look) {
        return switch (look) {
            case AT_DUTY -> "duty-sweep";
            case AT_INTERVAL -> "interval-sweep";
            default -> look.key();
        };
    }

    private static String words(Look look, Prediction one) {
        if (!look.choices().isEmpty()) {
            return look.choices().get((int) one.middle());
        }
        String middle = number(look, one.middle());
        return one.low() == one.high()
                ? middle + " " + look.unit()
                : "%s to %s %s".formatted(number(look, one.low()), number(look, one.high()), look.unit());
    }

    private static String number(Look look, double value) {
        return look == Look.SUPPLY ? "%.1f".formatted(value) : "%.0f".formatted(value);
    }

    private static String percent(double share) {
        return share > 0.99 && share < 1 ? "> 99 %" : "%.0f %%".formatted(100 * share);
    }

    static ObjectNode json(String printer, List<Seen> seen, CauseRanking ranking) {
        ObjectNode node = Json.object();
        node.put("printer", printer);
        ArrayNode looks = node.putArray("seen");
        for (Seen one : seen) {
            value(asked(looks.addObject(), one.asked()), "value", one.asked().look(), one.value());
        }
        ArrayNode causes = node.putArray("causes");
        for (Ranked one : ranking.causes()) {
            ObjectNode row = causes.addObject();
            row.put("cause", one.cause().key());
            put(row, "probability", one.probability());
            put(row, "predicts_rpm", one.predictsRpm());
        }
        ranking.nextTest().ifPresent(test -> {
            ObjectNode next = node.putObject("next_test");
            asked(next.putObject("test"), test.asked()).put("words", question(test.asked()));
            put(next, "information_bit", test.bits());
            put(next, "minutes", test.minutes());
            ArrayNode apart = next.putArray("separates");
            test.separates().forEach(cause -> apart.add(cause.key()));
            ArrayNode said = next.putArray("predictions");
            for (Prediction one : test.predictions()) {
                ObjectNode row = said.addObject();
                row.put("cause", one.cause().key());
                value(row, "value", test.asked().look(), one.middle());
                if (test.asked().look().choices().isEmpty()) {
                    put(row, "low", one.low());
                    put(row, "high", one.high());
                }
            }
        });
        return node;
    }

    private static ObjectNode asked(ObjectNode node, Seen.Asked asked) {
        node.put("look", asked.look().key());
        switch (asked.look()) {
            case AT_DUTY -> put(node, "commanded_share", asked.setting());
            case AT_INTERVAL -> put(node, "interval_s", asked.setting());
            default -> {}
        }
        return node;
    }

    private static void value(ObjectNode node, String key, Look look, double value) {
        if (look.choices().isEmpty()) {
            put(node, key, value);
        } else {
            node.put(key, look.choices().get((int) value));
        }
    }
}
