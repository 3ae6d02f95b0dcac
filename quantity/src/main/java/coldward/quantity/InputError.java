package coldward.quantity;

/** A caller passed a value outside what a function or record accepts: name, value, bound and unit are in the message. */
public final class InputError extends ColdwardError {

    private static final long serialVersionUID = 1L;

    private final String name;

    /**
     * @param name the argument's name
     * @param message the whole sentence, with value, bound and unit
     */
    public InputError(String name, String message) {
        super(message);
        this.name = name;
    }

    /** The argument's name, so that a reader of a file can point at the key it came from. */
    public String name() {
        return name;
    }
}
