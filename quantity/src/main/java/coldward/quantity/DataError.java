package coldward.quantity;

/** A file says something that cannot be used. Carries the place, so that a person finds it at once. */
public final class DataError extends ColdwardError {

    private static final long serialVersionUID = 1L;

    private final String file;
    private final int line;
    private final String key;

    /**
     * @param file the file as the user named it
     * @param line the line, from 1; 0 where the whole file is meant
     * @param key the dotted key; empty where none applies
     * @param problem what is wrong with value, limit and unit, and what would be right
     */
    public DataError(String file, int line, String key, String problem) {
        super(place(file, line, key) + ": " + problem);
        this.file = file;
        this.line = line;
        this.key = key;
    }

    private static String place(String file, int line, String key) {
        String at = line > 0 ? file + ":" + line : file;
        return key.isEmpty() ? at : at + ": " + key;
    }

    /** The file as the user named it. */
    public String file() {
        return file;
    }

    /** The line, from 1; 0 where the whole file is meant. */
    public int line() {
        return line;
    }

    /** The dotted key; empty where none applies. */
    public String key() {
        return key;
    }
}
