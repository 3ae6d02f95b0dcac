package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.List;

/** A part between boards and fan. It owns its contacts, {@code name.end}; wires lead to them. */
public sealed interface Part {

    /** Unique among boards and parts. */
    String name();

    /** The words behind the dot of its contacts. */
    List<String> ends();

    /** Its contacts. */
    default List<ContactId> contacts() {
        return ends().stream().map(e -> new ContactId(name(), e)).toList();
    }

    /** What it is, in words. */
    String words();

    /** A diode in a wire; current flows from {@code anode} to {@code cathode}, the end with the band. */
    record SeriesDiode(String name, DiodeClass kind) implements Part {
        public SeriesDiode {
            notBlank("part name", name);
        }

        @Override
        public List<String> ends() {
            return List.of("anode", "cathode");
        }

        @Override
        public String words() {
            return "diode";
        }
    }

    /**
     * A resistor, as a rule from a rail to the signal.
     *
     * @param resistance ohm
     * @param tolerance share, one-sided
     */
    record PullUp(String name, double resistance, double tolerance) implements Part {
        public PullUp {
            notBlank("part name", name);
            positive("pull_up resistance", resistance, "ohm");
            within("pull_up tolerance", tolerance, 0, 0.5, "");
        }

        @Override
        public List<String> ends() {
            return List.of("rail", "signal");
        }

        @Override
        public String words() {
            return "pull-up";
        }
    }

    /**
     * A resistor in the signal with a capacitor from its far side to ground.
     *
     * @param resistance ohm from {@code in} to {@code out}
     * @param capacitance F from {@code out} to {@code ground}
     */
    record Filter(String name, double resistance, double capacitance) implements Part {
        public Filter {
            notBlank("part name", name);
            positive("filter resistance", resistance, "ohm");
            positive("filter capacitance", capacitance * 1e9, "nF");
        }

        @Override
        public List<String> ends() {
            return List.of("in", "out", "ground");
        }

        @Override
        public String words() {
            return "filter";
        }
    }

    /**
     * A bipolar transistor that turns the signal round: {@code in} drives its base through a resistor, {@code out} is
     * its collector, {@code ground} its emitter.
     *
     * @param baseResistance ohm
     * @param onAbove V at the base from which it conducts
     * @param gain collector current over base current, at least
     * @param saturation V left across it
     * @param currentLimit A
     */
    record LevelShift(
            String name, double baseResistance, double onAbove, double gain, double saturation, double currentLimit)
            implements Part {
        public LevelShift {
            notBlank("part name", name);
            positive("level_shift base_resistance", baseResistance, "ohm");
            positive("level_shift on_above", onAbove, "V");
            positive("level_shift gain", gain, "");
            positive("level_shift saturation", saturation, "V");
            positive("level_shift current_limit", currentLimit, "A");
        }

        @Override
        public List<String> ends() {
            return List.of("in", "out", "ground");
        }

        @Override
        public String words() {
            return "level shift";
        }
    }

    /**
     * A buck converter: a lower supply made of a higher one.
     *
     * @param voltage V at {@code out}
     * @param tolerance share of it, one-sided
     * @param headroom V that {@code in} must stand above {@code out}
     * @param currentLimit A at {@code out}
     * @param efficiency power out over power in
     */
    record Converter(
            String name, double voltage, double tolerance, double headroom, double currentLimit, double efficiency)
            implements Part {
        public Converter {
            notBlank("part name", name);
            positive("converter voltage", voltage, "V");
            within("converter tolerance", tolerance, 0, 0.5, "");
            notNegative("converter headroom", headroom, "V");
            positive("converter current_limit", currentLimit, "A");
            within("converter efficiency", efficiency, 0.1, 1, "");
        }

        @Override
        public List<String> ends() {
            return List.of("in", "out", "ground");
        }

        @Override
        public String words() {
            return "buck converter";
        }
    }
}
