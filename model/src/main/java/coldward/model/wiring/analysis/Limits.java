package coldward.model.wiring.analysis;

import coldward.model.circuit.DiodeModel;

/** What the analysis holds things against where the description gives no limit, and what it assumes inside parts. */
final class Limits {

    /**
     * A that a pin's clamp or a rail takes without harm whatever its data sheet allows: what a small diode leaks when hot
     * (common practice, no source).
     */
    static final double NOTHING_A = 50e-6;

    /** V by which a diode's leakage may lift the input (common practice, no source). */
    static final double LEAK_LIFT_V = 0.3;

    /** V of noise to expect on a signal beside motor wires (common practice, no source). */
    static final double MARGIN_V = 0.1;

    /** Share of the rated voltage from which a fan may creep or hum (common practice, no source). */
    static final double CREEP_SHARE = 0.1;

    /** Hz of a chopped supply up to which fans without control wire were seen to run (makers' notes: 0.5 to 8 kHz). */
    static final double CHOPPED_UP_TO_HZ = 8000;

    /** V above its supply that a tolerant pin stands with its pull-up on (STM32F103 data sheet, Table 49 notes). */
    static final double ABOVE_SUPPLY_WITH_PULL_UP_V = 0.3;

    /** V of rounding: nothing is a fault by less. */
    static final double ROUNDING_V = 1e-3;

    /** Ohm of an opened switch: a fraction of a microampere at 24 V (common practice, no source). */
    static final double OPEN_OHM = 1e8;

    /** Ohm inside a board between a contact and what it is joined to. */
    static final double JOINT_OHM = 1e-3;

    /** A stage sinks more than it may before it limits by itself: this many times (common practice, no source). */
    static final double STAGE_GIVES_UP = 3;

    /** An input's clamp: 0.6 to 0.75 V at 0.1 to 3 mA, silicon (common practice, no source). */
    static final DiodeModel CLAMP = new DiodeModel(1e-14, 1.05, 20, 1.11, 3, 0, 1, 10);

    /** The way back through a stage: the body or collector-base diode (common practice, no source). */
    static final DiodeModel BACK = new DiodeModel(1e-12, 1.2, 5, 1.11, 3, 0, 1, 10);

    /** Saturation current per A at the base voltage from which a level shift conducts. */
    static final double BASE_AT_A = 1e-4;

    private Limits() {}
}
