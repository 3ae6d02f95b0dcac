/** Tests of the supervision, over event time and with machines that do what they are told, or not. */
@NullMarked
package coldward.watch;

import org.jspecify.annotations.NullMarked;
