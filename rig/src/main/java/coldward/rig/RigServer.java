package coldward.rig;

import coldward.quantity.CannotRun;
import coldward.quantity.ColdwardError;
import coldward.quantity.Ticker;
import io.helidon.http.HeaderNames;
import io.helidon.webserver.WebServer;
import io.helidon.webserver.http.ServerRequest;
import io.helidon.webserver.http.ServerResponse;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.List;

/**
 * The rig on HTTP, bound to loopback: what the machines say ({@code GET /heron/fan|heat|job|power}), what they are asked
 * ({@code POST /heron/do/...}), and the person's side ({@code POST /heron/fail/...|mend|work}, {@code GET
 * /heron/truth}). Runs at 1x by the ticker.
 */
public final class RigServer implements AutoCloseable {

    private static final long STEP_NANOS = 50_000_000;
    private static final int LARGEST_PORT = 65_535;
    private static final int LONGEST_BODY = 64 * 1024;
    private static final Duration PATIENCE_AT_END = Duration.ofMillis(200);

    private static final System.Logger LOG = System.getLogger(RigServer.class.getName());

    private final List<RunningPrinter> printers;
    private final RigRoutes routes;
    private final Ticker ticker;
    private final WebServer server;

    // guarded by this
    private Ticker.Pending next;
    private boolean closed;

    private RigServer(List<RunningPrinter> printers, Ticker ticker, int port) {
        this.printers = printers;
        this.routes = new RigRoutes(printers);
        this.ticker = ticker;
        this.server = WebServer.builder()
                .address(InetAddress.getLoopbackAddress())
                .port(port)
                .maxPayloadSize(LONGEST_BODY)
                .shutdownHook(false)
                .shutdownGracePeriod(PATIENCE_AT_END)
                .routing(routing -> routing.any(this::handle))
                .build();
        this.next = ticker.after(STEP_NANOS, this::step);
    }

    /**
     * Opens the rig.
     *
     * @param shop its printers; they belong to the server from now on
     * @param port TCP port on loopback; 0 for any free one
     * @param ticker the clock
     * @throws CannotRun if the port is in use or not allowed
     */
    public static RigServer start(RigShop shop, int port, Ticker ticker) {
        tryPort(port);
        List<RunningPrinter> printers =
                shop.printers().stream().map(p -> new RunningPrinter(p, ticker)).toList();
        RigServer rig = new RigServer(printers, ticker, port);
        try {
            rig.server.start();
        } catch (RuntimeException e) {
            rig.close();
            throw refused(port, e);
        }
        if (!rig.server.isRunning()) {
            rig.close();
            throw new CannotRun("The rig cannot listen on port " + port + " of this computer; choose another port.");
        }
        return rig;
    }

    /** Before the server tries: it would log a stack trace of its own for what is an everyday mistake. */
    private static void tryPort(int port) {
        if (port < 0 || port > LARGEST_PORT) {
            throw new CannotRun("The rig cannot listen on port " + port + ": ports go from 1 to " + LARGEST_PORT
                    + ", 0 for any free one.");
        }
        try (ServerSocket socket = new ServerSocket()) {
            socket.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
        } catch (IOException e) {
            throw refused(port, e);
        }
    }

    private static CannotRun refused(int port, Exception failure) {
        return new CannotRun(
                "The rig cannot listen on port " + port + " of this computer: " + failure.getMessage()
                        + ". Another rig or program may hold it: stop that one, or choose another port.",
                failure);
    }

    /** The port it listens on. */
    public int port() {
        return server.port();
    }

    /** Without a slash at the end, for example {@code http://localhost:7070}. */
    public String url() {
        return "http://localhost:" + port();
    }

    private void step() {
        printers.forEach(RunningPrinter::catchUp);
        synchronized (this) {
            if (!closed) {
                next = ticker.after(STEP_NANOS, this::step);
            }
        }
    }

    private void handle(ServerRequest request, ServerResponse response) {
        RigRoutes.Answer answer;
        try {
            answer = routes.answer(
                    request.prologue().method().text(), request.path().path(), body(request));
        } catch (IOException e) {
            answer = RigRoutes.refusal(400, "The body could not be read: " + e.getMessage());
        } catch (ColdwardError e) {
            LOG.log(
                    System.Logger.Level.ERROR,
                    "the rig could not answer " + request.path().path(),
                    e);
            answer = RigRoutes.refusal(500, "The rig itself failed: " + e.getMessage());
        }
        response.status(answer.status());
        response.header(HeaderNames.CONTENT_TYPE, "application/json");
        response.header(HeaderNames.CACHE_CONTROL, "no-store");
        if (!answer.allowed().isEmpty()) {
            response.header(HeaderNames.ALLOW, answer.allowed());
        }
        response.send(Answers.bytes(answer.json()));
    }

    private static byte[] body(ServerRequest request) throws IOException {
        if (!request.content().hasEntity()) {
            return new byte[0];
        }
        try (InputStream stream = request.content().inputStream()) {
            return stream.readNBytes(LONGEST_BODY);
        }
    }

    /** Stops listening and stepping. Closing twice does nothing more. */
    @Override
    public void close() {
        synchronized (this) {
            closed = true;
            next.close();
        }
        server.stop();
    }
}
