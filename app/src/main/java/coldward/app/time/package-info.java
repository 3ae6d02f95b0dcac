/**
 * What time is it? The one real clock of the process, wall milliseconds for people and monotonic nanoseconds for
 * decisions; everything else gets it passed in.
 */
@NullMarked
package coldward.app.time;

import org.jspecify.annotations.NullMarked;
