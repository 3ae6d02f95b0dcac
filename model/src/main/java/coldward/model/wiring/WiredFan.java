package coldward.model.wiring;

import static coldward.quantity.Checks.positive;

import coldward.quantity.InputError;
import java.util.List;
import java.util.Optional;

/**
 * The fan as its wires show it. Its contacts are {@code fan.plus}, {@code fan.minus} and, where it has them,
 * {@code fan.third} and {@code fan.control}.
 *
 * @param ratedVoltage V
 * @param lowestVoltage V at which it may run, at most {@code ratedVoltage}
 * @param highestVoltage V that it stands, at least {@code ratedVoltage}
 * @param runningCurrent A at rated voltage
 * @param startingCurrent A at rated voltage from standstill, at least {@code runningCurrent}
 * @param startVoltage V from which it starts, at most {@code ratedVoltage}
 * @param leads how many wires
 * @param third what the third wire says; NONE exactly for two wires
 * @param stage what is behind the third wire; there exactly if there is one
 */
public record WiredFan(
        double ratedVoltage,
        double lowestVoltage,
        double highestVoltage,
        double runningCurrent,
        double startingCurrent,
        double startVoltage,
        Leads leads,
        ThirdWire third,
        Optional<OpenCollector> stage) {

    /** The owner of the fan's contacts. */
    public static final String OWNER = "fan";

    /** The lead that is always at the fan's plus. */
    public static final ContactId PLUS = new ContactId(OWNER, "plus");

    /** The return. */
    public static final ContactId MINUS = new ContactId(OWNER, "minus");

    /** The lead that tells something of the speed. */
    public static final ContactId THIRD = new ContactId(OWNER, "third");

    /** The lead of a four-wire fan that takes the wanted speed. */
    public static final ContactId CONTROL = new ContactId(OWNER, "control");

    /** How many wires a fan has. */
    public enum Leads {
        /** Plus and minus. */
        TWO("two-wire"),
        /** And a third that tells something. */
        THREE("three-wire"),
        /** And a control lead. */
        FOUR("four-wire");

        private final String word;

        Leads(String word) {
            this.word = word;
        }

        /** As on the sheet. */
        public String word() {
            return word;
        }
    }

    /** What a third wire says. */
    public enum ThirdWire {
        /** There is none. */
        NONE("none"),
        /** Pulses, so many per turn. */
        PULSES("pulses"),
        /** A steady level that changes when the rotor is locked. */
        LOCKED_ROTOR("locked-rotor level"),
        /** A steady level that changes below some share of the rated speed. */
        LOW_SPEED("low-speed level");

        private final String word;

        ThirdWire(String word) {
            this.word = word;
        }

        /** As on the sheet. */
        public String word() {
            return word;
        }
    }

    public WiredFan {
        positive("fan rated_voltage", ratedVoltage, "V");
        positive("fan lowest_voltage", lowestVoltage, "V");
        positive("fan highest_voltage", highestVoltage, "V");
        atMost("fan lowest_voltage", lowestVoltage, "rated_voltage", ratedVoltage, "V");
        atMost("fan rated_voltage", ratedVoltage, "highest_voltage", highestVoltage, "V");
        positive("fan running_current", runningCurrent, "A");
        positive("fan starting_current", startingCurrent, "A");
        atMost("fan running_current", runningCurrent, "starting_current", startingCurrent, "A");
        positive("fan start_voltage", startVoltage, "V");
        atMost("fan start_voltage", startVoltage, "rated_voltage", ratedVoltage, "V");
        boolean two = leads == Leads.TWO;
        if (two != (third == ThirdWire.NONE)) {
            throw new InputError(
                    "fan third_wire",
                    "fan third_wire is " + third.word() + " but the fan is a " + leads.word() + " one");
        }
        if (two == stage.isPresent()) {
            throw new InputError(
                    "fan stage", "fan stage must be given exactly if there is a third wire; this is a " + leads.word());
        }
    }

    private static void atMost(String name, double value, String boundName, double bound, String unit) {
        if (value > bound) {
            throw new InputError(
                    name,
                    "%s is %s %s but must be at most %s (%s %s)"
                            .formatted(
                                    name,
                                    coldward.quantity.Checks.number(value),
                                    unit,
                                    boundName,
                                    coldward.quantity.Checks.number(bound),
                                    unit));
        }
    }

    /** Its contacts, plus first. */
    public List<ContactId> contacts() {
        return switch (leads) {
            case TWO -> List.of(PLUS, MINUS);
            case THREE -> List.of(PLUS, MINUS, THIRD);
            case FOUR -> List.of(PLUS, MINUS, THIRD, CONTROL);
        };
    }
}
