package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.cause.Cause;
import java.util.List;
import org.junit.jupiter.api.Test;

class CauseEvaluationTest {
    @Test
    void quick() {
        for (var evidence : CauseEvaluation.Evidence.values()) {
            long t = System.nanoTime();
            List<CauseEvaluation.Course> courses = CauseEvaluation.run(500, evidence, 3);
            System.out.println(evidence + " " + (System.nanoTime() - t) / 1e9 + " s");
            for (int tests = 0; tests <= 3; tests++) {
                System.out.printf(
                        "%d: first %.3f two %.3f%n",
                        tests, CauseEvaluation.share(courses, tests, 1), CauseEvaluation.share(courses, tests, 2));
            }
            for (Cause c : Cause.values()) {
                List<CauseEvaluation.Course> of =
                        courses.stream().filter(x -> x.of().truth() == c).toList();
                StringBuilder b = new StringBuilder();
                for (Cause d : Cause.values())
                    b.append("%4d"
                            .formatted(of.stream().filter(x -> x.first(1) == d).count()));
                System.out.printf(
                        "%-20s %3d  first %.2f -> %.2f two %.2f %s%n",
                        c.key(),
                        of.size(),
                        CauseEvaluation.share(of, 0, 1),
                        CauseEvaluation.share(of, 1, 1),
                        CauseEvaluation.share(of, 1, 2),
                        b);
            }
        }
        assertThat(1).isEqualTo(1);
    }
}
