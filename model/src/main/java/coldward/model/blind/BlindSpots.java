package coldward.model.blind;

import coldward.model.blind.BlindSpot.Fault;
import coldward.model.build.Reading;
import coldward.model.shop.ReadName;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The blind spots of a printer.
 *
 * <p>A speed says how fast something turns, not that air reaches the sink. A cold-side temperature says that, but the watch
 * looks at its rise within a minute: what comes on slowly, or was so from the beginning, raises it without such a rise. A
 * commanded duty shows a number that lives on while the fan is off, and nothing while it turns.
 */
public final class BlindSpots {

    private static final String COLD_SIDE = "a cold-side temperature (read cold_side)";
    private static final String HIGHER = "the cold side's temperature against this fan's baseline, or a look at it";

    private BlindSpots() {}

    /**
     * What would go unnoticed.
     *
     * @param reading how the speed is reported
     * @param reads what is mapped
     */
    public static List<BlindSpot> of(Reading reading, Set<ReadName> reads) {
        List<BlindSpot> spots = new ArrayList<>();
        boolean speed = reading instanceof Reading.Tachometer && reads.contains(ReadName.SPEED);
        boolean cold = reads.contains(ReadName.COLD_SIDE);
        if (!speed) {
            spots.add(new BlindSpot(
                    Fault.ANY_FAN_FAILURE,
                    "no speed is read" + (cold ? ", and a cold-side temperature alone trips nothing" : ""),
                    "a fan with a pulse signal, and its read mapped"));
        }
        airSpots(spots, cold);
        if (speed) {
            readingSpots(spots, cold, reads.contains(ReadName.DUTY));
        }
        return List.copyOf(spots);
    }

    private static void airSpots(List<BlindSpot> spots, boolean cold) {
        if (cold) {
            spots.add(new BlindSpot(
                    Fault.DIRTY_FINS,
                    "the cold side warms over weeks, the watch looks at its rise within a minute",
                    HIGHER));
            spots.add(new BlindSpot(
                    Fault.REVERSED_FAN,
                    "it is so from the first minute on, and nothing rises after that",
                    "a hand at the duct after every service, or " + HIGHER));
            return;
        }
        spots.add(new BlindSpot(Fault.DUCT_OFF, "the fan turns as ever, only its air goes elsewhere", COLD_SIDE));
        spots.add(new BlindSpot(
                Fault.DIRTY_FINS, "the fan turns as ever or a little faster", COLD_SIDE + ", or a brush in time"));
        spots.add(new BlindSpot(
                Fault.REVERSED_FAN,
                "a fan that blows the wrong way turns as fast",
                COLD_SIDE + ", or a hand at the duct after every service"));
        spots.add(new BlindSpot(
                Fault.LOST_BLADE, "a fan with a blade less turns as fast or faster", COLD_SIDE + ", or its noise"));
    }

    private static void readingSpots(List<BlindSpot> spots, boolean cold, boolean duty) {
        if (!cold) {
            String whileOff = duty ? ", until the fan is next commanded off" : "";
            spots.add(new BlindSpot(
                    Fault.FROZEN_READING,
                    "the last good number stays whatever the fan does" + whileOff,
                    COLD_SIDE + (duty ? "" : ", or the commanded duty (read duty) at the next rest")));
            spots.add(new BlindSpot(
                    Fault.COUPLED_READING,
                    "pulses of a motor or of another fan look like this one's" + whileOff,
                    COLD_SIDE + (duty ? "" : ", or the commanded duty (read duty) at the next rest")
                            + ", or a drill with the plug pulled while everything else runs"));
        }
        spots.add(new BlindSpot(
                Fault.WRONG_PULSES,
                "a speed that is wrong by a factor looks like another healthy fan",
                "a baseline of this very fan, or a second count of its turns"));
    }
}
