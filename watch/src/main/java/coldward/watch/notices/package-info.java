/**
 * Do people hear of it? The board takes every notice, hands it to each channel until that has it, says it again until
 * somebody acknowledges, keeps quiet hours and survives a restart by the journal; the heartbeat shows that the watch
 * lives. Times are nanoseconds of the ticker; wall times ms since 1970. Messages are data, channels are a port.
 */
@NullMarked
package coldward.watch.notices;

import org.jspecify.annotations.NullMarked;
