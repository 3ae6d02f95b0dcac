package coldward.model.wiring.analysis;

import coldward.model.wiring.Board;
import coldward.model.wiring.Input;
import coldward.model.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;

/** An input that something is wired to. */
record Signal(Board board, Input input) {

    static List<Signal> of(Wiring wiring) {
        List<Signal> signals = new ArrayList<>();
        for (Board board : wiring.boards()) {
            for (Input input : board.inputs()) {
                Signal signal = new Signal(board, input);
                if (!wiring.wiresAt(new coldward.model.wiring.ContactId(board.name(), input.contact()))
                        .isEmpty()) {
                    signals.add(signal);
                }
            }
        }
        return signals;
    }

    /** Where findings point. */
    String at() {
        return CircuitOfWiring.node(board, input.contact());
    }

    double supply() {
        return board.railOf(input.rail()).voltage();
    }

    boolean clamped() {
        return !input.isTolerant(supply());
    }
}
