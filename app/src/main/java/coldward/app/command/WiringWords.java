package coldward.app.command;

import coldward.figures.WiringPicture;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Finding;
import coldward.model.wiring.analysis.Severity;
import coldward.model.wiring.analysis.WiringReport;
import coldward.quantity.Checks;
import coldward.quantity.Dimension;
import coldward.quantity.Units;
import java.util.List;

/** Findings of a wiring in sentences. */
final class WiringWords {

    /** Told with every answer about a wiring. */
    static final List<String> CAUTIONS = List.of(
            "Disconnect the supply before touching wiring.",
            "Mains parts are for licensed people and local codes.",
            "A fan trip is not fire protection.");

    private WiringWords() {}

    static WiringPicture picture(String printer, Wiring wiring, WiringReport report) {
        return new WiringPicture(
                printer,
                wiring,
                report.findings().stream()
                        .map(f -> new WiringPicture.Pin(f.severity(), f.code().code(), f.at(), headline(f), text(f)))
                        .toList(),
                verdict(report),
                CAUTIONS);
    }

    static String headline(Finding f) {
        return f.code().title()
                + (f.value().isPresent()
                        ? ", %s against %s"
                                .formatted(
                                        amount(f.value().getAsDouble(), f.unit()),
                                        amount(f.limit().orElse(0), f.unit()))
                        : "");
    }

    private static String text(Finding f) {
        String state = f.state().isEmpty() ? "" : " Worst with: " + f.state() + ".";
        return sentence(f.why()) + state + " To mend it: " + ended(f.fix()) + " More in docs/findings/"
                + f.code().code() + ".md.";
    }

    private static String sentence(String text) {
        return ended(text.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + text.substring(1));
    }

    private static String ended(String text) {
        return text.endsWith(".") ? text : text + ".";
    }

    private static String amount(double value, String unit) {
        return switch (unit) {
            case "V" -> Units.format(Dimension.VOLTAGE, value, 3);
            case "A" -> Units.format(Dimension.CURRENT, value, 3);
            case "s" -> Units.format(Dimension.TIME, value, 3);
            case "Hz" -> Units.format(Dimension.FREQUENCY, value, 3);
            case "mA" -> Units.format(Dimension.CURRENT, value * 1e-3, 3);
            case "us" -> Units.format(Dimension.TIME, value * 1e-6, 3);
            case "kHz" -> Units.format(Dimension.FREQUENCY, value * 1e3, 3);
            case "" -> Checks.number(value);
            default -> Checks.number(value) + " " + unit;
        };
    }

    private static String verdict(WiringReport report) {
        long errors = count(report, Severity.ERROR);
        long warnings = count(report, Severity.WARNING);
        if (errors > 0) {
            return "%s in this wiring: do not switch it on before %s mended."
                    .formatted(many(errors, "error"), errors == 1 ? "it is" : "they are");
        }
        return warnings > 0
                ? "no error; %s, see below.".formatted(many(warnings, "warning"))
                : "the wiring works in every state and corner that was computed.";
    }

    private static long count(WiringReport report, Severity severity) {
        return report.findings().stream().filter(f -> f.severity() == severity).count();
    }

    private static String many(long n, String what) {
        return n == 1 ? "one " + what : n + " " + what + "s";
    }
}
