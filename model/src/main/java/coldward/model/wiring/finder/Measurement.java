package coldward.model.wiring.finder;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.util.OptionalDouble;

/** One reading of a multimeter. Wires are known by whatever the user calls them; only differences matter. */
public sealed interface Measurement {

    /** What was done, in words. */
    String words();

    /**
     * Ohms between two wires, nothing else connected.
     *
     * @param red the wire at the red lead
     * @param black the wire at the black lead
     * @param ohm as shown; empty for over range
     */
    record Ohms(String red, String black, OptionalDouble ohm) implements Measurement {
        public Ohms {
            different(red, black);
            ohm.ifPresent(v -> notNegative("ohms", v, "ohm"));
        }

        /** The same test with what it showed. */
        public Ohms reads(OptionalDouble shown) {
            return new Ohms(red, black, shown);
        }

        @Override
        public String words() {
            return "nothing connected, ohms with red on " + red + " and black on " + black;
        }
    }

    /**
     * Volts at a wire while two wires are fed through a resistor, which keeps a wrong guess harmless.
     *
     * @param plus the wire fed through the resistor
     * @param minus the wire at the supply's minus and at the black lead
     * @param supply V
     * @param resistor ohm, at least 470
     * @param at the wire at the red lead
     * @param volts as shown
     */
    record Fed(String plus, String minus, double supply, double resistor, String at, double volts)
            implements Measurement {
        public Fed {
            different(plus, minus);
            different(at, minus);
            Checks.within("supply", supply, 3, 30, "V");
            Checks.within("resistor", resistor, 470, 100e3, "ohm");
            finite(volts);
        }

        /** The same test with what it showed. */
        public Fed reads(double shown) {
            return new Fed(plus, minus, supply, resistor, at, shown);
        }

        @Override
        public String words() {
            return "%s V through %s ohm to %s, minus to %s: volts from %s to %s"
                    .formatted(Checks.number(supply), Checks.number(resistor), plus, minus, at, minus);
        }
    }

    /**
     * Mean volts of the third wire, pulled up to the supply, with the fan properly fed: only when the wires are settled.
     *
     * @param plus the fan's plus
     * @param minus its minus, at the black lead
     * @param third the wire that tells
     * @param supply V at the fan and at the pull-up: its rated voltage, for a slow rotor half of it
     * @param pullUp ohm from the supply to the third wire
     * @param rotor what it does
     * @param volts as shown, the mean of what is there
     */
    record Third(String plus, String minus, String third, double supply, double pullUp, Rotor rotor, double volts)
            implements Measurement {
        public Third {
            different(plus, minus);
            different(plus, third);
            different(minus, third);
            positive("supply", supply, "V");
            Checks.within("pull-up", pullUp, 2000, 100e3, "ohm");
            finite(volts);
        }

        /** The same test with what it showed. */
        public Third reads(double shown) {
            return new Third(plus, minus, third, supply, pullUp, rotor, shown);
        }

        @Override
        public String words() {
            return "%s V to %s and %s, %s ohm from plus to %s, rotor %s: volts from %s to %s"
                    .formatted(
                            Checks.number(supply),
                            plus,
                            minus,
                            Checks.number(pullUp),
                            third,
                            rotor.words(),
                            third,
                            minus);
        }
    }

    /** What the rotor does during a measurement. */
    enum Rotor {
        /** At rated voltage, nothing touches it. */
        FREE("free"),
        /** Held with a soft stick. */
        HELD("held with a soft stick"),
        /** At about half the rated voltage. */
        SLOW("slow on this half of its rated voltage");

        private final String words;

        Rotor(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }

        /** V to feed the fan for it: all of the rated voltage, or half. */
        public double fed(double rated) {
            return this == SLOW ? rated / 2 : rated;
        }
    }

    private static void different(String one, String other) {
        if (one.equals(other)) {
            throw new InputError("wires", "wires are " + one + " and " + other + " but must be two different ones");
        }
    }

    private static void finite(double volts) {
        Checks.within("volts", volts, -60, 60, "V");
    }
}
