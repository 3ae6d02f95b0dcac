/**
 * The models: pure functions on records, in SI units, without parser, file, clock or thread. Sub-packages answer one
 * question each: {@code build} what the printer is, {@code heat} how long its cold side lasts, {@code reading} whether
 * the shown speed is the true one, {@code trip} when the machine is safe after a failure.
 */
@NullMarked
package coldward.model;

import org.jspecify.annotations.NullMarked;
