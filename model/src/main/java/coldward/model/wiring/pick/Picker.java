package coldward.model.wiring.pick;

import coldward.model.wiring.Board;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Input;
import coldward.model.wiring.Part;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Corner;
import coldward.model.wiring.analysis.Finding;
import coldward.model.wiring.analysis.FindingCode;
import coldward.model.wiring.analysis.Pulses;
import coldward.model.wiring.analysis.Severity;
import coldward.model.wiring.analysis.WiringCheck;
import coldward.model.wiring.analysis.WiringReport;
import coldward.model.wiring.analysis.WiringReport.StatePoint;
import coldward.model.wiring.analysis.WiringState;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Tries every pull-up of a series with every diode class in one described wiring. */
public final class Picker {

    /** What choosing pull-up and diode cannot mend; it is left to the check of the wiring. */
    private static final Set<FindingCode> NOT_OURS = Set.of(
            FindingCode.RAIL_ABOVE_FAN,
            FindingCode.RAIL_BELOW_FAN,
            FindingCode.TOO_LITTLE_TO_START,
            FindingCode.RAIL_OVERLOADED,
            FindingCode.PORT_OVERLOADED,
            FindingCode.CONTACT_OVERLOADED,
            FindingCode.SUPPLY_CHOPPED_FAST,
            FindingCode.CONTACT_USED_TWICE,
            FindingCode.NAMES_DISAGREE,
            FindingCode.INPUT_NOT_FREE,
            FindingCode.NOT_CONNECTED);

    private Picker() {}

    /**
     * The map.
     *
     * @param wiring with the two parts in their places
     * @param pullUp the pull-up's name; its tolerance is kept
     * @param diode the diode's name
     * @param classes of diodes to try
     * @param ohms pull-ups to try
     * @param pulses the fastest to expect; empty to leave edges out
     * @throws InputError if there are no such parts, or no input is wired
     */
    public static PickMap map(
            Wiring wiring,
            String pullUp,
            String diode,
            List<DiodeClass> classes,
            List<Double> ohms,
            Optional<Pulses> pulses) {
        Part.PullUp resistor = part(wiring, pullUp, Part.PullUp.class, "pull-up");
        Part.SeriesDiode series = part(wiring, diode, Part.SeriesDiode.class, "diode");
        List<PickMap.Cell> cells = new ArrayList<>();
        for (DiodeClass kind : classes) {
            for (double ohm : ohms) {
                List<Part> parts = new ArrayList<>(wiring.parts());
                parts.replaceAll(p -> p.equals(resistor)
                        ? new Part.PullUp(pullUp, ohm, resistor.tolerance())
                        : p.equals(series) ? new Part.SeriesDiode(diode, kind) : p);
                Wiring tried = wiring.withParts(parts, wiring.wires());
                WiringReport report = WiringCheck.check(tried, pulses);
                List<FindingCode> errors = report.findings().stream()
                        .filter(f -> f.severity() == Severity.ERROR)
                        .map(Finding::code)
                        .filter(c -> !NOT_OURS.contains(c))
                        .distinct()
                        .toList();
                cells.add(new PickMap.Cell(ohm, kind, margin(tried, report), errors));
            }
        }
        return new PickMap(
                cells,
                cells.stream().filter(PickMap.Cell::allowed).max(Comparator.comparingDouble(PickMap.Cell::margin)));
    }

    private static <P extends Part> P part(Wiring wiring, String name, Class<P> kind, String words) {
        return wiring.part(name)
                .filter(kind::isInstance)
                .map(kind::cast)
                .orElseThrow(() -> new InputError(words, words + " is " + name + " but the wiring has no such part"));
    }

    /** Worst noise margin of all wired inputs over all corners with the fan on, V. */
    static double margin(Wiring wiring, WiringReport report) {
        Map<Corner, List<StatePoint>> corners = new HashMap<>();
        for (StatePoint state : report.states()) {
            if (state.state().fan() == WiringState.Fan.ON) {
                corners.computeIfAbsent(state.state().corner(), _ -> new ArrayList<>())
                        .add(state);
            }
        }
        double worst = Double.POSITIVE_INFINITY;
        for (Board board : wiring.boards()) {
            for (Input input : board.inputs()) {
                ContactId contact = new ContactId(board.name(), input.contact());
                if (wiring.wiresAt(contact).isEmpty()) {
                    continue;
                }
                for (List<StatePoint> pair : corners.values()) {
                    double low = pair.stream()
                            .mapToDouble(s -> s.point().voltage(contact.toString()))
                            .min()
                            .orElseThrow();
                    double high = pair.stream()
                            .mapToDouble(s -> s.point().voltage(contact.toString()))
                            .max()
                            .orElseThrow();
                    worst = Math.min(worst, Math.min(input.lowBelow() - low, high - input.highAbove()));
                }
            }
        }
        if (Double.isInfinite(worst)) {
            throw new InputError(
                    "wiring inputs", "no input of the wiring has a wire, but one must for a pull-up to choose");
        }
        return worst;
    }
}
