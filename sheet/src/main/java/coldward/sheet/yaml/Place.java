package coldward.sheet.yaml;

import coldward.quantity.DataError;

/**
 * Where something stands.
 *
 * @param file as the user named it
 * @param line from 1; 0 where the whole file is meant
 * @param column from 1; 0 where the whole file is meant
 * @param start offset of the first character in the text
 * @param end offset behind the last character
 */
public record Place(String file, int line, int column, int start, int end) {

    /** The whole file. */
    public static Place of(String file) {
        return new Place(file, 0, 0, 0, 0);
    }

    /** An error that points here. */
    public DataError error(String key, String problem) {
        return new DataError(file, line, key, problem);
    }
}
