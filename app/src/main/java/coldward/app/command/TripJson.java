package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.Json;
import coldward.app.trip.TripRun;
import coldward.app.trip.TripSentences;
import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.design.TripMap;
import coldward.model.heat.Deadline;
import coldward.model.trip.Detection;
import coldward.model.trip.HealthyReports;
import coldward.model.trip.SpuriousRate;
import coldward.model.verdict.Advice;
import coldward.model.verdict.Uncertainty.Band;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A trip's design as JSON; keys after docs/outputs.md. */
final class TripJson {

    /** Rarer is said as this: smaller numbers mean nothing. */
    private static final double RAREST = 1e-12;

    private TripJson() {}

    static ObjectNode of(TripRun run) {
        TripDesign design = run.design();
        Build build = design.build();
        ObjectNode json = Json.object();
        json.put("printer", build.printer());
        json.put("safe", design.safe());
        json.put("sentence", TripSentences.verdict(design));
        json.put("binding", TripSentences.binding(design));
        design.recommended().ifPresent(judged -> judged(json, judged, build));
        if (build.reading() instanceof Tachometer tachometer) {
            put(json, "report_interval_s", tachometer.reportInterval());
        }
        put(json, "unsafe_speed_rpm", design.unsafeSpeed());
        put(json, "lowest_trip_speed_rpm", design.lowestTripSpeed());
        design.recommended()
                .flatMap(j -> design.highestTripSpeed(j.trip().confirmations()))
                .ifPresent(rpm -> put(json, "highest_trip_speed_rpm", rpm));
        put(json, "spurious_limit_per_year", build.spuriousTripsPerYear());
        put(json, "hours_per_year", build.hoursPerYear());
        design.standing().ifPresent(judged -> {
            ObjectNode node = json.putObject("standing");
            node.put("trip_from", build.trip().isPresent() ? "sheet" : "recommended");
            node.put("safe", judged.safe());
            node.put("sentence", TripSentences.standing(design, judged));
            judged(node, judged, build);
        });
        ObjectNode reports = json.putObject("reports");
        reports.put("from", design.fan().source().word());
        reports(reports.putObject("slowest"), design.fan().slowest());
        reports(reports.putObject("fastest"), design.fan().fastest());
        json.put("draws", run.draws());
        if (run.draws() > 0) {
            json.put("seed", run.seed());
        }
        run.map().ifPresent(map -> map(json.putArray("map"), map));
        ArrayNode advice = json.putArray("advice");
        for (Advice each : run.advice()) {
            ObjectNode node = advice.addObject();
            node.put("change", each.change());
            RaceJson.deadline(node, each.deadline());
            put(node, "stop_time_s", each.stopTime());
            RaceJson.margin(node, each.margin());
        }
        ArrayNode cautions = json.putArray("cautions");
        run.cautions().forEach(cautions::add);
        return json;
    }

    private static void judged(ObjectNode node, Judged judged, Build build) {
        put(node, "trip_speed_rpm", judged.trip().speed());
        node.put("confirmations", judged.trip().confirmations());
        put(node, "grace_s", judged.trip().grace());
        RaceJson.actions(node.putArray("actions"), judged.response());
        put(node, "spurious_per_1000_h", rate(judged.spurious()));
        put(node, "spurious_per_year", Math.max(RAREST, judged.spurious().perYear(build.hoursPerYear())));
        node.put("spurious_is_bound", bound(judged.spurious()));
        ObjectNode detection = node.putObject("detection_s");
        for (Judged.ModeBudget mode : judged.modes()) {
            ObjectNode times = detection.putObject(mode.mode().word());
            times.put("noticed", mode.detection().noticed());
            if (mode.detection() instanceof Detection.Noticed noticed) {
                put(times, "p50", noticed.p50());
                put(times, "p99", noticed.p99());
                put(times, "worst", noticed.worst());
            }
        }
        Judged.ModeBudget binding = judged.binding();
        node.put("binding_mode", binding.mode().word());
        if (binding.detection() instanceof Detection.Noticed noticed) {
            ObjectNode stop = node.putObject("stop_time_s");
            put(stop, "p50", noticed.p50() + binding.response());
            put(stop, "p99", noticed.p99() + binding.response());
        }
        band(node.putObject("deadline_s"), binding.deadline());
        RaceJson.margin(node, judged.margin());
        ArrayNode modes = node.putArray("modes");
        for (Judged.ModeBudget mode : judged.modes()) {
            ObjectNode row = modes.addObject();
            row.put("mode", mode.mode().word());
            put(row, "response_s", mode.response());
            band(row.putObject("deadline_s"), mode.deadline());
            RaceJson.margin(row, mode.margin());
        }
    }

    private static void band(ObjectNode node, Band band) {
        node.put("verdict", band.p05().word());
        seconds(node, "p05", band.p05());
        seconds(node, "p50", band.p50());
        seconds(node, "p95", band.p95());
    }

    private static void seconds(ObjectNode node, String key, Deadline deadline) {
        if (deadline instanceof Deadline.Until(double seconds)) {
            put(node, key, seconds);
        }
    }

    private static void reports(ObjectNode node, HealthyReports reports) {
        put(node, "mean_rpm", reports.mean());
        put(node, "deviation_rpm", reports.deviation());
        put(node, "correlation", reports.correlation());
        put(node, "outlier_rate", reports.outlierRate());
    }

    private static void map(ArrayNode rows, TripMap map) {
        for (TripMap.Cell cell : map.cells()) {
            ObjectNode row = rows.addObject();
            put(row, "trip_speed_rpm", cell.speed());
            row.put("confirmations", cell.confirmations());
            put(row, "spurious_per_1000_h", rate(cell.spurious()));
            row.put("spurious_is_bound", bound(cell.spurious()));
            RaceJson.margin(row, cell.margin());
        }
    }

    private static double rate(SpuriousRate rate) {
        return Math.max(RAREST, rate.perThousandHours());
    }

    private static boolean bound(SpuriousRate rate) {
        return rate instanceof SpuriousRate.AtMost || rate.perThousandHours() < RAREST;
    }
}
