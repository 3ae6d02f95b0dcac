/**
 * When is the machine safe after a failure, and is that soon enough? From the fan's failure over coast-down, reports,
 * confirmations, link and machine to the stop time; speeds in rpm, times in s. Closed forms derived here, checked against
 * reports played one by one. And how often does it trip for nothing? Run lengths after Feller I, XIII.7.
 */
@NullMarked
package coldward.model.trip;

import org.jspecify.annotations.NullMarked;
