package coldward.model.circuit;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import coldward.quantity.Checks;
import coldward.quantity.InputError;
import java.util.Optional;

/** A part between two nodes. Its current is counted from the first node through the part to the second. */
public sealed interface Element {

    /** Unique in the netlist. */
    String name();

    /** The node the current enters by. */
    String from();

    /** The node the current leaves by. */
    String to();

    /**
     * A resistor.
     *
     * @param ohm at the netlist's temperature, above 0
     */
    record Resistor(String name, String from, String to, double ohm) implements Element {
        public Resistor {
            named(name, from, to);
            positive(name + " resistance", ohm, "ohm");
        }
    }

    /**
     * An ideal voltage source; {@code from} is its plus. A source that delivers has a negative current.
     *
     * @param volts over time
     */
    record VoltageSource(String name, String from, String to, Drive volts) implements Element {
        public VoltageSource {
            named(name, from, to);
        }

        /** A constant one. */
        public VoltageSource(String name, String from, String to, double volts) {
            this(name, from, to, Drive.steady(volts));
        }
    }

    /**
     * An ideal current source.
     *
     * @param amperes from {@code from} through the source to {@code to}
     */
    record CurrentSource(String name, String from, String to, double amperes) implements Element {
        public CurrentSource {
            named(name, from, to);
            if (!Double.isFinite(amperes)) {
                throw new InputError(name, name + " current is " + Checks.number(amperes) + " A but must be finite");
            }
        }
    }

    /**
     * A capacitor: open at rest.
     *
     * @param farad above 0
     */
    record Capacitor(String name, String from, String to, double farad) implements Element {
        public Capacitor {
            named(name, from, to);
            positive(name + " capacitance", farad, "F");
        }
    }

    /** A diode; {@code from} is the anode, {@code to} the cathode (the end with the band). */
    record Diode(String name, String from, String to, DiodeModel model) implements Element {
        public Diode {
            named(name, from, to);
        }
    }

    /**
     * A transistor that pulls {@code from} (collector, drain) down to {@code to} (emitter, source).
     *
     * @param model how well it pulls
     * @param on 1 pulls, 0 is open; between them in proportion
     * @param back the path from {@code to} to {@code from} that conducts whether on or off: the body diode of a field-effect
     *     transistor, or the way through the base of a bipolar one with its drive; empty if there is none
     */
    record Stage(String name, String from, String to, StageModel model, Drive on, Optional<DiodeModel> back)
            implements Element {
        public Stage {
            named(name, from, to);
            Checks.within(name + " drive", on.before(), 0, 1, "");
            Checks.within(name + " drive", on.after(), 0, 1, "");
        }
    }

    /**
     * A fan motor seen from its supply, at one working point: a resistance {@code V/I}.
     *
     * @param volts rated, above 0
     * @param amperes running or starting, at rated voltage, above 0
     */
    static Resistor motor(String name, String plus, String minus, double volts, double amperes) {
        positive(name + " voltage", volts, "V");
        positive(name + " current", amperes, "A");
        return new Resistor(name, plus, minus, volts / amperes);
    }

    private static void named(String name, String from, String to) {
        notBlank("element name", name);
        notBlank(name + " first node", from);
        notBlank(name + " second node", to);
    }

    /**
     * The law of a transistor stage: nothing up to an offset, then a resistance, then a current limit,
     * {@code I = x / sqrt(1 + (x/limit)^2)} with {@code x = (V - offset)/resistance}. The offset is rounded off over
     * {@value #ROUNDING} V; without offset it conducts both ways, as a field-effect transistor does.
     *
     * @param offset V that stays however small the current: 0 for a field-effect transistor
     * @param ohm above the offset, above 0
     * @param limit A it passes at most, above 0
     */
    record StageModel(double offset, double ohm, double limit) {
        /** V over which the offset's corner is rounded. */
        public static final double ROUNDING = 0.005;

        public StageModel {
            notNegative("stage offset", offset, "V");
            positive("stage resistance", ohm, "ohm");
            positive("stage limit", limit, "A");
        }

        /**
         * The stage that keeps {@code offset} and has {@code saturation} V across it at {@code amperes}.
         *
         * @param saturation V, above {@code offset}
         * @param amperes at which it was given, above 0 and below {@code limit}
         * @param limit A
         */
        public static StageModel through(double offset, double saturation, double amperes, double limit) {
            positive("stage current", amperes, "A");
            Checks.below("stage current", amperes, limit, "its limit", "A");
            Checks.below("stage offset", offset, saturation, "the saturation voltage", "V");
            double ratio = amperes / limit;
            return new StageModel(offset, (saturation - offset) / amperes * Math.sqrt(1 - ratio * ratio), limit);
        }

        double current(double v) {
            double x = over(v) / ohm;
            return x / Math.sqrt(1 + x / limit * (x / limit));
        }

        double slope(double v) {
            double x = over(v) / ohm;
            double s = 1 + x / limit * (x / limit);
            return overSlope(v) / ohm / (s * Math.sqrt(s));
        }

        private double over(double v) {
            if (offset == 0) {
                return v;
            }
            return ROUNDING * (softplus((v - offset) / ROUNDING) - softplus(-offset / ROUNDING));
        }

        private double overSlope(double v) {
            return offset == 0 ? 1 : 1 / (1 + Math.exp((offset - v) / ROUNDING));
        }

        private static double softplus(double z) {
            return z > 30 ? z : Math.log1p(Math.exp(z));
        }
    }
}
