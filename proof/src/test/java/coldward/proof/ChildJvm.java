package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.Function;

/** A command in a process of its own, with this process's classes and the small memory of {@code coldward watch}. */
final class ChildJvm implements AutoCloseable {

    /** Long enough for a busy machine; nothing waits this long unless it fails. */
    static final long PATIENCE_SECONDS = 90;

    private static final int HARD_KILLED = 128 + 9;

    private final Process process;
    private final LinkedBlockingQueue<Optional<String>> lines = new LinkedBlockingQueue<>();
    private final List<String> told = Collections.synchronizedList(new ArrayList<>());
    private final List<String> complaints = Collections.synchronizedList(new ArrayList<>());
    private final Thread errorReader;

    private ChildJvm(Process process) {
        this.process = process;
        Thread.ofVirtual().start(() -> {
            read(process.getInputStream(), line -> {
                told.add(line);
                lines.add(Optional.of(line));
            });
            lines.add(Optional.empty());
        });
        this.errorReader = Thread.ofVirtual().start(() -> read(process.getErrorStream(), complaints::add));
    }

    /** Starts a command. */
    static ChildJvm start(Object... words) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx96m",
                "-Xss512k",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "--enable-native-access=ALL-UNNAMED",
                "--sun-misc-unsafe-memory-access=allow",
                "-cp",
                classPath(),
                "coldward.app.Main"));
        for (Object word : words) {
            command.add(word.toString());
        }
        try {
            return new ChildJvm(new ProcessBuilder(command).start());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The classes of this process; the test runner may hide them behind a jar of its own. */
    static String classPath() {
        return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    }

    private void read(InputStream stream, Consumer<String> taker) {
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                taker.accept(line);
            }
        } catch (IOException e) {
            complaints.add("(reading ended: " + e.getMessage() + ")");
        }
    }

    /** Waits for the first line, from where the last wait ended, of which something can be made. */
    <T> T await(String what, Function<String, Optional<T>> wanted) {
        long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        try {
            while (true) {
                Optional<String> line = lines.poll(until - System.nanoTime(), TimeUnit.NANOSECONDS);
                if (line == null || line.isEmpty()) {
                    throw new AssertionError("waited for %s in vain%s; it said:%n%s%nand on standard error:%n%s"
                            .formatted(what, line == null ? "" : " (the process ended)", output(), errors()));
                }
                Optional<T> found = wanted.apply(line.get());
                if (found.isPresent()) {
                    return found.get();
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted", e);
        }
    }

    /** Waits for the process to end by itself; returns its exit code. */
    int awaitEnd() {
        try {
            assertThat(process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS))
                    .as("ended; it said:%n%s%s", output(), errors())
                    .isTrue();
            errorReader.join();
            return process.exitValue();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted", e);
        }
    }

    /** Ends it as {@code kill -9} does, at once; returns when it is gone. */
    void killHard() {
        process.destroyForcibly();
        assertThat(awaitEnd()).isEqualTo(HARD_KILLED);
    }

    /** Ends it as Ctrl-C or a service manager does. */
    void stop() {
        // not Process.destroy: that closes its streams under the readers
        process.toHandle().destroy();
        awaitEnd();
    }

    long pid() {
        return process.pid();
    }

    /** Everything it printed so far. */
    String output() {
        return String.join("\n", outputLines());
    }

    /** The same, by lines. */
    List<String> outputLines() {
        synchronized (told) {
            return List.copyOf(told);
        }
    }

    /** Everything it printed to standard error so far. */
    String errors() {
        synchronized (complaints) {
            return String.join("\n", complaints);
        }
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}
