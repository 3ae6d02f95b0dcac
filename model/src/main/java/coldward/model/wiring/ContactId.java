package coldward.model.wiring;

import coldward.quantity.InputError;

/**
 * One contact, written {@code owner.number}: {@code main.3}, {@code fan.plus}, {@code d1.anode}.
 *
 * @param owner a board, a part, or {@code fan}
 * @param number the number or word beside the contact
 */
public record ContactId(String owner, String number) implements Comparable<ContactId> {

    /** What owner and number may consist of. */
    public static final String PATTERN = "[A-Za-z0-9][A-Za-z0-9_+-]{0,23}";

    public ContactId {
        if (!owner.matches(PATTERN) || !number.matches(PATTERN)) {
            throw new InputError(
                    "contact",
                    "contact is " + owner + "." + number
                            + " but must be an owner and a number of letters, digits, _ + or -, for example main.3");
        }
    }

    /**
     * Reads {@code owner.number}.
     *
     * @throws InputError if it is not of that form
     */
    public static ContactId parse(String text) {
        int dot = text.indexOf('.');
        if (dot <= 0) {
            throw new InputError(
                    "contact", "contact is " + text + " but must be owner and number, for example main.3 or fan.plus");
        }
        return new ContactId(text.substring(0, dot), text.substring(dot + 1));
    }

    @Override
    public int compareTo(ContactId other) {
        int byOwner = owner.compareTo(other.owner);
        return byOwner != 0 ? byOwner : number.compareTo(other.number);
    }

    @Override
    public String toString() {
        return owner + "." + number;
    }
}
