package coldward.model.wiring.analysis;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/** Collects findings; of one code at one place only the worst number stays. */
final class FindingList {

    private record Place(FindingCode code, String at) {}

    private final Map<Place, Finding> findings = new LinkedHashMap<>();

    /** Something with a number against a limit. */
    void add(
            FindingCode code,
            String at,
            double value,
            double limit,
            String unit,
            String state,
            String why,
            String fix) {
        Finding finding =
                new Finding(code, at, OptionalDouble.of(value), OptionalDouble.of(limit), unit, state, why, fix);
        findings.merge(new Place(code, at), finding, (a, b) -> beyond(b) > beyond(a) ? b : a);
    }

    /** Something without a number. */
    void add(FindingCode code, String at, String why, String fix) {
        findings.putIfAbsent(
                new Place(code, at),
                new Finding(code, at, OptionalDouble.empty(), OptionalDouble.empty(), "", "", why, fix));
    }

    boolean has(FindingCode code) {
        return findings.keySet().stream().anyMatch(p -> p.code() == code);
    }

    void drop(FindingCode code, String at) {
        findings.remove(new Place(code, at));
    }

    List<Finding> worstFirst() {
        List<Finding> sorted = new ArrayList<>(findings.values());
        sorted.sort(Finding.BY_HARM);
        return List.copyOf(sorted);
    }

    private static double beyond(Finding finding) {
        return Math.abs(finding.value().orElse(0) - finding.limit().orElse(0));
    }
}
