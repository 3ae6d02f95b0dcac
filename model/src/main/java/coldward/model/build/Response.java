package coldward.model.build;

import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What is done on a trip and how long each part takes to have effect.
 *
 * @param actions at least one
 * @param holdLatency s from the request until feeding has stopped (queued moves first)
 * @param heaterLatency s from the request until the heater is off
 * @param blockFanLatency s from the request until the part-cooling air blows
 * @param powerLatency s from the request until the power is off
 * @param linkLatency s from the decision until the machine has the request
 */
public record Response(
        Set<Action> actions,
        double holdLatency,
        double heaterLatency,
        double blockFanLatency,
        double powerLatency,
        double linkLatency) {
    public Response {
        if (actions.isEmpty()) {
            throw new InputError(
                    "response.actions",
                    "response has no action but needs at least one, for example [hold, heater-off]");
        }
        actions = java.util.Collections.unmodifiableSet(EnumSet.copyOf(actions));
        within("response hold_latency", holdLatency, 0, 600, "s");
        within("response heater_latency", heaterLatency, 0, 600, "s");
        within("response block_fan_latency", blockFanLatency, 0, 600, "s");
        within("response power_latency", powerLatency, 0, 600, "s");
        within("response link_latency", linkLatency, 0, 600, "s");
    }

    /** The same latencies with other actions. */
    public Response withActions(Set<Action> other) {
        return new Response(other, holdLatency, heaterLatency, blockFanLatency, powerLatency, linkLatency);
    }

    /** The same actions over a link of another latency, s. */
    public Response withLinkLatency(double other) {
        return new Response(actions, holdLatency, heaterLatency, blockFanLatency, powerLatency, other);
    }

    /** The machine's own part of the stop time, s: the largest latency of the actions taken. */
    public double machineLatency() {
        return actions.stream().mapToDouble(this::latencyOf).max().orElse(0);
    }

    /** How long one action takes, s. */
    public double latencyOf(Action action) {
        return switch (action) {
            case HOLD -> holdLatency;
            case HEATER_OFF -> heaterLatency;
            case BLOCK_FAN -> blockFanLatency;
            case POWER_OFF -> powerLatency;
        };
    }

    /** As it stands on a sheet, for example {@code [hold, heater-off]}. */
    public static String words(Set<Action> actions) {
        // hold first: the order in which the trade says it; the order of sending is the enum's own
        return java.util.stream.Stream.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN, Action.POWER_OFF)
                .filter(actions::contains)
                .map(Action::word)
                .collect(Collectors.joining(", ", "[", "]"));
    }
}
