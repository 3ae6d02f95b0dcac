/**
 * Will this wiring work, and will it hurt the board? Builds circuits from the description, solves them over states and
 * corners and turns the numbers into findings. Volts, amperes, ohms, seconds, degrees Celsius; voltages to board ground.
 * Physics: {@link coldward.model.circuit}; rules and their sources: docs/wiring.md.
 */
@NullMarked
package coldward.model.wiring.analysis;

import org.jspecify.annotations.NullMarked;
