package coldward.watch.guard;

import static coldward.quantity.Checks.notBlank;

import coldward.quantity.InputError;
import java.util.Optional;
import java.util.OptionalLong;

/** What happens to a guard. Every event carries its own time, ns of one monotonic clock. */
public sealed interface GuardEvent {

    /** When, ns. */
    long at();

    /**
     * The machine answered or spoke.
     *
     * @param at when, ns
     * @param reads what it said, some or all of its reads
     */
    record Report(long at, Reads reads) implements GuardEvent {}

    /**
     * Time has passed; this is how silence and the end of a bypass are noticed.
     *
     * @param at now, ns
     */
    record Tick(long at) implements GuardEvent {}

    /**
     * Somebody takes back a trip.
     *
     * @param at when, ns
     * @param name who, not blank
     * @param reason why, not blank
     */
    record Release(long at, String name, String reason) implements GuardEvent {
        public Release {
            notBlank("release name", name);
            notBlank("release reason", reason);
        }
    }

    /**
     * Somebody asks that the guard does not trip for a while; it goes on judging and telling.
     *
     * @param at when, ns
     * @param name who, not blank
     * @param reason why, not blank
     * @param until when it ends by itself, ns, after {@code at} and at most {@link #LONGEST_BYPASS} after it
     */
    record Bypass(long at, String name, String reason, long until) implements GuardEvent {
        public Bypass {
            notBlank("bypass name", name);
            notBlank("bypass reason", reason);
            if (until - at <= 0 || until - at > LONGEST_BYPASS) {
                throw new InputError(
                        "bypass until",
                        "bypass lasts " + (until - at) / 1_000_000_000L + " s but must last above 0 and at most "
                                + LONGEST_BYPASS / 1_000_000_000L + " s");
            }
        }
    }

    /**
     * The watch begins again after an end of any kind; the first event of a guard that has a past.
     *
     * @param at when, ns
     * @param tripped the cause of a trip that was latched at the end
     * @param asked whether the fan was asked to turn at the end, as far as is known
     * @param hardEnd whether the watch ended without saying so
     * @param bypassUntil end of a bypass still running, ns
     */
    record Resumed(long at, Optional<TripCause> tripped, boolean asked, boolean hardEnd, OptionalLong bypassUntil)
            implements GuardEvent {}

    /**
     * The watch itself was not running for a while (a suspended computer); the silence until now is not the machine's.
     *
     * @param at now, ns
     */
    record Stalled(long at) implements GuardEvent {}

    /** ns; one day. A bypass that outlives the day that needed it is a removed guard. */
    long LONGEST_BYPASS = 24L * 3600 * 1_000_000_000L;
}
