package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import java.util.OptionalDouble;

/**
 * A pair of contacts that feeds a fan.
 *
 * @param name unique on its board
 * @param switching which side is opened to switch it off
 * @param rail the board's rail that feeds it
 * @param plus number of the plus contact
 * @param minus number of the minus contact
 * @param currentLimit A, above 0
 * @param onResistance ohm of the switch while on
 * @param choppedAt Hz at which the supply is chopped to slow the fan; empty if it is on or off only
 */
public record Port(
        String name,
        Switching switching,
        String rail,
        String plus,
        String minus,
        double currentLimit,
        double onResistance,
        OptionalDouble choppedAt) {

    /** Which side a port opens. */
    public enum Switching {
        /** Plus is always live; minus is opened. */
        LOW_SIDE("low-side"),
        /** Minus is always ground; plus is opened. */
        HIGH_SIDE("high-side"),
        /** Always on. */
        FIXED("fixed");

        private final String word;

        Switching(String word) {
            this.word = word;
        }

        /** As on the sheet. */
        public String word() {
            return word;
        }
    }

    public Port {
        notBlank("port name", name);
        notBlank("port rail", rail);
        notBlank("port plus", plus);
        notBlank("port minus", minus);
        positive("port current_limit", currentLimit, "A");
        notNegative("port on_resistance", onResistance, "ohm");
        if (choppedAt.isPresent()) {
            positive("port chopped_at", choppedAt.getAsDouble(), "Hz");
        }
    }
}
