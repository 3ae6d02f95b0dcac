package coldward.model.wiring.analysis;

import static coldward.quantity.Checks.within;

import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.List;

/**
 * One end of what varies.
 *
 * @param kelvin temperature of every part
 * @param supply -1, 0 or 1: every rail at its lowest, nominal or highest voltage
 * @param pull -1, 0 or 1: every pull-up at its lowest, nominal or highest resistance
 */
public record Corner(double kelvin, int supply, int pull) {
    public Corner {
        Checks.positive("corner temperature", kelvin, "K");
        within("corner supply", supply, -1, 1);
        within("corner pull-up", pull, -1, 1);
    }

    /** All ends: cold and hot, three supplies, two pull-ups. */
    static List<Corner> all(double coldest, double hottest) {
        List<Corner> corners = new ArrayList<>();
        for (double kelvin : coldest == hottest ? new double[] {hottest} : new double[] {coldest, hottest}) {
            for (int supply = -1; supply <= 1; supply++) {
                corners.add(new Corner(kelvin, supply, -1));
                corners.add(new Corner(kelvin, supply, 1));
            }
        }
        return corners;
    }

    double celsius() {
        return kelvin - 273.15;
    }

    /** In words. */
    public String words() {
        return "%s degC, supply %s, pull-up %s".formatted(Checks.number(celsius()), end(supply), end(pull));
    }

    private static String end(int sign) {
        return switch (sign) {
            case -1 -> "lowest";
            case 0 -> "nominal";
            default -> "highest";
        };
    }
}
