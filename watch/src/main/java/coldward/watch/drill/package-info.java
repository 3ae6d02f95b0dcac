/**
 * Does the trip work, measured? A deliberate failure, timed from the failure to the trip, each action and the safe state,
 * and compared with what the model predicts for it. Times are s after the failure, speeds rpm, clock times ns of the
 * ticker. The coast law and the stop time are the model's; what counts as passed is this project's own (IEC 61511 for the
 * idea of the proof test).
 */
@NullMarked
package coldward.watch.drill;

import org.jspecify.annotations.NullMarked;
