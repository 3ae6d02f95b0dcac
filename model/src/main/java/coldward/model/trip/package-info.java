/**
 * When is the machine safe after a failure, and is that soon enough? From the fan's failure over coast-down, reports,
 * confirmations, link and machine to the stop time; speeds in rpm, times in s. Closed forms derived here, checked against
 * reports played one by one; the trip's own design (noise, spurious trips) builds on them.
 */
@NullMarked
package coldward.model.trip;

import org.jspecify.annotations.NullMarked;
