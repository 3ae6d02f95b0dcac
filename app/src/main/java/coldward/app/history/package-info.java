/**
 * What did a machine report, and when? Recordings as CSV (RFC 4180) and out of the watch's history, both as the guard's
 * own reports: times in ns, reads in their SI units and rpm; and the spell of one that a baseline may be taken from.
 */
@NullMarked
package coldward.app.history;

import org.jspecify.annotations.NullMarked;
