package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import java.util.List;

/**
 * A supply rail of a board.
 *
 * @param name unique on its board
 * @param voltage V, above 0
 * @param tolerance share of the voltage, one-sided, 0 to 0.5
 * @param currentLimit A that it gives at most, above 0
 * @param otherLoad A that everything not described here draws from it
 * @param contacts numbers of the contacts on which it is brought out; may be none
 */
public record Rail(
        String name, double voltage, double tolerance, double currentLimit, double otherLoad, List<String> contacts) {
    public Rail {
        notBlank("rail name", name);
        positive("rail voltage", voltage, "V");
        within("rail tolerance", tolerance, 0, 0.5, "");
        positive("rail current_limit", currentLimit, "A");
        notNegative("rail other_load", otherLoad, "A");
        contacts = List.copyOf(contacts);
    }
}
