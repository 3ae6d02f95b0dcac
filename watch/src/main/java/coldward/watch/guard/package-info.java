/**
 * Is the fan still doing its job, judged from one report after another? A pure state machine: states, legal transitions
 * and effects are data, and {@link coldward.watch.guard.Guard#step} has no clock, thread, log or input of its own.
 * Times are nanoseconds carried by the events, speeds rpm, temperatures kelvin; the rules are this project's own.
 */
@NullMarked
package coldward.watch.guard;

import org.jspecify.annotations.NullMarked;
