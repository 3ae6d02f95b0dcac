package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The whole story by itself, on real sockets, in time. */
class TourTest {

    private static final double IN_UNDER_SECONDS = 40;

    @Test
    void passesInUnderFortySeconds() {
        long began = System.nanoTime();
        try (ChildJvm tour = ChildJvm.start("tour", "--json")) {
            int code = tour.awaitEnd();
            double took = (System.nanoTime() - began) / 1e9;
            assertThat(code).as(tour.output() + tour.errors()).isZero();
            OutputSchemas.assertFits("tour", tour.output());
            JsonNode told = JsonMapper.shared().readTree(tour.output());
            assertThat(told.path("passed").asBoolean()).isTrue();
            assertThat(told.path("journal_whole").asBoolean()).isTrue();
            assertThat(told.path("stop_time_s").asDouble())
                    .isLessThan(told.path("deadline").path("until_s").asDouble());
            assertThat(told.path("aftermath").path("deepest_mm").asDouble())
                    .isLessThanOrEqualTo(told.path("aftermath").path("limit_mm").asDouble());
            assertThat(took).isLessThan(IN_UNDER_SECONDS);
            assertThat(tour.errors()).isEmpty();
        }
    }
}
