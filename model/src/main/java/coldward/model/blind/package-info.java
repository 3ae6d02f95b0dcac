/**
 * What would this printer's sensors not notice, and what would? Told from what is read alone: no quantity, no unit. The
 * faults and their signs are the trade's (common practice, no source).
 */
@NullMarked
package coldward.model.blind;

import org.jspecify.annotations.NullMarked;
