package coldward.model.wiring;

import static coldward.quantity.Checks.notBlank;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * By which names a board's contact goes, and how it was settled which contact it is.
 *
 * @param contact of a board
 * @param onBoard printed beside it
 * @param inDrawing in the board's drawing
 * @param inSettings in the machine's settings
 * @param settledBy the test at the bench that settled it
 */
public record ContactNames(
        ContactId contact,
        Optional<String> onBoard,
        Optional<String> inDrawing,
        Optional<String> inSettings,
        Optional<BenchTest> settledBy) {

    /**
     * A test at the bench.
     *
     * @param test what was done, for example buzzed out, or switched port by port
     * @param found the port, input or rail of the board that was found on this contact
     * @param date when, as written; empty if not noted
     */
    public record BenchTest(String test, String found, Optional<String> date) {
        public BenchTest {
            notBlank("names test", test);
            notBlank("names found", found);
        }
    }

    /** The names there are: on the board, in the drawing, in the settings. */
    public List<String> given() {
        return Stream.of(onBoard, inDrawing, inSettings)
                .flatMap(Optional::stream)
                .toList();
    }

    /** True if all names that are there are one, whatever their case, blanks, dashes and underscores. */
    public boolean agree() {
        return given().stream()
                        .map(n -> n.toLowerCase(Locale.ROOT).replaceAll("[\\s_-]", ""))
                        .distinct()
                        .count()
                <= 1;
    }
}
