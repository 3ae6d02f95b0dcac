package coldward.app.command;

import static coldward.app.terminal.Json.celsius;
import static coldward.app.terminal.Json.put;

import coldward.app.race.RaceRun;
import coldward.app.race.Sentences;
import coldward.app.terminal.Json;
import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Origin;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.heat.Regime;
import coldward.model.heat.Standing;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTime;
import coldward.model.trip.StopTimeBudget;
import coldward.model.verdict.Advice;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.Assessment.Outcome;
import coldward.model.verdict.Uncertainty;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The race as JSON; keys after docs/outputs.md. */
final class RaceJson {

    private RaceJson() {}

    static ObjectNode of(RaceRun run) {
        Assessment assessment = run.assessment();
        Build build = assessment.build();
        ObjectNode json = Json.object();
        json.put("printer", build.printer());
        json.put("plastic", build.hotEnd().plastic().name());
        standing(json.putObject("steady"), assessment, Regime.PRINTING);
        standing(json.putObject("hot_idle"), assessment, Regime.HOT_IDLE);
        ArrayNode softens = json.putArray("softens");
        for (Regime regime : Regime.values()) {
            ObjectNode row = softens.addObject();
            row.put("from", regime.word());
            OptionalDouble after = assessment.softens().getOrDefault(regime, OptionalDouble.of(0));
            row.put("softens", after.isPresent());
            put(row, "after_s", after);
        }
        ArrayNode deadlines = json.putArray("deadlines");
        for (Assessment.Row row : assessment.deadlines()) {
            ObjectNode node = deadlines.addObject();
            node.put("from", row.from().word());
            actions(node.putArray("actions"), row.actions());
            deadline(node, row.deadline());
        }
        put(json, "unsafe_speed_share", assessment.unsafeSpeed());
        put(
                json,
                "unsafe_speed_rpm",
                assessment.unsafeSpeed() * build.hotEnd().fan().ratedSpeed());
        assessment.highestSafeAir().ifPresent(k -> put(json, "highest_safe_air_C", celsius(k)));
        trip(json, assessment);
        verdict(json.putObject("verdict"), run);
        advice(json, run);
        if (!assessment.warnings().isEmpty()) {
            assessment.warnings().forEach(json.putArray("warnings")::add);
        }
        origins(json.putObject("origins"), build.origins());
        run.uncertainty().ifPresent(u -> uncertainty(json.putObject("uncertainty"), u, run.seed()));
        return json;
    }

    private static void standing(ObjectNode node, Assessment assessment, Regime regime) {
        Standing standing = assessment.standing().get(regime);
        if (standing == null) {
            return;
        }
        put(node, "air_flow_m3_s", standing.airFlow());
        put(node, "sink_conductance_W_K", standing.sinkConductance());
        put(node, "heat_flow_W", standing.heatFlow());
        put(node, "throat_C", celsius(standing.throat()));
        put(node, "sink_C", celsius(standing.sink()));
        put(node, "filament_at_throat_C", celsius(standing.filamentAtThroat()));
        put(node, "softened_depth_mm", 1e3 * standing.softenedDepth());
        put(node, "heater_power_W", standing.heaterPower());
    }

    static void actions(ArrayNode node, Set<Action> actions) {
        for (Action action : new Action[] {Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN, Action.POWER_OFF}) {
            if (actions.contains(action)) {
                node.add(action.word());
            }
        }
    }

    static void deadline(ObjectNode node, Deadline deadline) {
        node.put("verdict", deadline.word());
        if (deadline instanceof Deadline.Until(double seconds)) {
            put(node, "until_s", seconds);
        }
    }

    private static void trip(ObjectNode json, Assessment assessment) {
        assessment.trip().ifPresent(t -> {
            Trip trip = t;
            ObjectNode node = json.putObject("trip");
            put(node, "speed_rpm", trip.speed());
            node.put("confirmations", trip.confirmations());
            put(node, "grace_s", trip.grace());
            node.put("provisional", assessment.provisionalTrip());
        });
        if (assessment.stopTime().isPresent() && assessment.stopTime().get() instanceof StopTime.Noticed noticed) {
            StopTimeBudget p99 = noticed.p99();
            ObjectNode node = json.putObject("stop_time");
            put(node, "coast_s", p99.coast());
            put(node, "reading_s", p99.reading());
            put(node, "confirmations_s", p99.confirmations());
            put(node, "link_s", p99.link());
            put(node, "machine_s", p99.machine());
            put(node, "p50_s", noticed.median().total());
            put(node, "p99_s", p99.total());
        }
    }

    private static void verdict(ObjectNode node, RaceRun run) {
        Assessment assessment = run.assessment();
        node.put("safe", Sentences.safe(assessment, run.uncertainty()));
        node.put(
                "outcome",
                switch (assessment.outcome()) {
                    case Outcome.SoftWhileHealthy s -> "soft-while-healthy";
                    case Outcome.Unprotected u -> "unprotected";
                    case Outcome.NoTripSpeed n -> "no-trip-speed";
                    case Outcome.TripsAtOnce t -> "trips-at-once";
                    case Outcome.Raced r -> "raced";
                });
        node.put("worse_from", assessment.worse().word());
        actions(node.putArray("actions"), assessment.build().response().actions());
        actions(node.putArray("recommended"), assessment.recommended());
        Optional<Margin> margin = Sentences.margin(assessment, run.uncertainty());
        margin.ifPresent(m -> margin(node, m));
        node.put("sentence", Sentences.verdict(assessment, run.uncertainty()));
    }

    static void margin(ObjectNode node, Margin margin) {
        node.put(
                "margin",
                switch (margin) {
                    case Margin.NothingSaves n -> "nothing-saves";
                    case Margin.Seconds s -> "seconds";
                    case Margin.Unlimited u -> "unlimited";
                });
        if (margin instanceof Margin.Seconds(double seconds)) {
            put(node, "margin_s", seconds);
        }
    }

    private static void advice(ObjectNode json, RaceRun run) {
        if (run.advice().isEmpty()) {
            return;
        }
        ArrayNode rows = json.putArray("advice");
        for (Advice advice : run.advice()) {
            ObjectNode node = rows.addObject();
            node.put("change", advice.change());
            deadline(node, advice.deadline());
            put(node, "stop_time_s", advice.stopTime());
            margin(node, advice.margin());
        }
    }

    static void origins(ObjectNode node, Map<String, Origin> origins) {
        for (Map.Entry<String, Origin> entry : origins.entrySet()) {
            ObjectNode origin = node.putObject(entry.getKey());
            origin.put("kind", entry.getValue().kind().word());
            origin.put("value", entry.getValue().text());
            if (!entry.getValue().detail().isEmpty()) {
                origin.put("detail", entry.getValue().detail());
            }
        }
    }

    private static void uncertainty(ObjectNode node, Uncertainty uncertainty, long seed) {
        node.put("draws", uncertainty.draws());
        node.put("seed", seed);
        ArrayNode softens = node.putArray("softens");
        ArrayNode deadlines = node.putArray("deadlines");
        for (Regime regime : Regime.values()) {
            Uncertainty.Band softening = uncertainty.softens().get(regime);
            if (softening != null) {
                ObjectNode row = softens.addObject();
                row.put("from", regime.word());
                put(row, "share_softens", 1 - softening.always());
                seconds(row, "p05_s", softening.p05());
                seconds(row, "p50_s", softening.p50());
                seconds(row, "p95_s", softening.p95());
            }
            for (Set<Action> response : uncertainty.deadlines().getOrDefault(regime, Map.of()).keySet().stream()
                    .sorted(java.util.Comparator.comparing(coldward.model.build.Response::words))
                    .toList()) {
                Uncertainty.Band band = uncertainty.bandOf(regime, response);
                ObjectNode row = deadlines.addObject();
                row.put("from", regime.word());
                actions(row.putArray("actions"), response);
                deadline(row.putObject("p05"), band.p05());
                deadline(row.putObject("p50"), band.p50());
                deadline(row.putObject("p95"), band.p95());
                put(row, "share_never", band.never());
                put(row, "share_always", band.always());
            }
        }
        ArrayNode widest = node.putArray("widest");
        for (Uncertainty.Widener widener : uncertainty.widest()) {
            ObjectNode row = widest.addObject();
            row.put("input", widener.input().key());
            row.put("words", widener.input().words());
            put(row, "share", widener.share());
        }
    }

    private static void seconds(ObjectNode row, String key, Deadline value) {
        if (value instanceof Deadline.Until(double seconds)) {
            put(row, key, seconds);
        }
    }
}
