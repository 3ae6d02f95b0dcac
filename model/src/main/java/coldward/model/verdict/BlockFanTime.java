package coldward.model.verdict;

import coldward.model.build.HotEnd;
import coldward.model.heat.LiveHotEnd;
import coldward.model.heat.Regime;

/** How long part-cooling air must blow on the block before the power may go off without softening the cold side. */
public final class BlockFanTime {

    private static final double STEP = 1;
    private static final double LONGEST = 1800;

    private BlockFanTime() {}

    /**
     * From heater-off until the block is below the softening temperature, blown, its fan stopped, from hot-idle, s; a block
     * colder than that can soften nothing any more. At most 1800 s.
     */
    public static double seconds(HotEnd hotEnd) {
        LiveHotEnd live = LiveHotEnd.settled(hotEnd, Regime.HOT_IDLE);
        LiveHotEnd.Drive blown = new LiveHotEnd.Drive(0, 0, 0, true);
        double t = 0;
        while (live.blockKelvin() >= hotEnd.plastic().softensAt() && t < LONGEST) {
            live.advance(STEP, blown);
            t += STEP;
        }
        return t;
    }
}
