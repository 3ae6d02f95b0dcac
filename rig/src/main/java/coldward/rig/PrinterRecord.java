package coldward.rig;

import coldward.quantity.InputError;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.PropertyNamingStrategies;
import tools.jackson.databind.json.JsonMapper;

/**
 * The whole physical state of a simulated printer at one moment, so that somebody else can go on from it.
 *
 * @param printer its name
 * @param at rig time, ns
 * @param heat every temperature of the heat model, K
 * @param fan speed and what is the matter with it
 * @param countedPulses in the report not yet ended
 * @param countedSeconds of the report not yet ended
 * @param report number of the last report
 * @param shownSpeed of the last report, rpm
 * @param signalFailure word of what is the matter with the signal; empty if nothing
 * @param fanFailedAt rig time, ns
 * @param signalFailedAt rig time, ns
 * @param target of the heater, K; 0 is off
 * @param feeding a job is running
 * @param blown part-cooling air is on
 * @param powered the machine's power is on
 * @param actions asked for, by word
 * @param deepest softened depth since the fan failed, m
 */
public record PrinterRecord(
        String printer,
        long at,
        List<Double> heat,
        FanRecord fan,
        double countedPulses,
        double countedSeconds,
        long report,
        double shownSpeed,
        String signalFailure,
        Optional<Long> fanFailedAt,
        Optional<Long> signalFailedAt,
        double target,
        boolean feeding,
        boolean blown,
        boolean powered,
        Map<String, Asked> actions,
        double deepest) {

    private static final JsonMapper JSON = JsonMapper.builder()
            .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .build();

    /**
     * When an action was first asked for and when it took or takes effect.
     *
     * @param asked rig time, ns
     * @param effective rig time, ns
     */
    public record Asked(long asked, long effective) {}

    /**
     * A fan at one moment.
     *
     * @param share smooth speed, share of rated speed
     * @param noise of the report not yet ended, share
     * @param hoursTurned h
     * @param failure word of what is the matter; empty if nothing
     * @param number fraction of a slow fan, or s of a fading one; else 0
     * @param failedFor s
     * @param shareAtFailure speed when it failed, share of rated speed
     */
    public record FanRecord(
            double share,
            double noise,
            double hoursTurned,
            String failure,
            double number,
            double failedFor,
            double shareAtFailure) {}

    public PrinterRecord {
        heat = List.copyOf(heat);
        actions = Map.copyOf(actions);
    }

    /** As the rig sends it. */
    public JsonNode toJson() {
        return JSON.valueToTree(this);
    }

    /**
     * As the rig sent it.
     *
     * @throws InputError if something is missing or of the wrong type
     */
    public static PrinterRecord ofJson(JsonNode json) {
        try {
            return JSON.treeToValue(json, PrinterRecord.class);
        } catch (JacksonException e) {
            throw new InputError("record", "record is not that of a simulated printer: " + e.getOriginalMessage());
        }
    }
}
