package coldward.app.command;

import coldward.app.terminal.Terminal;
import coldward.model.cause.CauseRanker;
import coldward.model.cause.CauseRanking;
import coldward.model.cause.Look;
import coldward.model.cause.Seen;
import coldward.quantity.CannotRun;
import coldward.quantity.ColdwardError;
import coldward.quantity.Dimension;
import coldward.quantity.Units;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Asks for the number, then for one look after another, always the one that says most for its cost. */
final class CauseInterview {

    private static final int MOST_QUESTIONS = 12;

    private final Terminal terminal;
    private final CauseRanker ranker;

    CauseInterview(Terminal terminal, CauseRanker ranker) {
        this.terminal = terminal;
        this.ranker = ranker;
    }

    /** Until nothing more would help, or the answers end. */
    CauseRanking run(List<Seen> known) {
        List<Seen> seen = new ArrayList<>(known);
        try (Prompt.Answers answers = Prompt.answers(terminal)) {
            if (seen.isEmpty()) {
                answer(answers, Seen.Asked.of(Look.SHOWN)).ifPresent(seen::add);
            }
            if (seen.isEmpty()) {
                throw new CannotRun("no answer: the speed that is shown is needed to begin");
            }
            CauseRanking ranking = ranker.rank(seen);
            CausesOutput.print(ranking, terminal);
            Set<Look> skipped = new HashSet<>();
            for (int i = 0; i < MOST_QUESTIONS; i++) {
                Optional<CauseRanking.NextTest> next =
                        ranker.rank(seen, skipped).nextTest();
                if (next.isEmpty()) {
                    break;
                }
                terminal.line();
                Optional<Seen> one = answer(answers, next.get().asked());
                if (one.isPresent()) {
                    seen.add(one.get());
                    ranking = ranker.rank(seen, skipped);
                    CausesOutput.print(ranking, terminal);
                } else if (answers.ended()) {
                    break;
                } else {
                    skipped.add(next.get().asked().look());
                }
            }
            return ranking;
        }
    }

    private Optional<Seen> answer(Prompt.Answers answers, Seen.Asked asked) {
        Look look = asked.look();
        String hint = look.choices().isEmpty() ? look.unit() : String.join(" / ", look.choices());
        while (true) {
            Optional<String> text = answers.ask(CausesOutput.question(asked) + " (" + hint + "; empty to skip)");
            if (text.isEmpty()) {
                return Optional.empty();
            }
            try {
                return Optional.of(new Seen(asked, value(look, text.get())));
            } catch (ColdwardError e) {
                terminal.folded(e.getMessage() == null ? "not understood" : e.getMessage(), "");
            }
        }
    }

    private static double value(Look look, String text) {
        if (!look.choices().isEmpty()) {
            return look.choice(text);
        }
        String unit = look.unit();
        return Units.parse(
                look == Look.SUPPLY ? Dimension.VOLTAGE : Dimension.SPEED_OF_TURN,
                look.key(),
                text.matches("[0-9.eE+-]+") ? text + " " + unit : text);
    }
}
