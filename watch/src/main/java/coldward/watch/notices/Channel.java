package coldward.watch.notices;

import static coldward.quantity.Checks.notNegative;

import java.util.concurrent.CompletionStage;

/**
 * One way to people: a web address, a mail server, a broker. An adapter does one attempt when asked; the board repeats.
 * It never blocks its caller and shows no secret in what it says.
 */
public interface Channel extends AutoCloseable {

    /** Its name, unique in the shop. */
    String name();

    /**
     * Tries once to deliver.
     *
     * @return completes with what came of it, within a time of the adapter's own; never exceptionally
     */
    CompletionStage<Outcome> send(Message message);

    /** Ends everything promptly. */
    @Override
    void close();

    /** What came of one attempt. */
    sealed interface Outcome {

        /** The other side has it. */
        record Delivered() implements Outcome {}

        /**
         * The other side said no, and will probably say so again.
         *
         * @param why one line, without secrets
         */
        record Refused(String why) implements Outcome {}

        /**
         * It could not be reached, was late or spoke nonsense; another attempt may do.
         *
         * @param why one line, without secrets
         * @param notBefore s for which it asks to be left alone, 0 if it does not
         */
        record Failed(String why, double notBefore) implements Outcome {
            public Failed {
                notNegative("not before", notBefore, "s");
            }

            /** It asks for no pause. */
            public Failed(String why) {
                this(why, 0);
            }
        }
    }
}
