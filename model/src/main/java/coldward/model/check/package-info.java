/**
 * Is this printer ready to run with nobody beside it? Heat, wiring, reading and trip brought together in one verdict, what costs
 * margin ranked by its seconds, and what the printer's sensors would not notice. Seconds, rpm, kelvin; the limits are
 * those of the packages asked, thresholds of its own are common practice, no source.
 */
@NullMarked
package coldward.model.check;

import org.jspecify.annotations.NullMarked;
