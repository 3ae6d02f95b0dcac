package coldward.rig;

import coldward.model.build.Action;
import coldward.quantity.InputError;
import java.util.OptionalLong;
import java.util.Set;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What goes over the wire, in the rig's own layout: degC, mm, W, rpm, ms; keys absent where they do not apply. */
final class Answers {

    private static final JsonMapper JSON = JsonMapper.shared();
    private static final double ZERO_CELSIUS = 273.15;
    private static final double NANOS_PER_MILLI = 1e6;

    private Answers() {}

    static ObjectNode object() {
        return JsonNodeFactory.instance.objectNode();
    }

    static byte[] bytes(JsonNode node) {
        return JSON.writeValueAsBytes(node);
    }

    /** A request's body: nothing, or one object of these members. */
    static JsonNode body(byte[] bytes, Set<String> known) {
        if (bytes.length == 0) {
            return object();
        }
        JsonNode read;
        try {
            read = JSON.readTree(bytes);
        } catch (JacksonException e) {
            throw new InputError("body", "The body is not JSON: " + e.getOriginalMessage());
        }
        if (!read.isObject()) {
            throw new InputError("body", "The body must be one JSON object, or nothing at all.");
        }
        for (String name : read.propertyNames()) {
            if (!known.contains(name)) {
                throw new InputError(
                        name,
                        known.isEmpty()
                                ? "The body has '" + name + "', but nothing is said in this request's body."
                                : "The body has '" + name + "', known here: "
                                        + String.join(
                                                ", ", known.stream().sorted().toList()) + ".");
            }
        }
        return read;
    }

    /** A body that may say anything, as long as it is JSON. */
    static void anything(byte[] bytes) {
        try {
            JSON.readTree(bytes);
        } catch (JacksonException e) {
            throw new InputError("body", "The body is not JSON: " + e.getOriginalMessage());
        }
    }

    /** A number of the body, or what stands for it if it is left out. */
    static double number(JsonNode body, String name, double otherwise) {
        JsonNode value = body.get(name);
        if (value == null) {
            return otherwise;
        }
        if (!value.isNumber()) {
            throw new InputError(name, "'" + name + "' must be a number, for example " + otherwise + ".");
        }
        return value.doubleValue();
    }

    /** A yes or no of the body, or what stands for it if it is left out. */
    static boolean yes(JsonNode body, String name, boolean otherwise) {
        JsonNode value = body.get(name);
        if (value == null) {
            return otherwise;
        }
        if (!value.isBoolean()) {
            throw new InputError(name, "'" + name + "' must be true or false.");
        }
        return value.booleanValue();
    }

    static double kelvin(double celsius) {
        return celsius + ZERO_CELSIUS;
    }

    static ObjectNode fan(Shown shown) {
        ObjectNode fan = object();
        shown.speed().ifPresent(rpm -> fan.put("speed_rpm", rounded(rpm, 10)));
        if (shown.speed().isPresent()) {
            fan.put("report", shown.report());
        }
        return fan.put("commanded_share", shown.commandedShare());
    }

    static ObjectNode heat(Shown shown) {
        return object().put("nozzle_degC", celsius(shown.nozzle()))
                .put("nozzle_target_degC", shown.nozzleTarget() > 0 ? celsius(shown.nozzleTarget()) : 0)
                .put("cold_side_degC", celsius(shown.coldSide()))
                .put("heater_power_W", rounded(shown.heaterPower(), 100))
                .put("block_fan_share", shown.blockFanShare());
    }

    static ObjectNode job(Shown shown) {
        return object().put("feeding", shown.feeding());
    }

    static ObjectNode power(Shown shown) {
        return object().put("on", shown.powered());
    }

    static ObjectNode truth(Truth truth, PrinterRecord record) {
        ObjectNode told = object().put("rig_ms", millis(truth.at()))
                .put("fan_rpm", rounded(truth.speed(), 10))
                .put("nozzle_degC", celsius(truth.block()))
                .put("throat_degC", celsius(truth.throat()))
                .put("filament_at_throat_degC", celsius(truth.filamentAtThroat()))
                .put("cold_side_degC", celsius(truth.sink()))
                .put("softened_depth_mm", rounded(truth.softenedDepth() * 1e3, 1e4))
                .put("deepest_mm", rounded(truth.deepest() * 1e3, 1e4))
                .put("depth_limit_mm", rounded(truth.limit() * 1e3, 1e4));
        truth.sinceFailure().ifPresent(ns -> told.put("since_failure_ms", millis(ns)));
        truth.fanFailure().ifPresent(f -> told.set("fan_failure", failure(f, truth.fanFailedAt())));
        truth.signalFailure().ifPresent(f -> told.set("signal_failure", failure(f, truth.signalFailedAt())));
        OptionalLong since = truth.sinceFailure();
        ObjectNode actions = told.putObject("actions");
        for (Action action : Action.values()) {
            PrinterRecord.Asked when = truth.actions().get(action);
            if (when != null) {
                ObjectNode one = actions.putObject(action.word())
                        .put("asked_ms", millis(when.asked()))
                        .put("effective_ms", millis(when.effective()))
                        .put("in_effect", when.effective() <= truth.at());
                if (since.isPresent()) {
                    long failed = truth.at() - since.getAsLong();
                    one.put("asked_after_failure_ms", millis(when.asked() - failed))
                            .put("effective_after_failure_ms", millis(when.effective() - failed));
                }
            }
        }
        told.set("record", record.toJson());
        return told;
    }

    private static ObjectNode failure(Failure failure, OptionalLong at) {
        ObjectNode told = object().put("failure", failure.word());
        at.ifPresent(ns -> told.put("at_ms", millis(ns)));
        switch (failure) {
            case Failure.Slow slow -> told.put("fraction", slow.fraction());
            case Failure.Fade fade -> told.put("minutes", fade.seconds() / 60);
            case Failure.Stop stop -> {}
            case Failure.CutSignal cut -> {}
            case Failure.StuckReading stuck -> {}
        }
        return told;
    }

    static double millis(long nanos) {
        return rounded(nanos / NANOS_PER_MILLI, 10);
    }

    private static double celsius(double kelvin) {
        return rounded(kelvin - ZERO_CELSIUS, 100);
    }

    private static double rounded(double value, double parts) {
        return Math.rint(value * parts) / parts;
    }
}
