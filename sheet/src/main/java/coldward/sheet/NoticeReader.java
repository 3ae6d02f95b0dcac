package coldward.sheet;

import coldward.model.shop.ChannelSpec;
import coldward.model.shop.NoticeRules;
import coldward.model.shop.QuietHours;
import coldward.model.shop.Secret;
import coldward.quantity.InputError;
import coldward.sheet.yaml.Tree;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** How people are told, out of a shop file. Findings go to the facts; secrets go nowhere but into the result. */
final class NoticeReader {

    private static final String AT = "notices";
    private static final String HEADER_NAME = "[!#$%&'*+.^_`|~0-9A-Za-z-]+";

    private final ShopFacts facts;
    private final SecretReader secrets;

    NoticeReader(ShopFacts facts, Path folder, Map<String, String> environment) {
        this.facts = facts;
        this.secrets = new SecretReader(facts, folder, environment);
    }

    NoticeRules rules() {
        if (!facts.isGiven(AT)) {
            return NoticeRules.none();
        }
        List<ChannelSpec> channels = new ArrayList<>();
        for (int i = 0; i < facts.rows(AT + ".webhooks"); i++) {
            webhook(AT + ".webhooks[" + i + "]").ifPresent(channels::add);
        }
        for (int i = 0; i < facts.rows(AT + ".mails"); i++) {
            mail(AT + ".mails[" + i + "]").ifPresent(channels::add);
        }
        try {
            return new NoticeRules(channels, repeats(), quiet(), heartbeat());
        } catch (InputError e) {
            facts.problem(AT, String.valueOf(e.getMessage()));
            return NoticeRules.none();
        }
    }

    private Optional<ChannelSpec> webhook(String at) {
        Optional<Secret> signedBy = facts.isGiven(at + ".signed_by") ? secrets.at(at + ".signed_by") : Optional.empty();
        Map<String, Secret> headers = headers(at + ".headers");
        String name = facts.wanted(at + ".name");
        double limit = facts.wantedQuantity(at + ".time_limit");
        return address(at).map(a -> new ChannelSpec.Webhook(name, a.url(), a.place(), headers, signedBy, limit));
    }

    private Optional<ChannelSpec> mail(String at) {
        ChannelSpec.Security security = switch (facts.wanted(at + ".security")) {
            case "tls" -> ChannelSpec.Security.TLS;
            case "none" -> ChannelSpec.Security.NONE;
            default -> ChannelSpec.Security.STARTTLS;
        };
        int usual = switch (security) {
            case STARTTLS -> 587;
            case TLS -> 465;
            case NONE -> 25;
        };
        int port = facts.find(at + ".port").map(Integer::parseInt).orElse(usual);
        Optional<String> user = facts.find(at + ".user");
        Optional<Secret> password = facts.isGiven(at + ".password") ? secrets.at(at + ".password") : Optional.empty();
        if (user.isPresent() != facts.isGiven(at + ".password")) {
            facts.problem(
                    at, "needs both user and password, or neither; write for example password: {env: MAIL_PASSWORD}");
            return Optional.empty();
        }
        if (user.isPresent() && password.isEmpty()) {
            return Optional.empty();
        }
        if (security == ChannelSpec.Security.NONE && password.isPresent()) {
            facts.problem(at + ".security", "none would send the password in the open; write starttls or tls");
            return Optional.empty();
        }
        List<String> to = facts.tree(at + ".to").orElse(null) instanceof Tree.Sequence list
                ? list.items().stream()
                        .map(t -> t instanceof Tree.Scalar s ? s.text() : "")
                        .toList()
                : List.of();
        try {
            return Optional.of(new ChannelSpec.Mail(
                    facts.wanted(at + ".name"),
                    facts.wanted(at + ".host"),
                    port,
                    security,
                    user,
                    password,
                    facts.wanted(at + ".from"),
                    to,
                    facts.wantedQuantity(at + ".time_limit")));
        } catch (InputError e) {
            facts.problem(at, String.valueOf(e.getMessage()));
            return Optional.empty();
        }
    }

    private NoticeRules.Repeats repeats() {
        double first = facts.wantedQuantity(AT + ".repeat.first");
        double longest = facts.wantedQuantity(AT + ".repeat.longest");
        int most = Integer.parseInt(facts.wanted(AT + ".repeat.most"));
        if (longest < first) {
            facts.problem(AT + ".repeat.longest", "is shorter than the first repeat; write for example longest: 1 h");
            return NoticeRules.Repeats.USUAL;
        }
        return new NoticeRules.Repeats(first, longest, most);
    }

    private Optional<QuietHours> quiet() {
        String at = AT + ".quiet_hours";
        if (!facts.isGiven(at)) {
            return Optional.empty();
        }
        String zone = facts.find(at + ".zone").orElse("");
        try {
            return Optional.of(new QuietHours(
                    LocalTime.parse(facts.wanted(at + ".from")),
                    LocalTime.parse(facts.wanted(at + ".until")),
                    zone.isEmpty() ? ZoneId.systemDefault() : ZoneId.of(zone)));
        } catch (InputError e) {
            facts.problem(at + ".until", String.valueOf(e.getMessage()));
        } catch (DateTimeException e) {
            facts.problem(at + ".zone", zone + " is no time zone; write for example Europe/Berlin");
        }
        return Optional.empty();
    }

    private Optional<NoticeRules.Heartbeat> heartbeat() {
        String at = AT + ".heartbeat";
        if (!facts.isGiven(at)) {
            return Optional.empty();
        }
        Map<String, Secret> headers = headers(at + ".headers");
        double every = facts.wantedQuantity(at + ".every");
        return address(at).map(a -> new NoticeRules.Heartbeat(a.url(), a.place(), headers, every));
    }

    /** Where something is sent, and what people may see of it. */
    private record Address(Secret url, String place) {}

    private Optional<Address> address(String at) {
        boolean open = facts.isGiven(at + ".url");
        if (open == facts.isGiven(at + ".url_from")) {
            facts.problem(
                    at,
                    "needs exactly one of url and url_from; write for example url: \"http://localhost:9090/notices\", or url_from: {env: PAGER_URL} where the address holds a token");
            return Optional.empty();
        }
        String key = at + (open ? ".url" : ".url_from");
        Optional<Secret> url = open ? facts.find(key).map(Secret::new) : secrets.at(key);
        if (url.isEmpty()) {
            return Optional.empty();
        }
        try {
            URI uri = new URI(url.get().value());
            String scheme = String.valueOf(uri.getScheme());
            if (uri.getHost() != null && uri.getRawUserInfo() == null && scheme.matches("https?")) {
                String port = uri.getPort() < 0 ? "" : ":" + uri.getPort();
                return Optional.of(new Address(url.get(), scheme + "://" + uri.getHost() + port));
            }
        } catch (URISyntaxException e) {
            // told below, without the text: it may hold a token
        }
        facts.problem(
                key,
                "is not an http or https address without name and password (not shown, it may hold a token); write for example http://localhost:9090/notices");
        return Optional.empty();
    }

    private Map<String, Secret> headers(String at) {
        Map<String, Secret> headers = new LinkedHashMap<>();
        for (String header : facts.namesUnder(at)) {
            if (!header.matches(HEADER_NAME)) {
                facts.problem(
                        at + "." + header, "is not the name of a header (RFC 9110); write for example Authorization");
            } else {
                secrets.at(at + "." + header).ifPresent(s -> headers.put(header, s));
            }
        }
        return headers;
    }
}
