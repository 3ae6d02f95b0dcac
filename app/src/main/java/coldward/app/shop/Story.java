package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.model.build.Action;
import coldward.model.heat.Deadline;
import coldward.model.trip.StopTime;
import coldward.model.trip.StopTimeBudget;
import coldward.watch.PrinterView;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.OptionalDouble;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * One failure on the rig as it really went, beside what was predicted. Times are s after the failure.
 *
 * @param printer its name
 * @param failure the rig's word for it
 * @param trip when the watch tripped
 * @param asked when the machine had each request
 * @param effective when each took effect
 * @param stopTime when the last one did: the measured stop time
 * @param predicted the budget, median and 99 % over the phase of the reports
 * @param deadline in this regime
 */
public record Story(
        String printer,
        String failure,
        double trip,
        Map<Action, Double> asked,
        Map<Action, Double> effective,
        double stopTime,
        StopTime.Noticed predicted,
        Deadline deadline) {

    private static final double MILLI = 1e-3;

    /**
     * Puts it together.
     *
     * @param prepared the printer
     * @param trip as the watch saw it
     * @param truth as the rig tells it, now
     * @param now ns of the ticker, when the truth was told
     */
    public static Story of(Prepared prepared, PrinterView.TripView trip, JsonNode truth, long now) {
        double sinceFailure = truth.path("since_failure_ms").asDouble(0) * MILLI;
        double failedAt = now / 1e9 - sinceFailure;
        Map<Action, Double> asked = new LinkedHashMap<>();
        Map<Action, Double> effective = new LinkedHashMap<>();
        for (Action action : Action.values()) {
            JsonNode told = truth.path("actions").path(action.word());
            if (told.has("effective_after_failure_ms")) {
                asked.put(action, told.path("asked_after_failure_ms").asDouble(0) * MILLI);
                effective.put(action, told.path("effective_after_failure_ms").asDouble(0) * MILLI);
            }
        }
        StopTime stop = prepared.assessment().stopTime().orElseThrow();
        if (!(stop instanceof StopTime.Noticed noticed)) {
            throw new coldward.quantity.OwnBug("a watched printer without a stop time");
        }
        return new Story(
                prepared.printer().name(),
                truth.path(truth.has("fan_failure") ? "fan_failure" : "signal_failure")
                        .path("failure")
                        .asString("failure"),
                trip.trippedAt() / 1e9 - failedAt,
                asked,
                effective,
                effective.values().stream()
                        .mapToDouble(Double::doubleValue)
                        .max()
                        .orElse(sinceFailure),
                noticed,
                prepared.deadline(true));
    }

    /** True if the machine was safe before the deadline. */
    public boolean inTime() {
        return switch (deadline) {
            case Deadline.Never n -> false;
            case Deadline.Until(double seconds) -> stopTime <= seconds;
            case Deadline.Always a -> true;
        };
    }

    /** As a person reads it. */
    public String text() {
        StopTimeBudget median = predicted.median();
        StopTimeBudget late = predicted.p99();
        StringBuilder text = new StringBuilder();
        text.append("%-45s%9s   predicted for a stop (50 %% / 99 %%)%n"
                .formatted(printer + ", " + failure + ": seconds after the failure", "measured"));
        text.append("  the watch trips                            %9.2f   %.2f / %.2f%n"
                .formatted(trip, median.detection(), late.detection()));
        effective.forEach((action, at) -> text.append("  %-10s asked %6.2f, in effect        %9.2f%n"
                .formatted(action.word(), asked.getOrDefault(action, at), at)));
        text.append("  stop time                                  %9.2f   %.2f / %.2f%n"
                .formatted(stopTime, median.total(), late.total()));
        text.append("  deadline                                   %9s   %s"
                .formatted("", deadline instanceof Deadline.Until(double s) ? "%.2f".formatted(s) : deadline.word()));
        return text.toString();
    }

    /** As JSON. */
    public ObjectNode json() {
        ObjectNode node = Json.object();
        node.put("printer", printer);
        node.put("failure", failure);
        Json.put(node, "trip_s", trip);
        ObjectNode actions = node.putObject("actions");
        effective.forEach((action, at) -> {
            ObjectNode one = actions.putObject(action.word());
            Json.put(one, "asked_s", asked.getOrDefault(action, at));
            Json.put(one, "effective_s", at);
        });
        Json.put(node, "stop_time_s", stopTime);
        Json.put(node, "predicted_p50_s", predicted.median().total());
        Json.put(node, "predicted_p99_s", predicted.p99().total());
        ObjectNode until = node.putObject("deadline");
        until.put("verdict", deadline.word());
        if (deadline instanceof Deadline.Until(double seconds)) {
            Json.put(until, "until_s", seconds);
        }
        node.put("in_time", inTime());
        return node;
    }

    /** How much was left; empty for never and always. */
    public OptionalDouble left() {
        return deadline instanceof Deadline.Until(double seconds)
                ? OptionalDouble.of(seconds - stopTime)
                : OptionalDouble.empty();
    }
}
