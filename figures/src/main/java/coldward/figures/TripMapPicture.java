package coldward.figures;

import coldward.model.build.Trip;
import coldward.model.design.TripMap;
import coldward.quantity.InputError;
import java.util.Optional;

/**
 * What a trip map shows.
 *
 * @param printer its name
 * @param verdict one or two sentences
 * @param map the cells, at least two speeds
 * @param recommended the choice; empty where there is none
 * @param own the sheet's trip, if it states one
 * @param limitPerThousandHours spurious trips tolerated per 1,000 printing hours
 * @param hoursPerYear printing hours in a year
 */
public record TripMapPicture(
        String printer,
        String verdict,
        TripMap map,
        Optional<Trip> recommended,
        Optional<Trip> own,
        double limitPerThousandHours,
        double hoursPerYear) {
    public TripMapPicture {
        if (map.cells().size() < 2) {
            throw new InputError("map", "map has fewer than 2 cells but a drawing needs two speeds");
        }
    }

    /** Most confirmations on the map. */
    int confirmations() {
        return map.highest().size();
    }
}
