package coldward.watch;

/** Where people are told. Telling never blocks and never fails the caller; an adapter retries and reports by itself. */
@FunctionalInterface
public interface Notices {

    /** Tells people. */
    void tell(Notice notice);
}
