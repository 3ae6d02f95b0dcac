package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.cause.Cause;
import coldward.proof.CauseEvaluation.Course;
import coldward.proof.CauseEvaluation.Evidence;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How often the ranking finds what is the matter with the rig's fans; docs/causes.md says the same. */
class CauseEvaluationTest {

    private static final int CASES = 500;

    private static final String GENERATED =
            "<!-- From here on made from the program's data and a run against the rig; a test compares. -->\n";

    @Test
    void theTrueCauseIsFoundAndThePageSaysHowOften() throws IOException {
        List<Course> asFiled = CauseEvaluation.run(CauseEvaluation.SEED, CASES, Evidence.AS_FILED, 1);
        List<Course> oneNumber = CauseEvaluation.run(CauseEvaluation.SEED, CASES, Evidence.ONE_NUMBER, 1);
        List<Course> heldOut = CauseEvaluation.run(CauseEvaluation.HELD_OUT_SEED, CASES, Evidence.AS_FILED, 1);
        assertThat(asFiled.stream().map(c -> c.of().truth()).distinct()).hasSize(Cause.values().length);
        for (List<Course> courses : List.of(asFiled, oneNumber, heldOut)) {
            List<Course> apart = CauseEvaluation.separable(courses);
            assertThat(apart).hasSizeGreaterThan(CASES / 2);
            assertThat(CauseEvaluation.share(apart, 1, 1)).isGreaterThanOrEqualTo(0.80);
            assertThat(CauseEvaluation.share(apart, 1, 2)).isGreaterThanOrEqualTo(0.95);
            // the test must be worth it
            assertThat(CauseEvaluation.share(courses, 1, 1)).isGreaterThan(CauseEvaluation.share(courses, 0, 1) + 0.2);
        }
        Path file = Repository.root().resolve("docs/causes.md");
        String page = Repository.text(file);
        assertThat(page).contains(GENERATED);
        String wanted = page.substring(0, page.indexOf(GENERATED) + GENERATED.length())
                + CausesPage.text(asFiled, oneNumber, heldOut);
        Path made = Files.writeString(
                Files.createDirectories(Repository.root().resolve("proof/target"))
                        .resolve("causes.md"),
                wanted);
        assertThat(page.equals(wanted))
                .as("docs/causes.md is what the run found; what it should be is in %s", made)
                .isTrue();
    }

    @Test
    void sameSeedSameCourse() {
        List<Course> one = CauseEvaluation.run(CauseEvaluation.SEED, 20, Evidence.AS_FILED, 1);
        List<Course> other = CauseEvaluation.run(CauseEvaluation.SEED, 20, Evidence.AS_FILED, 1);
        for (int i = 0; i < one.size(); i++) {
            assertThat(one.get(i).rankings()).isEqualTo(other.get(i).rankings());
        }
    }
}
