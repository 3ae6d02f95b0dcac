/**
 * Does the whole thing do what it says? Real commands, real processes, real sockets; architecture and documents too.
 * Waiting is always for a condition, with limits that a busy machine keeps.
 */
@NullMarked
package coldward.proof;

import org.jspecify.annotations.NullMarked;
