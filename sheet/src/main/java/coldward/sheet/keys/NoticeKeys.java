package coldward.sheet.keys;

import static coldward.quantity.Dimension.TIME;
import static coldward.sheet.keys.Key.COMMON_PRACTICE;
import static coldward.sheet.keys.Key.choice;
import static coldward.sheet.keys.Key.count;
import static coldward.sheet.keys.Key.group;
import static coldward.sheet.keys.Key.keys;
import static coldward.sheet.keys.Key.quantity;
import static coldward.sheet.keys.Key.text;

import java.util.List;

/** The keys of a shop file that say how people are told. */
final class NoticeKeys {

    private static final String LOCAL_TIME = "([01][0-9]|2[0-3]):[0-5][0-9]";
    private static final String NAME = "[A-Za-z0-9][A-Za-z0-9._-]{0,39}";
    private static final String ADDRESS = "[^\\s@<>,;\"]+@[^\\s@<>,;\"]+";

    private NoticeKeys() {}

    static Key notices() {
        return group(
                        "notices",
                        Shape.Group.of(keys(
                                Key.of(
                                                "webhooks",
                                                new Shape.Rows(Shape.Group.of(webhook()), 1),
                                                "[{name: pager, url: \"http://localhost:9090/notices\"}]",
                                                "web addresses that messages are posted to, as CloudEvents 1.0")
                                        .optional(),
                                Key.of(
                                                "mails",
                                                new Shape.Rows(Shape.Group.of(mail()), 1),
                                                "[{name: post, host: mail.example.org, from: shop@example.org, to: [ada@example.org]}]",
                                                "mail servers and the people reached through them")
                                        .optional(),
                                group(
                                                "repeat",
                                                Shape.Group.of(repeat()),
                                                "{first: 5 min, longest: 1 h, most: 10}",
                                                "how often a message that nobody acknowledges is said again")
                                        .optional(),
                                group(
                                                "quiet_hours",
                                                Shape.Group.of(quiet()),
                                                "{from: \"22:00\", until: \"07:00\"}",
                                                "when only danger is said at once; the rest comes at its end, as one message")
                                        .optional(),
                                group(
                                                "heartbeat",
                                                Shape.Group.of(heartbeat()),
                                                "{url_from: {env: HEARTBEAT_URL}, every: 5 min}",
                                                "a sign of life that goes out, so that a dead watch is noticed")
                                        .optional())),
                        "{webhooks: [{name: pager, url: \"http://localhost:9090/notices\"}]}",
                        "how people are told, besides on the terminal")
                .optional();
    }

    private static List<Key> webhook() {
        return keys(
                name("pager"),
                url(),
                reference("url_from", "PAGER_URL", "where the address is kept, if it holds a token"),
                headers(),
                reference("signed_by", "PAGER_KEY", "key of the signature (RFC 9421, hmac-sha256); absent: unsigned"),
                limit());
    }

    private static List<Key> mail() {
        return keys(
                name("post"),
                text("host", "[A-Za-z0-9.:_-]+", "the name or address of a host", "mail.example.org", "the mail server")
                        .required(),
                count("port", 1, 65535, "587", "its port; absent: 587 with starttls, 465 with tls, 25 with none")
                        .optional(),
                choice(
                                "security",
                                List.of("starttls", "tls", "none"),
                                "starttls",
                                "starttls: refused unless the server can; none: only within this computer")
                        .or("starttls", COMMON_PRACTICE),
                text("user", "shop@example.org", "name to sign in with").optional(),
                reference("password", "MAIL_PASSWORD", "to sign in with"),
                text("from", ADDRESS, "an e-mail address", "shop@example.org", "the sender's address")
                        .required(),
                Key.of(
                                "to",
                                new Shape.Texts(new Shape.Text(ADDRESS, "an e-mail address")),
                                "[ada@example.org]",
                                "who gets the messages")
                        .required(),
                limit());
    }

    private static List<Key> repeat() {
        return keys(
                quantity("first", TIME, "1 s", "24 h", "5 min", "after the message; then twice as long, and so on")
                        .or("5 min", COMMON_PRACTICE),
                quantity("longest", TIME, "1 s", "168 h", "1 h", "between two repeats at most")
                        .or("1 h", COMMON_PRACTICE),
                count("most", 0, 100, "10", "repeats of one message").or("10", COMMON_PRACTICE));
    }

    private static List<Key> quiet() {
        return keys(
                text("from", LOCAL_TIME, "a time of day, HH:MM", "22:00", "their first minute")
                        .required(),
                text("until", LOCAL_TIME, "a time of day, HH:MM", "07:00", "their end; may be on the next day")
                        .required(),
                text("zone", "Europe/Berlin", "whose clock is meant (IANA time zone); absent: this computer's")
                        .optional());
    }

    private static List<Key> heartbeat() {
        return keys(
                url(),
                reference("url_from", "HEARTBEAT_URL", "where the address is kept, if it holds a token"),
                headers(),
                quantity("every", TIME, "5 s", "24 h", "5 min", "between two signs of life")
                        .or("5 min", COMMON_PRACTICE));
    }

    private static Key name(String example) {
        return text("name", NAME, "a word of letters, digits, dots and dashes", example, "unique in the shop")
                .required();
    }

    private static Key url() {
        return text("url", "http://localhost:9090/notices", "the address, if it holds no secret")
                .optional();
    }

    private static Key limit() {
        return quantity("time_limit", TIME, "100 ms", "120 s", "10 s", "for one attempt, everything included")
                .or("10 s", COMMON_PRACTICE);
    }

    private static Key headers() {
        return Key.of(
                        "headers",
                        new Shape.Named(Shape.Group.of(reference("NAME"))),
                        "{Authorization: {env: PAGER_TOKEN}}",
                        "sent with every message; values only from the environment or a file, never here")
                .optional();
    }

    private static Key reference(String name, String variable, String meaning) {
        return group(name, Shape.Group.of(reference(variable)), "{env: " + variable + "}", meaning)
                .optional();
    }

    private static List<Key> reference(String variable) {
        return keys(
                text(
                                "env",
                                "[A-Za-z_][A-Za-z0-9_]*",
                                "the name of an environment variable",
                                variable,
                                "environment variable that holds the value")
                        .optional(),
                text(
                                "file",
                                "pager.secret",
                                "file that holds the value, relative to this file, readable by its owner only")
                        .optional());
    }
}
