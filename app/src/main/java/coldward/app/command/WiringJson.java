package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.Json;
import coldward.model.wiring.analysis.Finding;
import coldward.model.wiring.analysis.WiringReport;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The answer about a wiring as JSON. */
final class WiringJson {

    private WiringJson() {}

    static ObjectNode of(String printer, WiringReport report) {
        ObjectNode node = Json.object();
        node.put("printer", printer);
        node.put("has_errors", report.hasErrors());
        ArrayNode findings = node.putArray("findings");
        for (Finding f : report.findings()) {
            ObjectNode row = findings.addObject();
            row.put("code", f.code().code());
            row.put("severity", f.severity().shown());
            row.put("title", f.code().title());
            row.put("at", f.at());
            if (f.value().isPresent()) {
                put(row, "value", f.value());
                put(row, "limit", f.limit());
                row.put("unit", f.unit());
            }
            if (!f.state().isEmpty()) {
                row.put("state", f.state());
            }
            row.put("why", f.why());
            row.put("fix", f.fix());
        }
        ArrayNode states = node.putArray("states");
        for (WiringReport.StatePoint s : report.states()) {
            ObjectNode row = states.addObject();
            row.put("name", s.name());
            ObjectNode volts = row.putObject("node_voltages_V");
            s.point().voltages().forEach((n, v) -> put(volts, n, v));
            ObjectNode amperes = row.putObject("currents_A");
            s.point().currents().forEach((n, v) -> put(amperes, n, v));
        }
        ArrayNode cautions = node.putArray("cautions");
        WiringWords.CAUTIONS.forEach(cautions::add);
        return node;
    }
}
