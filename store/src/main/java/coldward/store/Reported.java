package coldward.store;

import coldward.watch.guard.Reads;

/** What a machine said at one time, wall time in ms since 1970. */
record Reported(long wallMillis, Reads reads) {}
