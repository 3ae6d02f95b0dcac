/**
 * When is the shown fan speed the true one? Closed forms for sampled, edge and period counters, with
 * jitter and under a chopped supply; pulse rates in Hz, speeds
 * in rpm, times in s, duty as the share of the period that is high. Derived here (a periodic signal sampled periodically
 * is a rotation of the circle) and checked against a brute-force simulation; published tachometer facts in the tests.
 */
@NullMarked
package coldward.model.reading;

import org.jspecify.annotations.NullMarked;
