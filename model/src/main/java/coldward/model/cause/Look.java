package coldward.model.cause;

import coldward.quantity.InputError;
import java.util.List;

/** A way of looking at a fan and its reading. Minutes are a judgement: what it costs a person beside the machine. */
public enum Look {
    SHOWN("shown", "rpm", 0, "the speed shown, motors running", List.of()),
    AT_DUTY("at-duty", "rpm", 2, "the speed shown with the fan commanded to", List.of()),
    AT_INTERVAL("at-interval", "rpm", 3, "the speed shown with the pin looked at every", List.of()),
    UNPLUGGED("unplugged", "rpm", 3, "the speed shown with the fan unplugged and the motors running", List.of()),
    MOTORS_STILL("motors-still", "rpm", 1, "the speed shown while all motors stand", List.of()),
    FULL_POWER("full-power", "rpm", 2, "the speed shown with the fan's supply held on", List.of()),
    OTHER_COUNTER(
            "other-counter",
            "rpm",
            6,
            "the speed by a frequency meter on the signal wire at the fan's plug, motors still, pulses per turn as set",
            List.of()),
    STROBE("strobe", "rpm", 5, "the true speed by strobe or by the tone of the blades", List.of()),
    SUPPLY("supply", "V", 4, "the voltage at the fan's plug while it should turn", List.of()),
    AIR("air", "", 1, "the air felt behind the fins", List.of("none", "weak", "usual")),
    HAND("hand", "", 2, "how the blades turn by hand, unpowered and cold", List.of("free", "stiff", "held")),
    THIRD_WIRE(
            "third-wire",
            "",
            4,
            "the third wire at the fan's plug while the fan turns, is slowed by hand, and is held",
            List.of("pulses", "changes-when-held", "changes-when-slowed", "nothing"));

    /** Minutes that every look costs: walking there, pausing the job, opening the head, noting the result. */
    public static final double MINUTES_FOR_ANY = 10;

    private final String key;
    private final String unit;
    private final double minutes;
    private final String words;

    @SuppressWarnings("ImmutableEnumChecker") // every list above is made by List.of
    private final List<String> choices;

    Look(String key, String unit, double minutes, String words, List<String> choices) {
        this.key = key;
        this.unit = unit;
        this.minutes = minutes;
        this.words = words;
        this.choices = choices;
    }

    /** As in options and results. */
    public String key() {
        return key;
    }

    /** rpm or V; empty where the answer is a choice. */
    public String unit() {
        return unit;
    }

    /** What it costs, min. */
    public double minutes() {
        return MINUTES_FOR_ANY + minutes;
    }

    /** As a person reads it; a setting is to follow where there is one. */
    public String words() {
        return words;
    }

    /** The possible answers; empty where the answer is a number. */
    public List<String> choices() {
        return choices;
    }

    /**
     * A choice's number.
     *
     * @param word one of {@link #choices}
     */
    public int choice(String word) {
        int index = choices.indexOf(word);
        if (index < 0) {
            throw new InputError(key, key + " is " + word + " but must be one of " + String.join(", ", choices));
        }
        return index;
    }
}
