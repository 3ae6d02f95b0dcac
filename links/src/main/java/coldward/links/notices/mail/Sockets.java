package coldward.links.notices.mail;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import javax.net.SocketFactory;
import javax.net.ssl.SSLSocketFactory;

/**
 * The sockets of one attempt, so that all of them can be closed when its time is over: the mail library's own time limits
 * count single reads and writes, and a server that drips would hold it for ever.
 */
final class Sockets {

    private final Set<Socket> open = ConcurrentHashMap.newKeySet();
    private volatile boolean over;

    /** Closes everything, now and whatever comes. */
    void end() {
        over = true;
        for (Socket socket : open) {
            try {
                socket.close();
            } catch (IOException expected) {
                // it is of no use any more, closed or not; the next one still has to be closed
            }
        }
    }

    private Socket kept(Socket socket) throws IOException {
        open.add(socket);
        if (over) {
            socket.close();
        }
        return socket;
    }

    /** Makes plain sockets. */
    SocketFactory plain() {
        return new Plain();
    }

    /** Makes encrypted ones, or encrypts plain ones. */
    SSLSocketFactory encrypted(SSLSocketFactory by) {
        return new Encrypted(by);
    }

    private final class Plain extends SocketFactory {
        private final SocketFactory by = SocketFactory.getDefault();

        @Override
        public Socket createSocket() throws IOException {
            return kept(by.createSocket());
        }

        @Override
        public Socket createSocket(String host, int port) throws IOException {
            return kept(by.createSocket(host, port));
        }

        @Override
        public Socket createSocket(String host, int port, InetAddress local, int localPort) throws IOException {
            return kept(by.createSocket(host, port, local, localPort));
        }

        @Override
        public Socket createSocket(InetAddress host, int port) throws IOException {
            return kept(by.createSocket(host, port));
        }

        @Override
        public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort) throws IOException {
            return kept(by.createSocket(host, port, local, localPort));
        }
    }

    private final class Encrypted extends SSLSocketFactory {
        private final SSLSocketFactory by;

        Encrypted(SSLSocketFactory by) {
            this.by = by;
        }

        @Override
        public String[] getDefaultCipherSuites() {
            return by.getDefaultCipherSuites();
        }

        @Override
        public String[] getSupportedCipherSuites() {
            return by.getSupportedCipherSuites();
        }

        @Override
        public Socket createSocket() throws IOException {
            return kept(by.createSocket());
        }

        @Override
        public Socket createSocket(Socket plain, String host, int port, boolean closes) throws IOException {
            return kept(by.createSocket(plain, host, port, closes));
        }

        @Override
        public Socket createSocket(String host, int port) throws IOException {
            return kept(by.createSocket(host, port));
        }

        @Override
        public Socket createSocket(String host, int port, InetAddress local, int localPort) throws IOException {
            return kept(by.createSocket(host, port, local, localPort));
        }

        @Override
        public Socket createSocket(InetAddress host, int port) throws IOException {
            return kept(by.createSocket(host, port));
        }

        @Override
        public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort) throws IOException {
            return kept(by.createSocket(host, port, local, localPort));
        }
    }
}
