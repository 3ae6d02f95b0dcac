package coldward.watch;

import coldward.model.build.Action;
import coldward.watch.guard.Reads;
import java.util.concurrent.CompletionStage;

/**
 * The way to one machine. An adapter reconnects by itself, counts what it cannot use, never blocks its caller and
 * never ends before {@link #close}.
 */
public interface Link extends AutoCloseable {

    /**
     * Begins to read; called once.
     *
     * @param listener told of everything, from any thread, one call at a time
     */
    void start(Listener listener);

    /**
     * Requests an action at once, whatever else is under way.
     *
     * @return completes with what became of the request, within a time of the adapter's own; never exceptionally
     */
    CompletionStage<Answer> request(Action action);

    /** What the machine is reached through, for example host and port, so that a common cause can be named. */
    String place();

    /** Ends everything promptly; nothing is delivered afterwards. */
    @Override
    void close();

    /** Who is told. Must return at once. */
    interface Listener {
        /** The machine answered. */
        void observed(Observation observation);

        /** Something could not be read; the link goes on. */
        void troubled(Trouble trouble);
    }

    /**
     * What a machine said at one time.
     *
     * @param at when it was asked, or when it spoke, ns of the ticker
     * @param reads what it said
     */
    record Observation(long at, Reads reads) {}

    /**
     * Something that could not be used.
     *
     * @param kind what kind
     * @param detail one line for people, without secrets
     */
    record Trouble(Kind kind, String detail) {
        /** Kinds of trouble. */
        public enum Kind {
            /** No connection, or it broke. */
            UNREACHABLE("unreachable"),
            /** No complete answer within the time limit. */
            LATE("late"),
            /** An answer that says no, or sends elsewhere. */
            REFUSED("refused"),
            /** More bytes than any right answer has. */
            TOO_LONG("too-long"),
            /** Not what the protocol promises: not JSON, cut off, too deep. */
            UNREADABLE("unreadable"),
            /** A value that should be there is not. */
            MISSING("missing"),
            /** A value of the wrong kind, for example a text for a number. */
            WRONG_KIND("wrong-kind"),
            /** A value that cannot be true. */
            IMPLAUSIBLE("implausible");

            private final String word;

            Kind(String word) {
                this.word = word;
            }

            /** The word in records. */
            public String word() {
                return word;
            }
        }
    }

    /** What became of a request. */
    sealed interface Answer {

        /** The machine has it; whether it took effect is shown by its proof. */
        record Taken() implements Answer {}

        /**
         * The machine said no.
         *
         * @param why one line
         */
        record Refused(String why) implements Answer {}

        /**
         * The machine could not be asked, or did not answer in time; it may have the request all the same.
         *
         * @param why one line
         */
        record Failed(String why) implements Answer {}
    }
}
