package coldward.links.http;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/** A server down at the socket, that can do everything wrong that a server can. */
final class RawServer implements AutoCloseable {

    /** What is done with one request. */
    @FunctionalInterface
    interface Manner {
        void answer(RawServer server, Request request, OutputStream out, Socket socket) throws IOException;
    }

    record Request(String method, String path, String head, String body) {}

    private final int port;
    private final CountDownLatch ended = new CountDownLatch(1);
    private final Set<Socket> sockets = ConcurrentHashMap.newKeySet();
    private volatile @Nullable ServerSocket listening;
    volatile Manner manner;
    final List<Request> requests = new CopyOnWriteArrayList<>();
    final AtomicInteger open = new AtomicInteger();
    final AtomicInteger mostOpen = new AtomicInteger();

    RawServer(Manner manner) throws IOException {
        this.manner = manner;
        ServerSocket socket = listen(0);
        port = socket.getLocalPort();
    }

    private ServerSocket listen(int at) throws IOException {
        ServerSocket socket = new ServerSocket();
        socket.setReuseAddress(true);
        socket.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), at));
        listening = socket;
        Thread.ofVirtual().start(() -> accept(socket));
        return socket;
    }

    String base() {
        return "http://127.0.0.1:" + port;
    }

    /** Nobody listens any more, and those connected are cut off. */
    void goAway() throws IOException {
        ServerSocket socket = listening;
        if (socket != null) {
            socket.close();
        }
        for (Socket each : sockets) {
            each.close();
        }
    }

    void comeBack() throws IOException {
        listen(port);
    }

    private void accept(ServerSocket server) {
        try {
            while (!server.isClosed()) {
                Socket socket = server.accept();
                sockets.add(socket);
                mostOpen.accumulateAndGet(open.incrementAndGet(), Math::max);
                Thread.ofVirtual().start(() -> serve(socket));
            }
        } catch (IOException e) {
            // closed: that is how it ends
            sockets.removeIf(Socket::isClosed);
        }
    }

    private void serve(Socket socket) {
        try (socket) {
            InputStream in = new BufferedInputStream(socket.getInputStream());
            for (Request request = read(in); request != null; request = read(in)) {
                requests.add(request);
                manner.answer(this, request, socket.getOutputStream(), socket);
            }
        } catch (IOException e) {
            // the other side went away, or this one closed: both are part of the tests
            sockets.remove(socket);
        } finally {
            open.decrementAndGet();
            sockets.remove(socket);
        }
    }

    private static @Nullable Request read(InputStream in) throws IOException {
        StringBuilder head = new StringBuilder();
        while (!head.toString().endsWith("\r\n\r\n")) {
            int c = in.read();
            if (c < 0) {
                return null;
            }
            head.append((char) c);
        }
        String text = head.toString();
        int length = 0;
        for (String line : text.split("\r\n", -1)) {
            if (line.regionMatches(true, 0, "content-length:", 0, 15)) {
                length = Integer.parseInt(line.substring(15).strip());
            }
        }
        String body = new String(in.readNBytes(length), StandardCharsets.UTF_8);
        String[] first = text.split(" ", 3);
        return new Request(first[0], first[1], text, body);
    }

    /** Waits, unless the server ends first. */
    void pause(long millis) throws IOException {
        try {
            if (ended.await(millis, TimeUnit.MILLISECONDS)) {
                throw new IOException("ended");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(e);
        }
    }

    static void send(OutputStream out, String status, String type, String body) throws IOException {
        byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
        out.write(("HTTP/1.1 " + status + "\r\nContent-Type: " + type + "\r\nContent-Length: " + bytes.length
                        + "\r\n\r\n")
                .getBytes(StandardCharsets.US_ASCII));
        out.write(bytes);
        out.flush();
    }

    static Manner json(String body) {
        return (server, request, out, socket) -> send(out, "200 OK", "application/json", body);
    }

    @Override
    public void close() throws IOException {
        ended.countDown();
        goAway();
    }
}
