package coldward.store;

import coldward.quantity.CannotRun;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A shop's state folder, held by this process alone. The lock is the operating system's: it goes with the process,
 * however that ends. The file {@code lock} stays and says who holds it or held it last.
 */
public final class StateFolder implements AutoCloseable {

    private static final String LOCK = "lock";
    private static final String DATABASE = "journal.db";

    /** The history's file: apart, so that writing it can never hold up the journal. */
    static final String HISTORY = "history.db";

    private static final Pattern HOLDER = Pattern.compile("pid (\\d+)\\nsince (\\S+)\\n");

    // POSIX drops a process's lock on a file as soon as the process closes any descriptor of it, so the lock file must
    // not even be opened a second time in this process: this is asked first.
    private static final Set<Path> HELD_HERE = ConcurrentHashMap.newKeySet();

    private final Path path;
    private final FileChannel channel;

    @SuppressWarnings("unused") // held for as long as this object lives
    private final FileLock lock;

    private StateFolder(Path path, FileChannel channel, FileLock lock) {
        this.path = path;
        this.channel = channel;
        this.lock = lock;
    }

    /**
     * Takes the folder, making it if need be.
     *
     * @param folder where the shop's state is kept
     * @return held until closed, or until this process ends in whatever way
     * @throws CannotRun if another holds it (the message names the process and its start), or if the folder cannot be
     *     made or written to
     */
    public static StateFolder open(Path folder) {
        Path real = made(folder);
        if (!HELD_HERE.add(real)) {
            throw held(folder, "this process (pid " + ProcessHandle.current().pid() + ")");
        }
        boolean taken = false;
        try {
            StateFolder opened = take(folder, real);
            taken = true;
            return opened;
        } finally {
            if (!taken) {
                HELD_HERE.remove(real);
            }
        }
    }

    private static Path made(Path folder) {
        try {
            return Files.createDirectories(folder).toRealPath();
        } catch (FileAlreadyExistsException e) {
            throw new CannotRun(
                    "The state folder " + folder + " cannot be made: " + e.getFile()
                            + " is there already and is not a folder. Name another folder under 'state' in the shop file.",
                    e);
        } catch (IOException e) {
            throw new CannotRun(
                    "The state folder " + folder + " cannot be made: " + reason(e)
                            + ". Name a folder that can be written to under 'state' in the shop file.",
                    e);
        }
    }

    private static StateFolder take(Path folder, Path real) {
        Path file = real.resolve(LOCK);
        FileChannel channel;
        try {
            channel = FileChannel.open(
                    file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
        } catch (IOException e) {
            throw new CannotRun(
                    "The state folder " + folder + " cannot be written to: " + reason(e)
                            + ". Its files must belong to the user who runs the watch.",
                    e);
        }
        try {
            FileLock lock = channel.tryLock();
            if (lock == null) {
                throw held(folder, holder(channel));
            }
            StateFolder opened = new StateFolder(real, channel, lock);
            opened.sign();
            return opened;
        } catch (OverlappingFileLockException e) {
            throw closing(
                    channel,
                    held(folder, "this process (pid " + ProcessHandle.current().pid() + ")"));
        } catch (IOException e) {
            throw closing(
                    channel,
                    new CannotRun(
                            "The lock of the state folder " + folder + " cannot be taken: " + reason(e)
                                    + ". A disk may be full, or a network drive may not know locks.",
                            e));
        } catch (CannotRun e) {
            throw closing(channel, e);
        }
    }

    private void sign() throws IOException {
        ProcessHandle self = ProcessHandle.current();
        String since = self.info().startInstant().map(Object::toString).orElse("unknown");
        byte[] text = ("pid " + self.pid() + "\nsince " + since + "\n").getBytes(StandardCharsets.UTF_8);
        channel.truncate(0);
        ByteBuffer bytes = ByteBuffer.wrap(text);
        while (bytes.hasRemaining()) {
            channel.write(bytes, text.length - bytes.remaining());
        }
        channel.force(true);
    }

    private static String holder(FileChannel channel) {
        String text;
        try {
            ByteBuffer bytes = ByteBuffer.allocate(200);
            channel.read(bytes, 0);
            text = new String(bytes.array(), 0, bytes.position(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            return "another process, which its lock file does not name (" + reason(e) + ")";
        }
        Matcher matcher = HOLDER.matcher(text);
        return matcher.matches()
                ? "process " + matcher.group(1) + ", started " + matcher.group(2)
                : "another process, which has not yet written its name";
    }

    private static CannotRun held(Path folder, String holder) {
        return new CannotRun("The state folder " + folder + " is held by " + holder
                + ": one watch per shop. Stop that one first, or name another 'state' in the shop file.");
    }

    private static String reason(IOException e) {
        if (e instanceof FileSystemException f && f.getReason() != null) {
            return f.getFile() + ": " + f.getReason();
        }
        String kind = switch (e) {
            case java.nio.file.AccessDeniedException a -> "not allowed: ";
            case java.nio.file.NoSuchFileException n -> "no such place: ";
            default -> "";
        };
        return kind + e.getMessage();
    }

    private static CannotRun closing(FileChannel channel, CannotRun refusal) {
        try {
            channel.close();
        } catch (IOException e) {
            refusal.addSuppressed(e);
        }
        return refusal;
    }

    /** The folder itself. */
    public Path path() {
        return path;
    }

    /** Where the journal's database is or will be. */
    public Path database() {
        return database(path);
    }

    /** Where a state folder keeps its database. */
    static Path database(Path folder) {
        return folder.resolve(DATABASE);
    }

    /** Gives the folder free. Closing twice does nothing more. */
    @Override
    public void close() {
        if (!channel.isOpen()) {
            return;
        }
        try {
            channel.close();
        } catch (IOException e) {
            throw new CannotRun("The lock of the state folder " + path + " could not be given free: " + reason(e), e);
        } finally {
            HELD_HERE.remove(path);
        }
    }

    /** Its path. */
    @Override
    public String toString() {
        return path.toString();
    }
}
