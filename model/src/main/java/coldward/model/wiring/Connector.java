package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import coldward.quantity.InputError;
import java.util.List;
import java.util.Optional;

/**
 * A plug and socket over some contacts of one owner.
 *
 * @param name unique
 * @param pitch m from contact to contact
 * @param ratedCurrent A per contact
 * @param contactResistance ohm per contact
 * @param contacts in their order
 * @param touchesFirst the one that touches first when it is plugged in, where it is made longer
 */
public record Connector(
        String name,
        double pitch,
        double ratedCurrent,
        double contactResistance,
        List<ContactId> contacts,
        Optional<ContactId> touchesFirst) {

    /** A contact that is in no connector or gives no value: 20 mohm, the highest after ageing in makers' sheets. */
    public static final double USUAL_CONTACT_OHM = 0.020;

    public Connector {
        notBlank("connector name", name);
        positive("connector pitch", pitch * 1e3, "mm");
        positive("connector rated_current", ratedCurrent, "A");
        notNegative("connector contact_resistance", contactResistance, "ohm");
        contacts = List.copyOf(contacts);
        if (contacts.isEmpty()) {
            throw new InputError("connector contacts", "connector contacts of " + name + " are none but must be some");
        }
        if (touchesFirst.isPresent() && !contacts.contains(touchesFirst.get())) {
            throw new InputError(
                    "connector touches_first",
                    "connector touches_first is %s but %s has %s".formatted(touchesFirst.get(), name, contacts));
        }
    }
}
