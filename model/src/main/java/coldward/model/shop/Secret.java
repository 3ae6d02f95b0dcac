package coldward.model.shop;

import coldward.quantity.InputError;

/**
 * A text that must not be seen: kept out of logs, errors, pages and exports by showing itself as something else.
 *
 * @param value the text itself, not empty
 */
public record Secret(String value) {
    public Secret {
        if (value.isEmpty()) {
            throw new InputError("secret", "secret is empty but must have at least one character");
        }
    }

    @Override
    public String toString() {
        return "(secret)";
    }
}
