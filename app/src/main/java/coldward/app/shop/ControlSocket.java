package coldward.app.shop;

import coldward.app.terminal.Json;
import coldward.quantity.CannotRun;
import coldward.quantity.ColdwardError;
import coldward.watch.Watch;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.Writer;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.Channels;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * A socket in the state folder, for the same user only, over which other commands reach the running watch: one JSON
 * object a line, one back.
 */
public final class ControlSocket implements AutoCloseable {

    private static final String NAME = "control";
    /** The kernel's limit for a socket's path is 108 bytes with its end. */
    private static final int LONGEST_PATH = 100;

    private static final int LONGEST_LINE = 8192;
    private static final long ANSWER_WITHIN = 10;
    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final Path path;
    private final ServerSocketChannel server;
    private final Watch watch;
    private final Map<String, Function<JsonNode, ObjectNode>> requests = new LinkedHashMap<>();

    /**
     * Opens the socket of a state folder and answers on it.
     *
     * @param more answers to further requests, by the word after {@code do}
     */
    ControlSocket(Path state, Watch watch, Map<String, Function<JsonNode, ObjectNode>> more) {
        this.path = pathOf(state);
        this.watch = watch;
        this.requests.putAll(more);
        try {
            // the folder's lock is ours, so a socket that is still there belongs to nobody
            Files.deleteIfExists(path);
            this.server = ServerSocketChannel.open(StandardProtocolFamily.UNIX);
            server.bind(UnixDomainSocketAddress.of(path));
            Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rw-------"));
        } catch (IOException e) {
            throw new CannotRun("cannot open the control socket " + path + ": " + e.getMessage(), e);
        }
        Thread.ofVirtual().name("control").start(this::accept);
    }

    /** Where the socket of a state folder is: in it, or for a very long path in the folder for temporary files. */
    static Path pathOf(Path state) {
        Path inside = state.toAbsolutePath().normalize().resolve(NAME);
        if (inside.toString().getBytes(StandardCharsets.UTF_8).length <= LONGEST_PATH) {
            return inside;
        }
        String name = "coldward-%08x.control".formatted(inside.toString().hashCode());
        return Path.of(System.getProperty("java.io.tmpdir", "/tmp"), name);
    }

    /**
     * Asks the watch that runs on a state folder.
     *
     * @throws CannotRun if none runs or it does not answer
     */
    public static JsonNode ask(Path state, ObjectNode request) {
        Path path = pathOf(state);
        try (SocketChannel channel = SocketChannel.open(UnixDomainSocketAddress.of(path));
                Writer out = Channels.newWriter(channel, StandardCharsets.UTF_8);
                BufferedReader in = new BufferedReader(Channels.newReader(channel, StandardCharsets.UTF_8))) {
            out.write(Json.compact(request) + "\n");
            out.flush();
            String line = in.readLine();
            if (line == null) {
                throw new CannotRun("the watch on " + state + " closed the connection without an answer");
            }
            return JSON.readTree(line);
        } catch (IOException e) {
            throw new CannotRun(
                    "no watch runs on " + state + " (" + e.getMessage() + "); start it with coldward watch", e);
        }
    }

    private void accept() {
        while (server.isOpen()) {
            try {
                SocketChannel channel = server.accept();
                Thread.ofVirtual().name("control-answer").start(() -> serve(channel));
            } catch (IOException e) {
                // closed: the watch ends
                return;
            }
        }
    }

    private void serve(SocketChannel channel) {
        try (channel;
                BufferedReader in = new BufferedReader(Channels.newReader(channel, StandardCharsets.UTF_8));
                Writer out = Channels.newWriter(channel, StandardCharsets.UTF_8)) {
            char[] buffer = new char[LONGEST_LINE];
            int length = 0;
            while (length < buffer.length) {
                int c = in.read();
                if (c < 0 || c == '\n') {
                    break;
                }
                buffer[length++] = (char) c;
            }
            out.write(Json.compact(answer(new String(buffer, 0, length))) + "\n");
            out.flush();
        } catch (IOException e) {
            // the asker went away; nothing of the watch depends on it
        }
    }

    private ObjectNode answer(String line) {
        ObjectNode answer = Json.object();
        try {
            JsonNode request = JSON.readTree(line);
            String what = request.path("do").asString("");
            Function<JsonNode, ObjectNode> other = requests.get(what);
            if (other != null) {
                return other.apply(request);
            }
            if (!what.equals("release")) {
                return answer.put(
                        "error",
                        "unknown request '" + what + "'; known are: release, " + String.join(", ", requests.keySet()));
            }
            String printer = request.path("printer").asString("");
            boolean released = watch.release(
                            printer,
                            request.path("name").asString(""),
                            request.path("reason").asString(""))
                    .toCompletableFuture()
                    .get(ANSWER_WITHIN, TimeUnit.SECONDS);
            return answer.put("printer", printer).put("released", released);
        } catch (JacksonException e) {
            return answer.put("error", "not a JSON object: " + e.getOriginalMessage());
        } catch (ColdwardError e) {
            return answer.put("error", e.getMessage());
        } catch (ExecutionException | TimeoutException e) {
            return answer.put("error", "the watch did not release in time: " + e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return answer.put("error", "interrupted");
        }
    }

    @Override
    public void close() {
        try {
            server.close();
            Files.deleteIfExists(path);
        } catch (IOException e) {
            throw new CannotRun("cannot close the control socket " + path + ": " + e.getMessage(), e);
        }
    }
}
