package coldward.rig;

import java.util.OptionalDouble;

/**
 * What a machine says of itself.
 *
 * @param speed of the last report, rpm; empty without a speed signal
 * @param report its number
 * @param commandedShare what the fan is asked for, 0 or 1: thermostatic
 * @param nozzle K
 * @param nozzleTarget K; 0 if the heater is off
 * @param coldSide mean temperature of the sink, K
 * @param heaterPower W
 * @param blockFanShare part-cooling air, 0 or 1
 * @param feeding a job is feeding
 * @param powered the machine's power is on
 */
public record Shown(
        OptionalDouble speed,
        long report,
        double commandedShare,
        double nozzle,
        double nozzleTarget,
        double coldSide,
        double heaterPower,
        double blockFanShare,
        boolean feeding,
        boolean powered) {}
