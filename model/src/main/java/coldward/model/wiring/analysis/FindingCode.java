package coldward.model.wiring.analysis;

import static coldward.model.wiring.analysis.Severity.ERROR;
import static coldward.model.wiring.analysis.Severity.NOTE;
import static coldward.model.wiring.analysis.Severity.WARNING;

/**
 * Every finding there is, in this one place. A code is never reused for something else: one that is given up stays out.
 * W1: the signal at the input. W2: diode and back-feed. W3: supply. W4: contacts, names and hands. W9: no answer.
 */
public enum FindingCode {
    /** The low level at the input is above the highest voltage it surely takes for low. */
    LOW_LEVEL_TOO_HIGH("W101", ERROR, 3, "low level too high"),
    /** The high level at the input is below the lowest voltage it surely takes for high. */
    HIGH_LEVEL_TOO_LOW("W102", ERROR, 3, "high level too low"),
    /** Nothing lifts the open collector: the input floats when the stage is open. */
    NOTHING_PULLS_UP("W103", ERROR, 3, "nothing pulls the signal up"),
    /** The input is lifted above the highest voltage it stands. */
    INPUT_VOLTAGE_TOO_HIGH("W104", ERROR, 1, "input above its highest voltage"),
    /** Current is driven into the input through its clamps, above what it stands. */
    CURRENT_INTO_INPUT("W105", ERROR, 1, "current driven into the input"),
    /** A tolerant input whose internal pull-up is on: it then stands no more than its own supply. */
    TOLERANT_INPUT_WITH_PULL_UP("W106", ERROR, 1, "internal pull-up on in a tolerant input"),
    /** The fan's tachometer stage sinks more than it may. */
    STAGE_CURRENT_TOO_HIGH("W107", ERROR, 1, "tachometer stage overloaded"),
    /** The open tachometer stage is pulled higher than it stands. */
    STAGE_VOLTAGE_TOO_HIGH("W108", ERROR, 1, "tachometer stage pulled too high"),
    /** An edge takes longer to cross the threshold than the shortest half-pulse at top speed. */
    EDGE_TOO_SLOW("W109", ERROR, 3, "edges too slow for the top speed"),
    /** A level is right in every corner, by less than the noise one has to expect. */
    MARGIN_THIN("W110", WARNING, 5, "thin noise margin"),

    /** With the port off, current flows from the fan's supply through the tachometer stage into the input's side. */
    BACK_FEED("W201", ERROR, 1, "back-feed through the signal wire"),
    /** With the port off, the fan still has its start voltage. */
    FAN_KEEPS_TURNING("W202", ERROR, 2, "fan keeps turning when switched off"),
    /** With the port off, the fan has a voltage that lets it creep or hum. */
    FAN_CREEPS("W203", WARNING, 4, "fan not quite off"),
    /** The series diode points the wrong way: the fan cannot pull the input low. */
    DIODE_REVERSED("W204", ERROR, 2, "diode the wrong way round"),
    /** The diode is there and the right way round, but leaks enough to lift the input. */
    DIODE_LEAKS("W205", ERROR, 2, "diode leaks too much"),
    /** More reverse voltage across the diode than it stands. */
    DIODE_VOLTAGE_TOO_HIGH("W206", ERROR, 1, "diode beyond its reverse voltage"),
    /** More current through the diode than it stands. */
    DIODE_CURRENT_TOO_HIGH("W207", ERROR, 1, "diode beyond its current"),

    /** The rail is above the fan's voltage range. */
    RAIL_ABOVE_FAN("W301", ERROR, 0, "rail too high for the fan"),
    /** The rail is below the fan's voltage range. */
    RAIL_BELOW_FAN("W302", ERROR, 2, "rail too low for the fan"),
    /** The voltage left at the starting fan is below its start voltage. */
    TOO_LITTLE_TO_START("W303", ERROR, 2, "too little voltage to start"),
    /** The voltage left at the running fan is below its range. */
    DROP_TOO_LARGE("W304", WARNING, 4, "voltage drop too large"),
    /** The loads of a rail together draw more than it gives. */
    RAIL_OVERLOADED("W305", ERROR, 1, "rail overloaded"),
    /** A port carries more than it may. */
    PORT_OVERLOADED("W306", ERROR, 1, "port overloaded"),
    /** A contact carries more than its rating. */
    CONTACT_OVERLOADED("W307", ERROR, 1, "contact above its rating"),
    /** The supply of a fan without control wire is chopped fast. */
    SUPPLY_CHOPPED_FAST("W308", ERROR, 2, "supply chopped too fast for this fan"),
    /** The supply is chopped slowly: pulses come only while it is on. */
    SUPPLY_CHOPPED("W309", WARNING, 5, "chopped supply chops the pulses"),

    /** One contact holds more than one wire. */
    CONTACT_USED_TWICE("W401", ERROR, 1, "contact used twice"),
    /** Board, drawing and settings name a contact differently, and no bench test has settled it. */
    NAMES_DISAGREE("W402", ERROR, 3, "names disagree, not settled"),
    /** Names differ, and a bench test has settled which contact it is. */
    NAMES_SETTLED("W403", NOTE, 8, "names disagree, settled by test"),
    /** The input is taken by something else. */
    INPUT_NOT_FREE("W404", ERROR, 2, "input not free"),
    /** Plugged in live, plus and signal can touch before minus and put the rail on the input. */
    PLUG_ORDER("W405", WARNING, 4, "plus and signal touch first"),
    /** A contact of the fan that must be connected leads nowhere. */
    NOT_CONNECTED("W406", ERROR, 2, "not connected"),

    /** The circuit of a state could not be solved, so nothing is known of it. */
    NOT_SOLVED("W901", ERROR, 6, "state not solved");

    private final String code;
    private final Severity severity;
    private final int harm;
    private final String title;

    FindingCode(String code, Severity severity, int harm, String title) {
        this.code = code;
        this.severity = severity;
        this.harm = harm;
        this.title = title;
    }

    /** The stable code, {@code W101}. */
    public String code() {
        return code;
    }

    /** How much it matters. */
    public Severity severity() {
        return severity;
    }

    /** Order within a severity: 0 destroys at once, higher numbers hurt less or later. */
    public int harm() {
        return harm;
    }

    /** A few words for lists and the drawing. */
    public String title() {
        return title;
    }
}
