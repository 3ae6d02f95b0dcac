package coldward.model.design;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Build;
import coldward.model.heat.FanFailure;
import coldward.model.trip.FailureMode;
import java.util.OptionalDouble;

/**
 * What a design looks at.
 *
 * @param slowShare the slow failure: the speed it falls to at once, as a share of the unsafe speed, 0 to below 1
 * @param fadeDuration s until a fading fan stands
 * @param mapSpeeds trip speeds on the map
 * @param mapConfirmations confirmations on the map, from 1; more where the choice needs more
 * @param lowestSpeed rpm of the healthy fan at the lowest duty its controller may command; empty if it is never slowed
 */
public record DesignSettings(
        double slowShare, double fadeDuration, int mapSpeeds, int mapConfirmations, OptionalDouble lowestSpeed) {

    /** Half the unsafe speed at once; a fade over five minutes. Common practice, no source. */
    public static final DesignSettings USUAL = new DesignSettings(0.5, 300, 13, 4, OptionalDouble.empty());

    public DesignSettings {
        within("slow share of the unsafe speed", slowShare, 0, Math.nextDown(1.0), "");
        positive("fade duration", fadeDuration, "s");
        within("speeds on the map", mapSpeeds, 2, 200);
        within("confirmations on the map", mapConfirmations, 1, 20);
        lowestSpeed.ifPresent(rpm -> positive("lowest speed", rpm, "rpm"));
    }

    /** With the speed at the lowest duty that may be commanded, rpm. */
    public DesignSettings withLowestSpeed(double rpm) {
        return new DesignSettings(slowShare, fadeDuration, mapSpeeds, mapConfirmations, OptionalDouble.of(rpm));
    }

    /** With a fan that is never slowed. */
    DesignSettings withoutLowestSpeed() {
        return new DesignSettings(slowShare, fadeDuration, mapSpeeds, mapConfirmations, OptionalDouble.empty());
    }

    /**
     * What happens to the fan in a mode.
     *
     * @param unsafeShare unsafe speed, share of rated speed
     */
    FanFailure fan(FailureMode mode, Build build, double unsafeShare) {
        return switch (mode) {
            case STOP -> new FanFailure.Stop(build.hotEnd().fan().coastDown());
            case SLOW -> new FanFailure.Slow(slowShare * unsafeShare);
            case FADE -> new FanFailure.Fade(fadeDuration);
            case SIGNAL_LOST -> new FanFailure.Healthy();
        };
    }

    /** What happens to the speed as it is reported. */
    FanFailure shown(FailureMode mode, Build build, double unsafeShare) {
        return mode == FailureMode.SIGNAL_LOST ? new FanFailure.Stop(0) : fan(mode, build, unsafeShare);
    }
}
