package coldward.proof;

import coldward.model.cause.Cause;
import coldward.model.cause.Look;
import coldward.model.cause.Tolerances;
import coldward.proof.CauseEvaluation.Course;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The tables of docs/causes.md: the ranking's own data, and how it fared against the rig. */
final class CausesPage {

    private static final int PAIRS = 8;

    private final StringBuilder out = new StringBuilder();

    private CausesPage() {}

    static String text(List<Course> asFiled, List<Course> oneNumber, List<Course> heldOut) {
        CausesPage page = new CausesPage();
        page.data();
        page.evaluation(
                "What is seen: number, three commands, three intervals where sampled, plug pulled",
                asFiled,
                CauseEvaluation.SEED);
        page.evaluation("What is seen: one number, nothing else", oneNumber, CauseEvaluation.SEED);
        page.evaluation(
                "The first again, on cases that nobody had looked at while choosing",
                heldOut,
                CauseEvaluation.HELD_OUT_SEED);
        page.pairs();
        return page.out.toString();
    }

    private void line(String text) {
        out.append(text).append('\n');
    }

    private void row(List<String> cells) {
        line("| " + String.join(" | ", cells) + " |");
    }

    private void data() {
        line("\n## Causes and their weights\n");
        row(List.of("cause", "weight", "what it means"));
        row(List.of("---", "---:", "---"));
        for (Cause cause : Cause.values()) {
            row(List.of("`" + cause.key() + "`", Checks.number(cause.weight()), cause.words()));
        }
        line("\nCommon practice, no source.\n\n## Looks and their costs\n");
        row(List.of("look", "minutes", "what is looked at", "answers"));
        row(List.of("---", "---:", "---", "---"));
        for (Look look : Look.values()) {
            row(List.of(
                    "`" + look.key() + "`",
                    Checks.number(look.minutes()),
                    look.words(),
                    look.choices().isEmpty() ? look.unit() : String.join(", ", look.choices())));
        }
        line("\nA judgement, no source: %s minutes for any look, the rest is its own."
                .formatted(Checks.number(Look.MINUTES_FOR_ANY)));
        line("\n## Tolerances\n");
        row(List.of("unknown", "from", "to", "source"));
        row(List.of("---", "---:", "---:", "---"));
        for (Tolerances one : Tolerances.values()) {
            row(List.of(
                    one.words(),
                    Checks.number(one.low()),
                    one.low() == one.high() ? "" : Checks.number(one.high()),
                    one.source().isEmpty() ? "common practice, no source" : one.source()));
        }
    }

    private void evaluation(String heading, List<Course> courses, long seed) {
        line("\n## " + heading + "\n");
        List<Course> apart = CauseEvaluation.separable(courses);
        line("%d cases, seed %d, of which %d can be told apart.\n".formatted(courses.size(), seed, apart.size()));
        row(List.of("true cause", "first", "first two"));
        row(List.of("---", "---:", "---:"));
        for (int tests : new int[] {0, 1}) {
            row(List.of(
                    tests == 0 ? "before the proposed test" : "after it",
                    percent(CauseEvaluation.share(apart, tests, 1)),
                    percent(CauseEvaluation.share(apart, tests, 2))));
        }
        long tested = courses.stream().filter(c -> c.rankings().size() > 1).count();
        line(
                "\nA test was proposed in %d cases. Rows: the true cause; columns: what stood first after the test, by its number.\n"
                        .formatted(tested));
        List<String> head = new ArrayList<>(List.of("cause", "cases", "first before", "first after"));
        for (Cause cause : Cause.values()) {
            head.add(Integer.toString(number(cause)));
        }
        row(head);
        String[] rule = new String[head.size()];
        Arrays.fill(rule, "---:");
        rule[0] = "---";
        row(List.of(rule));
        for (Cause truth : Cause.values()) {
            List<Course> of =
                    courses.stream().filter(c -> c.of().truth() == truth).toList();
            List<String> cells = new ArrayList<>(List.of(
                    number(truth) + " `" + truth.key() + "`",
                    Integer.toString(of.size()),
                    of.isEmpty() ? "" : percent(CauseEvaluation.share(of, 0, 1)),
                    of.isEmpty() ? "" : percent(CauseEvaluation.share(of, 1, 1))));
            for (Cause first : Cause.values()) {
                long count = of.stream().filter(c -> c.first(1) == first).count();
                cells.add(count == 0 ? "" : Long.toString(count));
            }
            row(cells);
        }
    }

    private void pairs() {
        line("\n## What cannot be told apart\n");
        List<CauseEvaluation.Pair> pairs = CauseEvaluation.PAIRS;
        long lost =
                pairs.stream().filter(p -> p.alike() >= CauseEvaluation.ALIKE).count();
        line(
                "The share of outcomes that two causes have in common under the look that tells them apart best, on the sheet");
        line("where it does so worst. Pairs at %s or above count as not told apart: %s.\n"
                .formatted(Checks.number(CauseEvaluation.ALIKE), lost == 0 ? "there is none" : "there are " + lost));
        row(List.of("pair", "in common", "by"));
        row(List.of("---", "---:", "---"));
        for (CauseEvaluation.Pair pair : pairs.subList(0, PAIRS)) {
            row(List.of(
                    "`%s`, `%s`".formatted(pair.one().key(), pair.other().key()),
                    "%.2f".formatted(pair.alike()),
                    "`" + pair.best().key() + "`"));
        }
    }

    private static int number(Cause cause) {
        return 1 + List.of(Cause.values()).indexOf(cause);
    }

    private static String percent(double share) {
        return "%.1f %%".formatted(100 * share);
    }
}
