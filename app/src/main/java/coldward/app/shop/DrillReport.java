package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.model.heat.Deadline;
import coldward.watch.drill.DrillForecast;
import coldward.watch.drill.DrillForecast.Band;
import coldward.watch.drill.DrillResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A measured drill as JSON and as a person reads it. */
public final class DrillReport {

    private DrillReport() {}

    /** As JSON: times are s after the failure. */
    public static ObjectNode json(DrillResult result) {
        ObjectNode node = Json.object();
        node.put("how", result.kind().word());
        node.put("moment_by", result.by().word());
        Json.put(node, "uncertain_s", result.uncertain());
        node.put("working", result.working());
        Json.put(node, "speed_rpm", result.speedBefore());
        Json.put(node, "lowest_rpm", result.lowest());
        Json.put(node, "signal_later_s", result.signalLater());
        Json.put(node, "trip_s", result.trip());
        ArrayNode steps = node.putArray("actions");
        for (DrillResult.Step step : result.steps()) {
            ObjectNode one = steps.addObject().put("action", step.action().word());
            Json.put(one, "sent_s", step.sent());
            Json.put(one, "confirmed_s", step.confirmed());
        }
        Json.put(node, "safe_s", result.safe());
        result.forecast().ifPresent(f -> forecast(node, f));
        ObjectNode until = node.putObject("deadline");
        until.put("verdict", result.deadline().word());
        if (result.deadline() instanceof Deadline.Until(double seconds)) {
            Json.put(until, "until_s", seconds);
        }
        node.put("result", result.verdict().word());
        node.put("passed", result.verdict().passed());
        node.put("tests", result.kind().tests());
        node.put("does_not_test", result.kind().doesNotTest());
        return node;
    }

    /** What was expected, under {@code predicted}. */
    static void forecast(ObjectNode node, DrillForecast forecast) {
        ObjectNode predicted = node.putObject("predicted");
        band(predicted, "trip", forecast.trip());
        band(predicted, "safe", forecast.safe());
        Json.put(predicted, "safe_latest_s", forecast.latest());
    }

    private static void band(ObjectNode node, String of, Band band) {
        Json.put(node, of + "_p1_s", band.low());
        Json.put(node, of + "_p50_s", band.median());
        Json.put(node, of + "_p99_s", band.high());
    }

    /** The lines for a terminal. */
    public static List<String> text(String printer, DrillResult result) {
        List<String> lines = new ArrayList<>();
        lines.add("%-44s%9s   %s"
                .formatted(
                        printer + ", " + result.kind().word() + ": seconds after the failure",
                        "measured",
                        "predicted 1 / 50 / 99 %"));
        lines.add(row("the watch trips", result.trip(), result.forecast().map(DrillForecast::trip)));
        for (DrillResult.Step step : result.steps()) {
            lines.add(row(
                    "%-10s requested %.2f, seen".formatted(step.action().word(), step.sent()),
                    step.confirmed(),
                    Optional.empty()));
        }
        lines.add(row("safe: the stop time", result.safe(), result.forecast().map(DrillForecast::safe)));
        lines.add("  %-42s%9s   %s"
                .formatted(
                        "deadline",
                        "",
                        result.deadline() instanceof Deadline.Until(double s)
                                ? "%.2f".formatted(s)
                                : result.deadline().word()));
        if (result.signalLater().isPresent()) {
            double later = result.signalLater().getAsDouble();
            lines.add("The fan's own number puts the failure %.2f s %s than told (told to within %.2f s)."
                    .formatted(Math.abs(later), later < 0 ? "earlier" : "later", result.uncertain()));
            if (Math.abs(later) > result.uncertain() && result.safe().isPresent()) {
                lines.add(
                        "By that, the stop time was %.2f s; do the drill again if the key was pressed at another moment."
                                .formatted(result.safe().getAsDouble() - later));
            }
        }
        lines.add((result.verdict().passed() ? "PASSED: " : "NOT PASSED: ")
                + result.verdict().words() + ".");
        lines.add("Tried: " + result.kind().tests() + ".");
        lines.add("Not tried: " + result.kind().doesNotTest() + ".");
        return lines;
    }

    private static String row(String what, OptionalDouble measured, Optional<Band> predicted) {
        return "  %-42s%9s   %s"
                .formatted(
                        what,
                        measured.isPresent() ? "%.2f".formatted(measured.getAsDouble()) : "not seen",
                        predicted
                                .map(b -> "%.2f / %.2f / %.2f".formatted(b.low(), b.median(), b.high()))
                                .orElse(""))
                .stripTrailing();
    }
}
