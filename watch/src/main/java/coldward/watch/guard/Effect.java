package coldward.watch.guard;

/** What a step asks for or has done, as data; whoever runs the guard carries it out and journals it. */
public sealed interface Effect {

    /** When, ns: the time of the event. */
    long at();

    /** The fan's state changed. */
    record Changed(long at, FanState from, FanState to) implements Effect {}

    /**
     * The trip: start the response.
     *
     * @param at when, ns
     * @param cause why
     * @param firstLowAt when the first of the low reports came, ns; {@code at} where the cause is another
     */
    record StartResponse(long at, TripCause cause, long firstLowAt) implements Effect {}

    /**
     * Tripped already, used again since its response let go, and the fan still does not turn: carry out the response
     * again.
     *
     * @param at when, ns
     * @param firstLowAt when the first of the low reports of this use came, ns
     */
    record RespondAgain(long at, long firstLowAt) implements Effect {}

    /** People should know. */
    record Tell(long at, Matter matter) implements Effect {}

    /** A trip was taken back. */
    record Released(long at, String name, String reason) implements Effect {}

    /** A release was asked for but nothing is tripped. */
    record NotReleased(long at, String name, String reason) implements Effect {}

    /** A bypass began, or an earlier one was replaced. */
    record Bypassed(long at, String name, String reason, long until) implements Effect {}

    /** A bypass ended by itself. */
    record BypassOver(long at) implements Effect {}

    /** What people are told of. */
    enum Matter {
        /** No report in time although the machine was hot, about to be, or working. */
        UNHEARD,
        /** Reports again after such a silence. */
        HEARD_AGAIN,
        /** The cold side warms although the speed is fine. */
        WARMING,
        /** A speed is shown although the fan is commanded off. */
        TURNS_WHILE_OFF,
        /** The signals agree again. */
        AGREES_AGAIN,
        /** Tripped, but used again without a release; its fan turns. */
        USED_WHILE_TRIPPED
    }
}
