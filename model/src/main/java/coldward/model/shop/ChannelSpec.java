package coldward.model.shop;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** One way to people, all data. Secrets never show. */
public sealed interface ChannelSpec {

    /** Its name, unique in the shop. */
    String name();

    /** s for one attempt, everything included. */
    double timeLimit();

    /**
     * A web address that messages are posted to.
     *
     * @param name unique in the shop
     * @param url where to; often holds a token, so it never shows
     * @param place scheme, host and port of it, for people
     * @param headers sent with every message
     * @param signedBy key of the signature, if messages are signed
     * @param timeLimit s for one attempt
     */
    record Webhook(
            String name,
            Secret url,
            String place,
            Map<String, Secret> headers,
            Optional<Secret> signedBy,
            double timeLimit)
            implements ChannelSpec {
        public Webhook {
            notBlank("webhook name", name);
            within("webhook time_limit", timeLimit, 0.1, 120, "s");
            headers = Map.copyOf(headers);
        }
    }

    /** How a mail server is spoken to. */
    enum Security {
        /** Plain at first, then encrypted; refused if the server cannot (RFC 3207). */
        STARTTLS("starttls"),
        /** Encrypted from the beginning (RFC 8314). */
        TLS("tls"),
        /** Not at all; only for a server on this computer. */
        NONE("none");

        private final String word;

        Security(String word) {
            this.word = word;
        }

        /** The word in the shop file. */
        public String word() {
            return word;
        }
    }

    /**
     * A mail server (SMTP, RFC 5321).
     *
     * @param name unique in the shop
     * @param host the server
     * @param port its port, 1 to 65535
     * @param security how it is spoken to
     * @param user name to sign in with, if needed
     * @param password to sign in with; present if and only if {@code user} is
     * @param from sender's address
     * @param to receivers' addresses, at least one
     * @param timeLimit s for one attempt
     */
    record Mail(
            String name,
            String host,
            int port,
            Security security,
            Optional<String> user,
            Optional<Secret> password,
            String from,
            List<String> to,
            double timeLimit)
            implements ChannelSpec {
        public Mail {
            notBlank("mail name", name);
            notBlank("mail host", host);
            within("mail port", port, 1, 65535);
            within("mail time_limit", timeLimit, 0.1, 120, "s");
            to = List.copyOf(to);
            if (to.isEmpty()) {
                throw new InputError("mail to", "mail to has no address but needs at least one");
            }
            if (user.isPresent() != password.isPresent()) {
                throw new InputError("mail password", "mail needs both user and password, or neither");
            }
        }
    }
}
