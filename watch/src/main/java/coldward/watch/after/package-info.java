/**
 * What did a trip do to the filament, and what now? The recorded speed and temperatures, or where there are none the
 * journal's times, go through the heat model again. Times are s after the trip, temperatures K, depths m, speeds rpm. The
 * instructions follow the trade: nothing is drawn back while it is soft (common practice, no source).
 */
@NullMarked
package coldward.watch.after;

import org.jspecify.annotations.NullMarked;
