package coldward.model.heat;

import java.util.OptionalDouble;

/**
 * The steady state with a healthy fan.
 *
 * @param airFlow the fan's flow, m3/s; only while printing
 * @param sinkConductance W/K from sink to air; only while printing
 * @param heatFlow from the block into the neck, W
 * @param throat inner wall where the cold side begins, K
 * @param sink mean sink temperature, K
 * @param filamentAtThroat K
 * @param softenedDepth m
 * @param heaterPower W that keeps the block at its set-point
 */
public record Standing(
        OptionalDouble airFlow,
        OptionalDouble sinkConductance,
        double heatFlow,
        double throat,
        double sink,
        double filamentAtThroat,
        double softenedDepth,
        double heaterPower) {}
