package coldward.model.check;

import static coldward.quantity.Checks.number;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.check.CheckFinding.Severity;
import coldward.model.check.CheckFinding.Subject;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Finding;
import coldward.model.wiring.analysis.Pulses;
import coldward.model.wiring.analysis.WiringCheck;
import java.util.List;

/** The wiring's findings as those of the whole check; they cost no seconds, they hurt boards or readings. */
final class WiringFindings {

    private WiringFindings() {}

    /** Empty where the sheet describes no wiring; that is then a finding of its own. */
    static List<CheckFinding> of(Build build) {
        return build.wiring()
                .map(wiring -> described(build, wiring))
                .orElseGet(() -> List.of(new CheckFinding(
                        Severity.NOTE,
                        Subject.WIRING,
                        new Cost.None(),
                        "the sheet does not describe the wiring, so nothing of it is checked",
                        "describe it under wiring (docs/sheet.md), before the supply is switched on")));
    }

    private static List<CheckFinding> described(Build build, Wiring wiring) {
        return WiringCheck.check(
                        wiring,
                        build.reading() instanceof Tachometer tachometer
                                ? java.util.Optional.of(Pulses.of(build.hotEnd().fan(), tachometer))
                                : java.util.Optional.empty())
                .findings()
                .stream()
                .map(WiringFindings::one)
                .toList();
    }

    private static CheckFinding one(Finding finding) {
        Severity severity = switch (finding.severity()) {
            case ERROR -> Severity.ERROR;
            case WARNING -> Severity.CAUTION;
            case NOTE -> Severity.NOTE;
        };
        String numbers = finding.value().isPresent()
                ? " (%s against %s %s)"
                        .formatted(
                                number(rounded(finding.value().getAsDouble())),
                                number(rounded(finding.limit().orElse(0))),
                                finding.unit())
                : "";
        return new CheckFinding(
                severity,
                Subject.WIRING,
                new Cost.None(),
                "%s at %s%s: %s"
                        .formatted(finding.code().code(), finding.at(), numbers.replace(" )", ")"), finding.why()),
                finding.fix());
    }

    /** Three significant digits. */
    private static double rounded(double value) {
        if (value == 0) {
            return 0;
        }
        double scale = Math.pow(10, 2 - Math.floor(Math.log10(Math.abs(value))));
        return Math.rint(value * scale) / scale;
    }
}
