/**
 * Is the fan still doing its job, and what is done when it is not? The guard (a pure state machine), the supervision
 * around it, and the ports that adapters fill: Link to a machine, Notice to people, Journal and History to a database.
 * Times are nanoseconds of the one ticker, speeds rpm, temperatures kelvin.
 */
@NullMarked
package coldward.watch;

import org.jspecify.annotations.NullMarked;
