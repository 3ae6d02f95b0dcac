package coldward.proof;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The files that these tests were built from. */
final class Repository {

    private Repository() {}

    /** The folder with the {@code coldward} script in it. */
    static Path root() {
        Path at = Path.of("").toAbsolutePath();
        while (at != null && !Files.isRegularFile(at.resolve(".build/warm-up.yaml"))) {
            at = at.getParent();
        }
        if (at == null) {
            throw new IllegalStateException("the tests must run inside the repository");
        }
        return at;
    }

    /** A file's text. */
    static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The example sheet of the documentation: heron, PLA, titanium neck. */
    static String exampleSheet() {
        return text(root().resolve(".build/warm-up.yaml"));
    }
}
