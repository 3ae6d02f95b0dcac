package coldward.links.notices.mail;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.links.notices.BadServer;
import coldward.links.notices.ChannelContract;
import coldward.model.shop.ChannelSpec;
import coldward.model.shop.ChannelSpec.Security;
import coldward.model.shop.Secret;
import coldward.watch.Notice;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.notices.Message;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class MailTest extends ChannelContract {

    private final Mails mails = new Mails(ticker, ZoneOffset.UTC);

    @AfterEach
    void end() {
        mails.close();
    }

    private Channel channel(int port, Security security, Optional<String> user, double limit, String... to) {
        return mails.channel(new ChannelSpec.Mail(
                "post",
                "127.0.0.1",
                port,
                security,
                user,
                user.map(u -> new Secret(MARKER)),
                "shop@example.org",
                List.of(to),
                limit));
    }

    @Override
    protected Channel channelTo(int port) {
        return channel(port, Security.NONE, Optional.of("shop"), LIMIT, "ada@example.org");
    }

    /** Greets and then refuses the sender for good (RFC 5321 section 4.2.3: 550). */
    @Override
    protected BadServer.Manner refusing() {
        return (server, in, out) -> {
            say(out, "220 here");
            for (String line = in.readLine(); line != null; line = in.readLine()) {
                if (line.startsWith("EHLO")) {
                    say(out, "250-here\r\n250 AUTH PLAIN LOGIN");
                } else if (line.startsWith("AUTH")) {
                    say(out, "535 " + line + " is wrong");
                } else {
                    say(out, "250 ok");
                }
            }
        };
    }

    private static void say(java.io.OutputStream out, String text) throws java.io.IOException {
        out.write((text + "\r\n").getBytes(StandardCharsets.US_ASCII));
        out.flush();
    }

    @Override
    protected String beginning() {
        return "220 " + "here and now ".repeat(20);
    }

    private static GreenMail server(String protocol) {
        GreenMail server = new GreenMail(new ServerSetup(0, "127.0.0.1", protocol));
        server.setUser("shop@example.org", "shop", MARKER);
        server.start();
        return server;
    }

    @Test
    void is_delivered_to_everyone_and_says_the_four_things() throws Exception {
        GreenMail server = server("smtp");
        try (Channel channel = channel(
                server.getSmtp().getPort(),
                Security.NONE,
                Optional.of("shop"),
                5,
                "ada@example.org",
                "ben@example.org")) {
            assertThat(send(channel)).isInstanceOf(Outcome.Delivered.class);
            MimeMessage[] got = server.getReceivedMessages();
            assertThat(got).hasSize(2);
            MimeMessage mail = got[0];
            assertThat(mail.getSubject()).startsWith("DANGER brook lane: heron: 3 reports");
            assertThat(mail.getMessageID()).isEqualTo("<id-1@example.org>");
            assertThat(mail.getHeader("Auto-Submitted")).containsExactly("auto-generated");
            assertThat(mail.getHeader("Importance")).containsExactly("high");
            // RFC 5322 section 3.3; its full form is that of RFC 1123
            assertThat(Instant.from(DateTimeFormatter.RFC_1123_DATE_TIME.parse(mail.getHeader("Date")[0])))
                    .isBetween(Instant.parse("2020-01-01T00:00:00Z"), Instant.parse("2100-01-01T00:00:00Z"));
            String text = GreenMailUtil.getBody(mail);
            assertThat(text)
                    .contains("Printer:  heron", "Happened: heron: 3 reports", "Done:     [hold", "Next:     leave")
                    .contains("coldward acknowledge SHOP heron --name YOU")
                    .doesNotContain(MARKER);
            Message repeat = new Message("id-1-1", "brook lane", List.of(trip()), 1, Optional.of("id-1"), false);
            assertThat(send(channel, repeat)).isInstanceOf(Outcome.Delivered.class);
            int repeats = 0;
            for (MimeMessage one : server.getReceivedMessages()) {
                if (one.getHeader("In-Reply-To") != null) {
                    repeats++;
                    assertThat(one.getHeader("In-Reply-To")).containsExactly("<id-1@example.org>");
                    assertThat(one.getSubject()).endsWith("(repeat 1)");
                }
            }
            assertThat(repeats).isEqualTo(2);
        } finally {
            server.stop();
        }
    }

    @Test
    void a_summary_has_every_notice() throws Exception {
        GreenMail server = server("smtp");
        try (Channel channel =
                channel(server.getSmtp().getPort(), Security.NONE, Optional.empty(), 5, "ada@example.org")) {
            Notice other = new Notice(
                    0, List.of("robin"), Notice.Kind.BYPASS_OVER, "robin: the bypass is over\r\nBcc: x@y", "d", "n");
            Message summary = new Message("s-1", "brook lane", List.of(trip(), other), 0, Optional.empty(), false);
            assertThat(send(channel, summary)).isInstanceOf(Outcome.Delivered.class);
            MimeMessage mail = server.getReceivedMessages()[0];
            assertThat(mail.getSubject()).isEqualTo("DANGER brook lane: 2 messages from the quiet hours");
            assertThat(GreenMailUtil.getBody(mail)).contains("heron", "robin: the bypass is over  Bcc: x@y");
        } finally {
            server.stop();
        }
    }

    /** RFC 3207 section 4.1: a client that wants privacy must not go on without it. */
    @Test
    void with_starttls_nothing_goes_out_in_the_open() throws Exception {
        List<String> heard = new CopyOnWriteArrayList<>();
        try (BadServer plain = new BadServer((server, in, out) -> {
                    say(out, "220 here");
                    for (String line = in.readLine(); line != null; line = in.readLine()) {
                        heard.add(line);
                        say(out, line.startsWith("EHLO") ? "250-here\r\n250 AUTH PLAIN LOGIN" : "250 ok");
                    }
                });
                Channel channel = channel(plain.port(), Security.STARTTLS, Optional.of("shop"), 3, "ada@example.org")) {
            assertThat(send(channel)).isInstanceOf(Outcome.Failed.class);
            assertThat(heard).noneMatch(l -> l.startsWith("AUTH") || l.startsWith("MAIL") || l.contains(MARKER));
        }
    }

    @Test
    void a_certificate_nobody_vouches_for_is_a_failure() throws Exception {
        GreenMail server = server("smtps");
        try (Channel channel =
                channel(server.getSmtps().getPort(), Security.TLS, Optional.of("shop"), 5, "ada@example.org")) {
            assertThat(send(channel))
                    .isInstanceOfSatisfying(
                            Outcome.Failed.class, f -> assertThat(f.why()).contains("certificate"));
            assertThat(server.getReceivedMessages()).isEmpty();
        } finally {
            server.stop();
        }
    }

    /** RFC 5321 section 4.2.3: 550 is final; the other address is served all the same, and once. */
    @Test
    void who_is_refused_does_not_keep_others_from_getting_it() throws Exception {
        List<String> recipients = new CopyOnWriteArrayList<>();
        try (BadServer picky = new BadServer((server, in, out) -> {
                    say(out, "220 here");
                    boolean data = false;
                    for (String line = in.readLine(); line != null; line = in.readLine()) {
                        if (data) {
                            data = !line.equals(".");
                            if (!data) {
                                say(out, "250 taken");
                            }
                        } else if (line.startsWith("DATA")) {
                            data = true;
                            say(out, "354 go on");
                        } else if (line.startsWith("RCPT")) {
                            recipients.add(line);
                            say(out, line.contains("ben@") ? "550 no such user" : "250 ok");
                        } else {
                            say(out, "250 ok");
                        }
                    }
                });
                Channel channel = channel(
                        picky.port(), Security.NONE, Optional.empty(), 3, "ada@example.org", "ben@example.org")) {
            assertThat(send(channel))
                    .isInstanceOfSatisfying(
                            Outcome.Refused.class, r -> assertThat(r.why()).contains("1 of 2 people", "550"));
            assertThat(send(channel)).isInstanceOf(Outcome.Refused.class);
            assertThat(recipients.stream().filter(l -> l.contains("ada@"))).hasSize(1);
            assertThat(recipients.stream().filter(l -> l.contains("ben@"))).hasSize(2);
        }
    }
}
