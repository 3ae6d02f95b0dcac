package coldward.app.terminal;

import coldward.quantity.CannotRun;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes files whole or not at all. */
public final class WholeFile {

    private WholeFile() {}

    /** Writes a text through a temporary file in the same folder, so that a full disk leaves the old one as it was. */
    public static void write(Path file, String text) {
        Path folder = file.toAbsolutePath().getParent();
        if (folder == null) {
            throw new CannotRun("cannot write " + file + ": it has no folder");
        }
        if (!Files.isDirectory(folder)) {
            throw new CannotRun("cannot write " + file + ": there is no folder " + folder);
        }
        try {
            Path part = Files.createTempFile(folder, "." + file.getFileName(), ".part");
            try {
                Files.writeString(part, text);
                Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new CannotRun("cannot write " + file + ": " + e.getMessage(), e);
        }
    }
}
