package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.shop.ChannelSpec;
import coldward.model.shop.NoticeRules;
import coldward.model.shop.Shop;
import coldward.quantity.DataError;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The notices of a shop file. */
class NoticeKeysTest {

    private static final Path SHOP = Path.of("src/test/resources/shops/brook-lane.yaml");

    /** Seeded wherever a secret belongs; must turn up in no finding. */
    private static final String MARKER = "marker-c0ffee-4711";

    private static final Map<String, String> ENVIRONMENT =
            Map.of("PAGER_URL", "https://pager.example.org/" + MARKER, "TOKEN", "Bearer " + MARKER, "KEY", MARKER);

    @TempDir
    Path folder;

    @BeforeEach
    void layOut() throws IOException {
        Files.createDirectories(folder.resolve("shops"));
        Files.createDirectories(folder.resolve("sheets"));
        Files.copy(SheetsTest.HERON, folder.resolve("sheets/heron.yaml"));
        Files.copy(SHOP.resolveSibling("finch.yaml"), folder.resolve("shops/finch.yaml"));
        Path secret = Files.writeString(folder.resolve("shops/mail.secret"), MARKER + "\n");
        Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-------"));
    }

    private Path shop(String notices) throws IOException {
        return Files.writeString(folder.resolve("shops/shop.yaml"), Files.readString(SHOP) + notices);
    }

    private List<DataError> wrong(String notices) throws IOException {
        List<DataError> found = Shops.check(shop(notices), ENVIRONMENT);
        assertThat(found.toString()).doesNotContain(MARKER);
        return found;
    }

    @Test
    void everything_that_can_be_said() throws IOException {
        Path file = shop("""
                notices:
                  webhooks:
                    - name: pager
                      url_from: {env: PAGER_URL}
                      headers: {Authorization: {env: TOKEN}}
                      signed_by: {env: KEY}
                    - {name: lamp, url: "http://localhost:9090/notices", time_limit: 2 s}
                  mails:
                    - name: post
                      host: mail.example.org
                      user: shop@example.org
                      password: {file: mail.secret}
                      from: shop@example.org
                      to: [ada@example.org, ben@example.org]
                  repeat: {first: 2 min, longest: 30 min, most: 4}
                  quiet_hours: {from: 22:00, until: "07:00", zone: Europe/Berlin}
                  heartbeat: {url_from: {env: PAGER_URL}, every: 1 min}
                """);
        assertThat(Shops.check(file, ENVIRONMENT)).isEmpty();
        Shop shop = Shops.read(file, ENVIRONMENT);
        NoticeRules rules = shop.notices();
        assertThat(rules.channels()).extracting(ChannelSpec::name).containsExactly("pager", "lamp", "post");
        ChannelSpec.Webhook pager = (ChannelSpec.Webhook) rules.channels().getFirst();
        assertThat(pager.url().value()).endsWith(MARKER);
        assertThat(pager.place()).isEqualTo("https://pager.example.org");
        assertThat(pager.timeLimit()).isEqualTo(10);
        ChannelSpec.Mail post = (ChannelSpec.Mail) rules.channels().getLast();
        assertThat(post.port()).isEqualTo(587);
        assertThat(post.password().orElseThrow().value()).isEqualTo(MARKER);
        assertThat(post.to()).hasSize(2);
        assertThat(rules.repeats()).isEqualTo(new NoticeRules.Repeats(120, 1800, 4));
        assertThat(rules.quiet().orElseThrow().from()).isEqualTo(LocalTime.of(22, 0));
        assertThat(rules.quiet().orElseThrow().zone()).isEqualTo(ZoneId.of("Europe/Berlin"));
        assertThat(rules.heartbeat().orElseThrow().every()).isEqualTo(60);
        assertThat(shop.toString()).doesNotContain(MARKER);
    }

    @Test
    void a_shop_without_notices_tells_on_the_terminal_only() throws IOException {
        assertThat(Shops.read(shop(""), Map.of()).notices()).isEqualTo(NoticeRules.none());
    }

    @Test
    void a_secret_file_that_others_may_read_is_refused() throws IOException {
        Files.setPosixFilePermissions(
                folder.resolve("shops/mail.secret"), PosixFilePermissions.fromString("rw-r--r--"));
        assertThat(
                        wrong(
                                "notices: {webhooks: [{name: a, url: \"http://localhost/\", signed_by: {file: mail.secret}}]}\n"))
                .singleElement()
                .satisfies(e -> assertThat(e.getMessage()).contains("by others", "chmod 600"));
    }

    /** Each is wrong in one way, and no finding shows what may be a secret. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "webhooks: [{name: a, url: \"http://u:marker-c0ffee-4711@h/\"}] | url",
                "webhooks: [{name: a, url: \"ftp://h/marker-c0ffee-4711\"}] | url",
                "webhooks: [{name: a, url: \"http:// marker-c0ffee-4711\"}] | url",
                "webhooks: [{name: a}] | url_from",
                "webhooks: [{name: a, url: \"http://h/\", url_from: {env: PAGER_URL}}] | exactly one",
                "webhooks: [{name: a, url_from: {env: NOWHERE}}] | NOWHERE",
                "webhooks: [{name: a, url_from: marker-c0ffee-4711}] | must not stand here",
                "webhooks: [{name: a, url: \"http://h/\", signed_by: marker-c0ffee-4711}] | must not stand here",
                "webhooks: [{name: a, url: \"http://h/\", headers: {Authorization: marker-c0ffee-4711}}] | must not stand",
                "webhooks: [{name: a, url: \"http://h/\"}, {name: a, url: \"http://h/\"}] | twice",
                "mails: [{name: m, host: h, from: a@b, to: [c@d], user: u}] | password",
                "mails: [{name: m, host: h, from: a@b, to: [c@d], user: u, password: marker-c0ffee-4711}] | must not stand",
                "mails: [{name: m, host: h, from: a@b, to: [c@d], user: u, password: {env: KEY}, security: none}] | open",
                "mails: [{name: m, host: h, from: nobody, to: [c@d]}] | e-mail address",
                "repeat: {first: 1 h, longest: 1 min} | longest",
                "quiet_hours: {from: \"25:00\", until: \"07:00\"} | time of day",
                "quiet_hours: {from: \"07:00\", until: \"07:00\"} | differ",
                "quiet_hours: {from: \"22:00\", until: \"07:00\", zone: Nowhere/Town} | time zone",
                "heartbeat: {every: 1 min} | url"
            })
    void is_told_where_it_stands(String line, String hint) throws IOException {
        assertThat(wrong("notices: {" + line + "}\n"))
                .isNotEmpty()
                .anySatisfy(e -> assertThat(e.getMessage()).contains(hint));
    }

    @Test
    void nothing_that_is_kept_shows_a_secret() throws IOException {
        assertThat(Optional.of(Shops.read(shop("notices: {heartbeat: {url_from: {env: PAGER_URL}}}\n"), ENVIRONMENT)
                                .notices())
                        .toString())
                .doesNotContain(MARKER);
    }
}
