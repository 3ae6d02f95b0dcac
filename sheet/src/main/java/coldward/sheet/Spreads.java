package coldward.sheet;

import coldward.model.build.Origin;
import coldward.model.build.Uncertain;
import coldward.sheet.keys.ClassTable;
import java.util.EnumMap;
import java.util.Map;
import java.util.OptionalDouble;

/** How sure a sheet's uncertain inputs are: as given, or the usual spread and those of the classes in use. */
final class Spreads {

    /** Added spread of an air temperature that nobody stated, K; common practice, no source. */
    private static final double UNSTATED_AIR_K = 4;

    private Spreads() {}

    /** Spread per uncertain input, share or kelvin; added in squares, as spreads of independent causes are. */
    static Map<Uncertain, Double> of(Facts facts) {
        Map<Uncertain, Double> spreads = new EnumMap<>(Uncertain.class);
        for (Uncertain input : Uncertain.values()) {
            OptionalDouble given = facts.ifThere("spreads." + input.key());
            spreads.put(input, given.isPresent() ? given.getAsDouble() : combined(facts, input));
        }
        return spreads;
    }

    private static double combined(Facts facts, Uncertain input) {
        double squares = input.usualSpread() * input.usualSpread();
        boolean sinkIsMeasured = input == Uncertain.SINK_ON || input == Uncertain.SINK_STILL;
        if (!(sinkIsMeasured && facts.isGiven("sink.measured"))) {
            for (ClassTable.Entry entry : facts.classes().values()) {
                double added = entry.spreads().getOrDefault(input, 0.0);
                squares += isInUse(facts, entry, input) ? added * added : 0;
            }
        }
        if (input == Uncertain.AIR && !facts.isGiven("surroundings.air")) {
            squares += UNSTATED_AIR_K * UNSTATED_AIR_K;
        }
        // four decimals, so that a spread can be written and read back unchanged
        return Math.round(Math.sqrt(squares) * 1e4) / 1e4;
    }

    private static boolean isInUse(Facts facts, ClassTable.Entry entry, Uncertain input) {
        return ClassTable.feeding(entry.kind(), input).stream()
                .map(p -> p.endsWith(".material") ? p + ".name" : p)
                .anyMatch(p -> facts.applies(p)
                        && facts.find(p)
                                .map(Origin::kind)
                                .filter(k -> k == Origin.Kind.CLASS)
                                .isPresent());
    }
}
