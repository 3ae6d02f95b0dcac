package coldward.links.http;

import coldward.model.shop.LinkSpec;
import coldward.quantity.Ticker;
import coldward.watch.Link;
import java.net.http.HttpClient;
import java.time.Duration;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/**
 * The HTTP links of a shop. They share one client: one selector thread and a pool of connections, whatever the number
 * of printers. Redirects are not followed and no proxy is used: a machine that sends elsewhere is misconfigured, and a
 * command that ends up elsewhere is worse than none.
 */
public final class HttpLinks implements AutoCloseable {

    /** Longest for a connection to be made; the exchange's own deadline is usually much shorter. */
    private static final Duration CONNECT = Duration.ofSeconds(10);

    private final ExecutorService threads;
    private final HttpClient client;
    private final Ticker ticker;

    /** @param ticker the clock; its tasks must be able to run while others wait */
    public HttpLinks(Ticker ticker) {
        this.ticker = ticker;
        threads = Executors.newVirtualThreadPerTaskExecutor();
        client = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .followRedirects(HttpClient.Redirect.NEVER)
                .proxy(HttpClient.Builder.NO_PROXY)
                .connectTimeout(CONNECT)
                .executor(threads)
                .build();
    }

    /**
     * The link to one machine, not yet started.
     *
     * @throws coldward.quantity.InputError if base, paths, pointers, methods or headers cannot be used
     */
    public Link link(LinkSpec.Http spec) {
        return new HttpLink(spec, client, ticker);
    }

    /** Ends everything at once, links still open included. */
    @Override
    public void close() {
        client.shutdownNow();
        threads.shutdownNow();
    }
}
