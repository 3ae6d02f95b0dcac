/**
 * Does the recommended trip save the hot end, and how often does it trip for nothing? Failures by the thousand on the
 * rig, in process and faster than the clock, judged by the same guard as in the watch. Seconds, rpm, kelvin.
 */
@NullMarked
package coldward.proof.fast;

import org.jspecify.annotations.NullMarked;
