/**
 * Which trip speed, how many confirmations, which response? Joins heat, reports and stop time over every way of failing
 * into one recommendation with its margin, its spurious trips and what binds it. rpm, s, trips per 1,000 h; the rules are
 * the project's own, the statistics those of the trip package (docs/trip.md).
 */
@NullMarked
package coldward.model.design;

import org.jspecify.annotations.NullMarked;
