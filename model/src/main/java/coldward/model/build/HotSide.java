package coldward.model.build;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import coldward.quantity.InputError;

/**
 * The heated block below the neck.
 *
 * @param heaterPower W, the most the heater can give
 * @param blockHeatCapacity J/K of block, nozzle, heater and sensor together
 * @param blockLoss W/K from block to surroundings in still air
 * @param blockLossBlown W/K with part-cooling air on the block, at least {@code blockLoss}
 * @param blockToSink W/K from block to sink beside the neck: air gap, screws, radiation
 */
public record HotSide(
        double heaterPower, double blockHeatCapacity, double blockLoss, double blockLossBlown, double blockToSink) {
    public HotSide {
        positive("heater", heaterPower, "W");
        positive("block_heat_capacity", blockHeatCapacity, "J/K");
        positive("block_loss", blockLoss, "W/K");
        positive("block_loss_blown", blockLossBlown, "W/K");
        notNegative("block_to_sink", blockToSink, "W/K");
        if (blockLossBlown < blockLoss) {
            throw new InputError(
                    "block_loss_blown",
                    "block_loss_blown is %.4g W/K but must be at least block_loss (%.4g W/K): blowing cannot warm the block"
                            .formatted(blockLossBlown, blockLoss));
        }
    }
}
