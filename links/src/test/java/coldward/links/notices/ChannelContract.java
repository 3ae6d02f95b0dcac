package coldward.links.notices;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.quantity.Ticker;
import coldward.watch.Notice;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.notices.Message;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.List;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What every channel owes the board: it returns at once, ends within its time, says why, and shows no secret. */
public abstract class ChannelContract {

    /** Seeded wherever a secret belongs; must turn up nowhere. */
    protected static final String MARKER = "marker-c0ffee-4711";

    /** s; the channels under test are given this limit. */
    protected static final double LIMIT = 0.8;

    private final ScheduledThreadPoolExecutor executor = new ScheduledThreadPoolExecutor(2);

    /** The computer's clock, for tests on real sockets. */
    protected final Ticker ticker = new Ticker() {
        @Override
        public long wallMillis() {
            return System.currentTimeMillis();
        }

        @Override
        public long nanos() {
            return System.nanoTime();
        }

        @Override
        public Pending after(long delayNanos, Runnable task) {
            var later = executor.schedule(task, delayNanos, TimeUnit.NANOSECONDS);
            return () -> later.cancel(false);
        }
    };

    /** A channel to a port of this computer, with the marker as every secret. */
    protected abstract Channel channelTo(int port) throws IOException;

    /** Says no for good, in the channel's protocol. */
    protected abstract BadServer.Manner refusing();

    /** The beginning of a right answer, for dripping. */
    protected abstract String beginning();

    @AfterEach
    void endTicker() {
        executor.shutdownNow();
    }

    protected static Notice trip() {
        return new Notice(
                1_795_600_000_000L,
                List.of("heron"),
                Notice.Kind.TRIP,
                "heron: 3 reports in a row below 5200 rpm, the last 0 rpm",
                "[hold, heater-off] requested",
                "leave the printer alone until the response is confirmed");
    }

    protected static Message message() {
        return Message.of("id-1", "brook lane", trip());
    }

    /** Sends and waits. */
    protected Outcome send(Channel channel) throws Exception {
        return send(channel, message());
    }

    protected Outcome send(Channel channel, Message message) throws Exception {
        Outcome said = channel.send(message).toCompletableFuture().get(20, TimeUnit.SECONDS);
        assertThat(said.toString()).doesNotContain(MARKER);
        assertThat(channel.toString()).doesNotContain(MARKER);
        return said;
    }

    private Outcome against(BadServer.Manner manner) throws Exception {
        try (BadServer server = new BadServer(manner);
                Channel channel = channelTo(server.port())) {
            return send(channel);
        }
    }

    @Test
    void a_refusal_is_told_as_one() throws Exception {
        assertThat(against(refusing())).isInstanceOf(Outcome.Refused.class);
    }

    @Test
    void a_server_that_says_nothing_is_given_up() throws Exception {
        try (BadServer server = new BadServer(BadServer.silent());
                Channel channel = channelTo(server.port())) {
            var outcome = channel.send(message()).toCompletableFuture();
            assertThat(outcome).as("the caller does not wait").isNotDone();
            assertThat(outcome.get(20, TimeUnit.SECONDS)).isInstanceOf(Outcome.Failed.class);
        }
    }

    @Test
    void a_slow_drip_is_given_up() throws Exception {
        assertThat(against(BadServer.dripping(beginning(), 100))).isInstanceOf(Outcome.Failed.class);
    }

    @Test
    void garbage_is_a_failure() throws Exception {
        assertThat(against(BadServer.garbage())).isInstanceOf(Outcome.Failed.class);
    }

    @Test
    void a_connection_that_breaks_at_once_is_a_failure() throws Exception {
        assertThat(against((server, in, out) -> {})).isInstanceOf(Outcome.Failed.class);
    }

    @Test
    void nobody_there_is_a_failure_and_another_attempt_may_do() throws Exception {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        try (Channel channel = channelTo(port)) {
            assertThat(send(channel)).isInstanceOf(Outcome.Failed.class);
            assertThat(send(channel)).isInstanceOf(Outcome.Failed.class);
        }
    }
}
