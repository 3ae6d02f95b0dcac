/**
 * What would the watch have done? A ticker that follows the events' own time and a journal kept in memory, so that
 * supervision runs over recorded or simulated time, faster than real time and the same every time. Times are
 * nanoseconds of the event clock; everything runs on the thread that advances it.
 */
@NullMarked
package coldward.watch.replay;

import org.jspecify.annotations.NullMarked;
