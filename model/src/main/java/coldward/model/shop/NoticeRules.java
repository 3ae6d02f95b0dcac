package coldward.model.shop;

import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * How people are told.
 *
 * @param channels the ways to them, with unique names; may be none
 * @param repeats how often what nobody acknowledges is said again
 * @param quiet when only danger is said at once
 * @param heartbeat the sign of life, if one goes out
 */
public record NoticeRules(
        List<ChannelSpec> channels, Repeats repeats, Optional<QuietHours> quiet, Optional<Heartbeat> heartbeat) {
    public NoticeRules {
        channels = List.copyOf(channels);
        Set<String> names = new HashSet<>();
        for (ChannelSpec channel : channels) {
            if (!names.add(channel.name())) {
                throw new InputError("notices", "channel " + channel.name() + " is listed twice; names must be unique");
            }
        }
    }

    /** Nobody is told beyond the terminal. */
    public static NoticeRules none() {
        return new NoticeRules(List.of(), Repeats.USUAL, Optional.empty(), Optional.empty());
    }

    /**
     * Repeats of what nobody acknowledges: after {@code first}, then after twice that, and so on up to {@code longest}.
     *
     * @param first s until the first repeat, 1 to 86400
     * @param longest s between two repeats at most, at least {@code first}, to 604800
     * @param most how many repeats, 0 to 100
     */
    public record Repeats(double first, double longest, int most) {

        /** 5 min, doubling to 1 h, ten times (own choice). */
        public static final Repeats USUAL = new Repeats(300, 3600, 10);

        public Repeats {
            within("repeat first", first, 1, 86_400, "s");
            within("repeat longest", longest, first, 604_800, "s");
            within("repeat most", most, 0, 100);
        }

        /**
         * s between a message and the next repeat.
         *
         * @param before repeats so far, 0 or above
         */
        public double pause(int before) {
            return Math.min(longest, first * Math.pow(2, before));
        }
    }

    /**
     * A sign of life: whoever receives it notices when it stays away.
     *
     * @param url where to; never shown
     * @param place scheme, host and port of it, for people
     * @param headers sent with it
     * @param every s, 5 to 86400
     */
    public record Heartbeat(Secret url, String place, Map<String, Secret> headers, double every) {
        public Heartbeat {
            within("heartbeat every", every, 5, 86_400, "s");
            headers = Map.copyOf(headers);
        }
    }
}
