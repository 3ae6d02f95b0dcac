package coldward.app.command;

import static coldward.app.terminal.Json.celsius;
import static coldward.app.terminal.Json.put;

import coldward.app.terminal.Json;
import coldward.model.check.Check;
import coldward.model.check.CheckFinding;
import coldward.model.check.Cost;
import coldward.model.check.Noticing;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A whole check as JSON; keys after docs/outputs.md. */
final class CheckJson {

    private CheckJson() {}

    static ObjectNode of(Check check, int draws, long seed, List<String> cautions) {
        ObjectNode json = Json.object();
        json.put("printer", check.design().build().printer());
        json.put("verdict", check.verdict().word());
        json.put("sentence", CheckText.verdict(check));
        RaceJson.margin(json, check.margin());
        ArrayNode findings = json.putArray("findings");
        for (CheckFinding finding : check.findings()) {
            ObjectNode node = findings.addObject();
            node.put("severity", finding.severity().word());
            node.put("subject", finding.subject().word());
            node.put(
                    "cost",
                    switch (finding.cost()) {
                        case Cost.Everything everything -> "everything";
                        case Cost.Deadline deadline -> "deadline";
                        case Cost.Seconds seconds -> "seconds";
                        case Cost.None none -> "none";
                    });
            if (finding.cost() instanceof Cost.Seconds(double seconds)) {
                put(node, "cost_s", seconds);
            }
            node.put("what", finding.what());
            node.put("mend", finding.mend());
        }
        check.highestSafeAir().ifPresent(kelvin -> put(json, "highest_safe_air_C", celsius(kelvin)));
        check.longestReportInterval().ifPresent(s -> put(json, "longest_report_interval_s", s));
        if (!check.withoutSignal().isEmpty()) {
            ArrayNode ways = json.putArray("without_signal");
            for (Noticing way : check.withoutSignal()) {
                ObjectNode node = ways.addObject();
                node.put("by", way.way().word());
                node.put("words", way.words());
                way.noticedAfter().ifPresent(s -> put(node, "noticed_after_s", s));
                RaceJson.margin(node, way.margin());
            }
        }
        ArrayNode blind = json.putArray("blind_spots");
        check.blindSpots().forEach(spot -> {
            ObjectNode node = blind.addObject();
            node.put("fault", spot.fault().word());
            node.put("because", spot.because());
            node.put("noticed_by", spot.noticedBy());
        });
        json.put("draws", draws);
        if (draws > 0) {
            json.put("seed", seed);
        }
        ArrayNode list = json.putArray("cautions");
        cautions.forEach(list::add);
        return json;
    }
}
