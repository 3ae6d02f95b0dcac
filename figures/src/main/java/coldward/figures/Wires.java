package coldward.figures;

import coldward.model.wiring.ContactNames;
import coldward.model.wiring.Part;
import coldward.model.wiring.Wire;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Severity;
import coldward.quantity.Dimension;
import coldward.quantity.Units;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The words of a wiring figure, the same in drawing and text. */
final class Wires {

    private Wires() {}

    static String word(Severity severity) {
        return severity.name().toLowerCase(Locale.ROOT);
    }

    static Tone tone(Severity severity) {
        return switch (severity) {
            case ERROR -> Tone.DANGER;
            case WARNING -> Tone.ABNORMAL;
            case NOTE -> Tone.FAINT;
        };
    }

    static String colour(Wire wire) {
        return wire.colour().orElse("colour not noted");
    }

    static String gauge(Wire wire) {
        double awg = wire.gauge();
        return Math.abs(awg - Math.rint(awg)) < 0.01
                ? "%d AWG".formatted(Math.round(awg))
                : Units.format(Dimension.LENGTH, wire.diameter(), 3);
    }

    static String length(Wire wire) {
        return "%s m".formatted(coldward.quantity.Checks.number(wire.length()));
    }

    static String sentence(Wire wire) {
        return "Wire %s from %s to %s, %s, %s, %s"
                .formatted(wire.name(), wire.from(), wire.to(), found(wire), gauge(wire), length(wire));
    }

    static String found(Wire wire) {
        return wire.colour().map(c -> c + " as found").orElse("colour not noted");
    }

    static String value(Part part) {
        return switch (part) {
            case Part.SeriesDiode d -> d.kind().name();
            case Part.PullUp r -> Units.format(Dimension.RESISTANCE, r.resistance(), 3);
            case Part.Filter f ->
                Units.format(Dimension.RESISTANCE, f.resistance(), 3) + ", "
                        + Units.format(Dimension.CAPACITANCE, f.capacitance(), 3);
            case Part.LevelShift q -> Units.format(Dimension.RESISTANCE, q.baseResistance(), 3) + " at the base";
            case Part.Converter u -> "to " + Units.format(Dimension.VOLTAGE, u.voltage(), 3);
        };
    }

    /** What is joined to what and by which names contacts go, one line each. */
    static List<String> lines(Wiring wiring) {
        List<String> lines = new ArrayList<>();
        wiring.wires()
                .forEach(w -> lines.add("%s: %s to %s, %s, %s, %s"
                        .formatted(w.name(), w.from(), w.to(), found(w), gauge(w), length(w))));
        return lines;
    }

    static List<String> names(Wiring wiring) {
        List<String> lines = new ArrayList<>();
        for (ContactNames n : wiring.names()) {
            List<String> parts = new ArrayList<>();
            n.onBoard().ifPresent(t -> parts.add(t + " on the board"));
            n.inDrawing().ifPresent(t -> parts.add(t + " in the drawing"));
            n.inSettings().ifPresent(t -> parts.add(t + " in the settings"));
            String settled = n.settledBy()
                    .map(t -> "; settled: " + t.test() + ", found " + t.found()
                            + t.date().map(d -> " (" + d + ")").orElse(""))
                    .orElse("; not settled by a test");
            lines.add(n.contact() + ": " + String.join(", ", parts) + settled);
        }
        return lines;
    }
}
