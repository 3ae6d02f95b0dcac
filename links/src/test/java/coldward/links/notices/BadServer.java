package coldward.links.notices;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** A server down at the socket, whatever the protocol, that can do everything wrong. */
public final class BadServer implements AutoCloseable {

    /** What is done with one connection. */
    @FunctionalInterface
    public interface Manner {
        void serve(BadServer server, BufferedReader in, OutputStream out) throws IOException;
    }

    private final ServerSocket listening;
    private final CountDownLatch ended = new CountDownLatch(1);
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();

    public BadServer(Manner manner) throws IOException {
        listening = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        Thread.ofVirtual().start(() -> {
            try {
                while (!listening.isClosed()) {
                    Socket socket = listening.accept();
                    sockets.add(socket);
                    Thread.ofVirtual().start(() -> serve(socket, manner));
                }
            } catch (IOException e) {
                // closed: that is how it ends
                ended.countDown();
            }
        });
    }

    private void serve(Socket socket, Manner manner) {
        try (socket) {
            manner.serve(
                    this,
                    new BufferedReader(new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII)),
                    socket.getOutputStream());
        } catch (IOException e) {
            // the other side went away: part of the tests
            sockets.remove(socket);
        }
    }

    public int port() {
        return listening.getLocalPort();
    }

    /** Waits, unless the server ends first. */
    public void pause(long millis) throws IOException {
        try {
            if (ended.await(millis, TimeUnit.MILLISECONDS)) {
                throw new IOException("ended");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(e);
        }
    }

    /** Says nothing at all. */
    public static Manner silent() {
        return (server, in, out) -> server.pause(60_000);
    }

    /** Says a text, one byte at a time. */
    public static Manner dripping(String text, long millis) {
        return (server, in, out) -> {
            for (byte each : text.getBytes(StandardCharsets.US_ASCII)) {
                out.write(each);
                out.flush();
                server.pause(millis);
            }
        };
    }

    /** Says what belongs to no protocol and goes. */
    public static Manner garbage() {
        return (server, in, out) -> {
            out.write("\u0001\u0002fan? 7980 rpm\u0000\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
            out.flush();
            server.pause(100);
        };
    }

    @Override
    public void close() throws IOException {
        listening.close();
        for (Socket each : sockets) {
            each.close();
        }
    }
}
