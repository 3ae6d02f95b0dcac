package coldward.model.design;

import coldward.model.trip.Margin;
import coldward.model.trip.SpuriousRate;
import java.util.List;

/**
 * Spurious rate and margin over trip speed and confirmations. Margins rest on detections computed coarsely (to about a
 * twentieth of the report interval).
 *
 * @param cells confirmations from 1 upwards, within them rising speeds
 * @param unsafeBelow S_low, rpm
 * @param highest S_high of each confirmations, rpm, from 1 upwards; 0 where outliers alone trip too often
 */
public record TripMap(List<Cell> cells, double unsafeBelow, List<Double> highest) {

    /**
     * One trip.
     *
     * @param speed rpm
     * @param confirmations in a row
     * @param spurious how often a healthy fan trips
     * @param margin smallest over the modes
     */
    public record Cell(double speed, int confirmations, SpuriousRate spurious, Margin margin) {}

    public TripMap {
        cells = List.copyOf(cells);
        highest = List.copyOf(highest);
    }
}
