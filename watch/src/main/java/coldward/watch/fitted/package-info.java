/**
 * Which fan was fitted when? A printer's fans follow one another; history and baseline belong to the fan that was fitted
 * then. Times are wall time, ms since 1970, speeds rpm. The kinds of third wire are the trade's.
 */
@NullMarked
package coldward.watch.fitted;

import org.jspecify.annotations.NullMarked;
