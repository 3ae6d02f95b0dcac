package coldward.model.reading;

import coldward.quantity.InputError;
import java.util.List;

/**
 * Shown against true speed, for drawing.
 *
 * @param points by rising true speed, at least two
 */
public record ShownCurve(List<Point> points) {

    /**
     * One point.
     *
     * @param trueRpm rpm
     * @param shownRpm rpm
     */
    public record Point(double trueRpm, double shownRpm) {}

    public ShownCurve {
        points = List.copyOf(points);
        if (points.size() < 2) {
            throw new InputError("points", "points has fewer than 2 entries but a curve needs at least 2");
        }
    }

    /** The true speeds, rpm. */
    public double[] trueRpm() {
        return points.stream().mapToDouble(Point::trueRpm).toArray();
    }

    /** The shown speeds, rpm. */
    public double[] shownRpm() {
        return points.stream().mapToDouble(Point::shownRpm).toArray();
    }
}
