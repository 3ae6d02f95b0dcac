package coldward.quantity;

import java.util.List;
import java.util.stream.Collectors;

/** Several {@link DataError}s found in one go; the message lists them all, one a line. */
public final class DataErrors extends ColdwardError {

    private static final long serialVersionUID = 1L;

    private final transient List<DataError> all;

    private DataErrors(List<DataError> all) {
        super(all.stream().map(Throwable::getMessage).collect(Collectors.joining("\n")));
        this.all = List.copyOf(all);
    }

    /**
     * What to throw for these findings: the error itself if there is one, all of them together if there are more.
     *
     * @param found at least one
     */
    public static ColdwardError of(List<DataError> found) {
        if (found.isEmpty()) {
            throw new OwnBug("an error was to be raised but no finding was given");
        }
        return found.size() == 1 ? found.getFirst() : new DataErrors(found);
    }

    /** Every finding behind an error of a file: one for a {@link DataError}, several for this class. */
    public static List<DataError> in(ColdwardError error) {
        return switch (error) {
            case DataErrors several -> several.all();
            case DataError one -> List.of(one);
            default -> List.of();
        };
    }

    /** All of them, in the order of the file. */
    public List<DataError> all() {
        return all;
    }
}
