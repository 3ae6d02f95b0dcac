/**
 * How is a whole shop watched from one process? Builds the watch from a shop file, keeps its state folder, shows the live
 * table, answers on the control socket. Seconds, rpm and degC in words; nothing is computed here.
 */
@NullMarked
package coldward.app.shop;

import org.jspecify.annotations.NullMarked;
