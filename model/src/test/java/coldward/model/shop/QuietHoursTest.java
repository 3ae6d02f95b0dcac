package coldward.model.shop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.InputError;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class QuietHoursTest {

    private static final QuietHours NIGHT = new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0), ZoneOffset.UTC);
    private static final QuietHours NOON = new QuietHours(LocalTime.of(12, 0), LocalTime.of(13, 0), ZoneOffset.UTC);

    private static Instant at(String text) {
        return Instant.parse(text);
    }

    @Test
    void begin_with_their_first_moment_and_end_before_their_last() {
        assertThat(NIGHT.at(at("2026-11-25T21:59:59.999Z"))).isFalse();
        assertThat(NIGHT.at(at("2026-11-25T22:00:00Z"))).isTrue();
        assertThat(NIGHT.at(at("2026-11-26T00:00:00Z"))).isTrue();
        assertThat(NIGHT.at(at("2026-11-26T06:59:59.999Z"))).isTrue();
        assertThat(NIGHT.at(at("2026-11-26T07:00:00Z"))).isFalse();
        assertThat(NOON.at(at("2026-11-25T11:59:59.999Z"))).isFalse();
        assertThat(NOON.at(at("2026-11-25T12:00:00Z"))).isTrue();
        assertThat(NOON.at(at("2026-11-25T13:00:00Z"))).isFalse();
    }

    @Test
    void end_once_a_day() {
        assertThat(NIGHT.endAfter(at("2026-11-25T22:00:00Z"))).isEqualTo(at("2026-11-26T07:00:00Z"));
        assertThat(NIGHT.endAfter(at("2026-11-26T06:59:59.999Z"))).isEqualTo(at("2026-11-26T07:00:00Z"));
        assertThat(NIGHT.endAfter(at("2026-11-26T07:00:00Z"))).isEqualTo(at("2026-11-27T07:00:00Z"));
    }

    /** Central Europe, 29 March 2026: 02:00 becomes 03:00 (IANA time zone database). */
    @Test
    void an_end_that_the_clock_skips_comes_as_much_later() {
        QuietHours spring = new QuietHours(LocalTime.of(23, 0), LocalTime.of(2, 30), ZoneId.of("Europe/Berlin"));
        Instant end = spring.endAfter(at("2026-03-29T00:00:00Z"));
        assertThat(end).isEqualTo(at("2026-03-29T01:30:00Z"));
        assertThat(spring.at(end)).isFalse();
    }

    @Test
    void last_no_whole_day() {
        assertThatThrownBy(() -> new QuietHours(LocalTime.NOON, LocalTime.NOON, ZoneOffset.UTC))
                .isInstanceOf(InputError.class);
    }

    @Test
    void a_secret_does_not_show_itself() {
        assertThat(new Secret("marker-7f3a").toString()).isEqualTo("(secret)");
        assertThat("x"
                        + new NoticeRules.Heartbeat(
                                new Secret("http://h/marker-7f3a"), "http://h", java.util.Map.of(), 60))
                .doesNotContain("marker-7f3a");
    }
}
