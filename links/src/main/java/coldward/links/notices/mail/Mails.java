package coldward.links.notices.mail;

import coldward.links.notices.MessageText;
import coldward.model.shop.ChannelSpec;
import coldward.model.shop.Secret;
import coldward.quantity.InputError;
import coldward.quantity.Ticker;
import coldward.watch.Notice;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Channel.Outcome;
import coldward.watch.notices.Message;
import jakarta.mail.Address;
import jakarta.mail.AuthenticationFailedException;
import jakarta.mail.MessagingException;
import jakarta.mail.SendFailedException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.AddressException;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import javax.net.ssl.SSLSocketFactory;
import org.eclipse.angus.mail.smtp.SMTPAddressFailedException;
import org.eclipse.angus.mail.smtp.SMTPSendFailedException;

/** The mail servers of a shop. Each attempt has a thread of its own, since the mail library waits where it stands. */
public final class Mails implements AutoCloseable {

    /** SMTP replies of this and above are final (RFC 5321 section 4.2.1). */
    private static final int FINAL = 500;

    /** RFC 5322 section 3.3. */
    private static final DateTimeFormatter SENT =
            DateTimeFormatter.ofPattern("EEE, d MMM yyyy HH:mm:ss Z", Locale.ENGLISH);

    private final ExecutorService threads = Executors.newVirtualThreadPerTaskExecutor();
    private final Ticker ticker;
    private final SSLSocketFactory encryption;
    private final ZoneId zone;

    /**
     * @param ticker the clock
     * @param zone whose clock is written in mails
     */
    public Mails(Ticker ticker, ZoneId zone) {
        this(ticker, zone, (SSLSocketFactory) SSLSocketFactory.getDefault());
    }

    /** With certificates of the caller's. */
    Mails(Ticker ticker, ZoneId zone, SSLSocketFactory encryption) {
        this.ticker = ticker;
        this.zone = zone;
        this.encryption = encryption;
    }

    /**
     * The channel through one server.
     *
     * @throws InputError if an address cannot be used
     */
    public Channel channel(ChannelSpec.Mail spec) {
        return new Server(spec);
    }

    @Override
    public void close() {
        threads.shutdownNow();
    }

    /** One server and the people reached through it. */
    private final class Server implements Channel {
        private final ChannelSpec.Mail spec;
        private final InternetAddress from;
        private final List<InternetAddress> to;

        /** Who has got a message that others have not, by the message's id. */
        private final Map<String, Set<Address>> got = new ConcurrentHashMap<>();

        Server(ChannelSpec.Mail spec) {
            this.spec = spec;
            this.from = address(spec.from());
            this.to = spec.to().stream().map(Server::address).toList();
        }

        private static InternetAddress address(String text) {
            try {
                return new InternetAddress(text, true);
            } catch (AddressException e) {
                throw new InputError("mail address", text + " is no e-mail address that can be used");
            }
        }

        @Override
        public String name() {
            return spec.name();
        }

        @Override
        public CompletionStage<Outcome> send(Message message) {
            CompletableFuture<Outcome> outcome = new CompletableFuture<>();
            Sockets sockets = new Sockets();
            try {
                threads.execute(() -> outcome.complete(attempt(message, sockets)));
            } catch (RejectedExecutionException e) {
                outcome.complete(new Outcome.Failed("the watch ends"));
                return outcome;
            }
            Ticker.Pending timer = ticker.after(Math.round(spec.timeLimit() * 1e9), () -> {
                outcome.complete(
                        new Outcome.Failed("%s was not done within %.1f s".formatted(spec.host(), spec.timeLimit())));
                // closing an encrypted socket may wait for its last words
                Thread.ofVirtual().start(sockets::end);
            });
            CompletionStage<Outcome> watched = outcome;
            watched.whenComplete((o, error) -> timer.close());
            return outcome;
        }

        private Outcome attempt(Message message, Sockets sockets) {
            Set<Address> before = got.getOrDefault(message.id(), Set.of());
            List<Address> missing = new ArrayList<>(to);
            missing.removeAll(before);
            Session session = Session.getInstance(settings(sockets));
            try (Transport transport = session.getTransport("smtp")) {
                MimeMessage mail = written(session, message);
                transport.connect(
                        spec.host(),
                        spec.port(),
                        spec.user().orElse(null),
                        spec.password().map(Secret::value).orElse(null));
                transport.sendMessage(mail, missing.toArray(Address[]::new));
                got.remove(message.id());
                return new Outcome.Delivered();
            } catch (SendFailedException e) {
                Set<Address> now = new HashSet<>(before);
                if (e.getValidSentAddresses() != null) {
                    now.addAll(Arrays.asList(e.getValidSentAddresses()));
                }
                if (!now.isEmpty()) {
                    got.put(message.id(), now);
                }
                return refused(e, to.size() - now.size());
            } catch (AuthenticationFailedException e) {
                return new Outcome.Refused(spec.host() + " does not accept the user or the password");
            } catch (MessagingException e) {
                return new Outcome.Failed(spec.host() + ": " + why(e));
            } catch (RuntimeException e) {
                // the library fails so on some nonsense of a server
                return new Outcome.Failed(
                        spec.host() + " speaks nonsense (" + e.getClass().getSimpleName() + ")");
            }
        }

        private Outcome refused(SendFailedException failure, int without) {
            int code = 0;
            for (Exception e = failure;
                    e != null;
                    e = e instanceof MessagingException m ? m.getNextException() : null) {
                if (e instanceof SMTPAddressFailedException address) {
                    code = Math.max(code, address.getReturnCode());
                } else if (e instanceof SMTPSendFailedException whole) {
                    code = Math.max(code, whole.getReturnCode());
                }
            }
            String why = "%s does not take it for %d of %d people%s"
                    .formatted(spec.host(), without, to.size(), code > 0 ? " (reply " + code + ")" : "");
            return code >= FINAL ? new Outcome.Refused(why) : new Outcome.Failed(why);
        }

        /** The kind of failure only: a server's words may repeat what it was told. */
        private static String why(MessagingException failure) {
            Exception cause = failure.getNextException();
            return switch (cause) {
                case null -> "the mail session failed";
                case java.net.UnknownHostException e -> "the host's name is not known";
                case java.net.ConnectException e -> "no connection";
                case java.net.SocketTimeoutException e -> "no answer in time";
                case javax.net.ssl.SSLException e -> "no encrypted connection; look at its certificate";
                default -> "no connection, or it broke (" + cause.getClass().getSimpleName() + ")";
            };
        }

        private Properties settings(Sockets sockets) {
            String millis = Long.toString(Math.max(1, Math.round(spec.timeLimit() * 1000)));
            Properties p = new Properties();
            p.put("mail.smtp.connectiontimeout", millis);
            p.put("mail.smtp.timeout", millis);
            p.put("mail.smtp.socketFactory", sockets.plain());
            p.put("mail.smtp.ssl.socketFactory", sockets.encrypted(encryption));
            p.put("mail.smtp.ssl.checkserveridentity", "true");
            // no second connection by another way, which no deadline would close
            p.put("mail.smtp.socketFactory.fallback", "false");
            p.put("mail.smtp.auth", Boolean.toString(spec.user().isPresent()));
            // people who can be reached get it even if others cannot
            p.put("mail.smtp.sendpartial", "true");
            // a name would be looked up, which may take long; RFC 5321 section 4.1.3 allows an address
            p.put("mail.smtp.localhost", "[127.0.0.1]");
            switch (spec.security()) {
                case STARTTLS -> {
                    p.put("mail.smtp.starttls.enable", "true");
                    p.put("mail.smtp.starttls.required", "true");
                }
                case TLS -> p.put("mail.smtp.ssl.enable", "true");
                case NONE -> p.put("mail.smtp.starttls.enable", "false");
            }
            return p;
        }

        private MimeMessage written(Session session, Message message) throws MessagingException {
            MimeMessage mail = new Identified(session, named(message.id()));
            mail.setFrom(from);
            mail.setRecipients(jakarta.mail.Message.RecipientType.TO, to.toArray(Address[]::new));
            mail.setSubject(message.line().replaceAll("\\p{Cntrl}", " "), "UTF-8");
            mail.setText(MessageText.of(message, zone), "UTF-8");
            mail.setHeader(
                    "Date",
                    SENT.format(Instant.ofEpochMilli(ticker.wallMillis()).atZone(zone)));
            // RFC 3834 section 5: so that nobody's absence note answers it
            mail.setHeader("Auto-Submitted", "auto-generated");
            if (message.signal() == Notice.Signal.DANGER) {
                mail.setHeader("Importance", "high");
            }
            if (message.first().isPresent()) {
                mail.setHeader("In-Reply-To", named(message.first().get()));
                mail.setHeader("References", named(message.first().get()));
            }
            mail.saveChanges();
            return mail;
        }

        private String named(String id) {
            String address = from.getAddress();
            return "<" + id + address.substring(address.indexOf('@')) + ">";
        }

        @Override
        public void close() {
            // attempts under way end by their own deadline, or with the shop's threads
        }
    }

    /** A mail that keeps its own id: the same for each attempt, so that mail programs show it once. */
    private static final class Identified extends MimeMessage {
        private final String id;

        Identified(Session session, String id) {
            super(session);
            this.id = id;
        }

        @Override
        protected void updateMessageID() throws MessagingException {
            setHeader("Message-ID", id);
        }
    }
}
