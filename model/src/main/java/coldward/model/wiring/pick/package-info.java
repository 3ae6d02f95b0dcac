/**
 * Which pull-up and which diode work in every corner, and which pair is best? Ohms, volts. Solves the whole wiring for each
 * pair ({@link coldward.model.wiring.analysis}); preferred values after IEC 60063.
 */
@NullMarked
package coldward.model.wiring.pick;

import org.jspecify.annotations.NullMarked;
